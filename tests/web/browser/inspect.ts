import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'

const NARROW = { width: 360, height: 740 }
const WIDE = { width: 1280, height: 800 }

/** More stops than any page has; a walk that is longer goes round in a circle. */
const MOST_STOPS = 400

/** What is in order need not be listed. */
const BRIEF = { resultTypes: ['violations' as const] }

/** Rules that colours alone decide. */
const COLOURS = ['color-contrast', 'link-in-text-block']

/** What is serious against the page as it stands. */
export async function seriousOn(page: Page, name: string): Promise<string[]> {
  // The size of targets (WCAG 2.2, 2.5.8) is off by default.
  const rules = { 'target-size': { enabled: true } }
  return serious(axeOn(page).options({ ...BRIEF, rules }), name)
}

/** The same in both themes. */
export async function seriousInBothThemes(page: Page, name: string): Promise<string[]> {
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' })
  const ink = () => page.evaluate(() => getComputedStyle(document.body).color)
  const [byDay, light] = [await ink(), await seriousOn(page, `${name}, light`)]
  await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' })
  if ((await ink()) === byDay) throw new Error(`${name} has one theme only`)
  return [...light, ...(await seriousColours(page, `${name}, dark`))]
}

/** The same of what hangs on the theme alone: its colours. All else was looked at in the other theme. */
function seriousColours(page: Page, name: string): Promise<string[]> {
  return serious(
    axeOn(page)
      .options({ ...BRIEF })
      .withRules(COLOURS),
    name,
  )
}

/** The pages have no frames, so it needs no second page to put results together. */
function axeOn(page: Page): AxeBuilder {
  return new AxeBuilder({ page }).setLegacyMode()
}

async function serious(axe: AxeBuilder, name: string): Promise<string[]> {
  const { violations } = await axe.analyze()
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${name} ${id}: ${nodes[0]?.html.slice(0, 160)}`)
}

/** Once the page has its heading, and nothing of it is on its way. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(
    () =>
      document.querySelector('main h1') !== null &&
      document.querySelector('main :is(.loading, progress)') === null,
  )
  await drawn(page)
}

/** Once the charts have the width that the page has now. */
export async function drawn(page: Page): Promise<void> {
  await page.evaluate(
    () =>
      new Promise((resolve) =>
        requestAnimationFrame(() => requestAnimationFrame(() => resolve(0))),
      ),
  )
}

/** Everything that is wrong with a page as it stands, at both widths and in both themes. */
export async function faultsOf(page: Page, name: string): Promise<string[]> {
  const faults: string[] = []
  await page.setViewportSize(WIDE)
  await drawn(page)
  faults.push(...(await tooWide(page, name)))
  await page.setViewportSize(NARROW)
  await drawn(page)
  faults.push(...(await tooWide(page, name)), ...(await headingFaults(page, name)))
  faults.push(...(await seriousInBothThemes(page, name)))
  return faults
}

async function tooWide(page: Page, name: string): Promise<string[]> {
  const [width, room] = await page.evaluate(() => [
    document.documentElement.scrollWidth,
    window.innerWidth,
  ])
  const tables = await page
    .locator('.table-box:has([data-head])')
    .evaluateAll((all) =>
      all
        .filter((box) => box.closest('details') === null && box.scrollWidth > box.clientWidth + 1)
        .map(
          (box) => `${box.getAttribute('aria-label')} ${box.scrollWidth} of ${box.clientWidth} px`,
        ),
    )
  return [
    ...(width! > room! ? [`${name}: ${width} px wide in ${room} px`] : []),
    ...tables.map((table) => `${name}: a table scrolls, ${table}`),
  ]
}

/** One heading of the first level, and no level left out. */
async function headingFaults(page: Page, name: string): Promise<string[]> {
  const levels = await page
    .locator('h1, h2, h3, h4')
    .evaluateAll((all) => all.map(({ tagName }) => Number(tagName.slice(1))))
  const jump = levels.findIndex((level, index) => level - (levels[index - 1] ?? 0) > 1)
  const firsts = levels.filter((level) => level === 1).length
  return [
    ...(firsts === 1 ? [] : [`${name}: ${firsts} headings of the first level`]),
    ...(jump < 0 ? [] : [`${name}: heading ${jump} leaves a level out`]),
  ]
}

/** Opens all that is folded, also what comes with it. */
export async function openAll(page: Page): Promise<void> {
  const closed = page.locator('main details:not([open]) > summary')
  while ((await closed.count()) > 0) {
    await closed.first().evaluate((summary: HTMLElement) => summary.click())
    await settled(page)
  }
}

/** Charts of an opened page without a table or a text that say the same, and how many charts there are. */
export async function chartFaults(page: Page, name: string) {
  const charts = await page.locator('main figure').evaluateAll((all) =>
    all.map((figure) => ({
      text: figure.querySelector('[role=img]')?.getAttribute('aria-label') ?? '',
      rows: figure.querySelectorAll('table tbody tr').length,
    })),
  )
  const faults = charts
    .filter(({ text, rows }) => text.length < 40 || rows === 0)
    .map(({ text }) => `${name}: a chart without its twin: ${text}`)
  return { charts: charts.length, faults }
}

/** Walks through the page by key: every stop is in sight, named by what it shows, and marked. */
export async function keyboardFaults(page: Page, name: string): Promise<string[]> {
  const faults: string[] = []
  await page.setViewportSize(NARROW)
  await drawn(page)
  for (let stop = 0; stop < MOST_STOPS; stop++) {
    await page.keyboard.press('Tab')
    let fault = await page.evaluate(faultOfFocus)
    if (fault === 'end') return faults
    if (fault !== null) {
      // Answers that came meanwhile may have moved the page: there and back again.
      await settled(page)
      await page.keyboard.press('Shift+Tab')
      await page.keyboard.press('Tab')
      fault = await page.evaluate(faultOfFocus)
    }
    if (fault !== null) faults.push(`${name}: ${fault}`)
  }
  return [...faults, `${name}: no end after ${MOST_STOPS} stops`]
}

/** In the page: what is wrong with the stop the focus is at; null where nothing is, end after the last. */
function faultOfFocus(): string | null {
  const at = document.activeElement
  if (at === null || at === document.body) return 'end'
  const words = at.outerHTML.slice(0, 120)
  const { top, bottom, width, height } = at.getBoundingClientRect()
  // A radio button is as large as the label that is drawn for it.
  const shown = at.matches('input[type=radio]') ? at.nextElementSibling! : at
  const isSmall = shown.getBoundingClientRect().height < 24
  const isInline = at.matches('p a, li a, th a, td a, dd a, footer a')
  if (width === 0 || height === 0 || bottom < 0 || top > innerHeight)
    return `out of sight: ${words}`
  if (isSmall && !isInline) return `lower than 24 px: ${words}`
  const style = getComputedStyle(shown)
  const isMarked = style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) >= 2
  return isMarked ? null : `focus not shown: ${words}`
}
