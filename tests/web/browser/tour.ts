import type { BrowserContext, Page } from 'playwright-core'

import { type Stage, seriousInBothThemes } from './stage.ts'

/** Everything that was seen on one page by one first visit. */
export interface Visit {
  readonly path: string
  /** What came over the line until the page was at rest. */
  readonly bytes: number
  /** Requests to anybody else. */
  readonly strangers: readonly string[]
  /** Errors in the browser's console, and those that nobody caught. */
  readonly complaints: readonly string[]
  readonly policy: string | undefined
  /** 1 for h1, and so on, in their order. */
  readonly headingLevels: readonly number[]
  /** Widths of the window that the page does not fit into. */
  readonly tooNarrow: readonly number[]
  readonly serious: readonly string[]
  /** Faults of the stops of the Tab key. */
  readonly focusFaults: readonly string[]
  readonly charts: readonly {
    readonly text: string | null
    readonly tableRows: number
  }[]
}

const PHONE = { width: 360, height: 740 }
const COUNTER = { width: 1280, height: 800 }
const MOST_STOPS = 60

/** Opens the page as somebody who was never here and looks at all of it, in one visit: a load costs more than a look. */
export async function visit(stage: Stage, path: string): Promise<Visit> {
  const context = await stage.context({
    serviceWorkers: 'block',
    viewport: PHONE,
    colorScheme: 'light',
    reducedMotion: 'reduce',
  })
  const page = await context.newPage()
  const traffic = await listen(context, page, stage.url)
  const answer = await page.goto(path, { waitUntil: 'networkidle' })
  const bytes = traffic.bytes()
  const headingLevels = await page
    .locator('h1, h2, h3, h4')
    .evaluateAll((all) => all.map(({ tagName }) => Number(tagName.slice(1))))
  const tooNarrow = await widthsTooNarrow(page)
  const serious = await seriousInBothThemes(page, path)
  const focusFaults = await walkByKeyboard(page)
  const charts = await openedCharts(page)
  await context.close()
  const policy = answer?.headers()['content-security-policy']
  const { strangers, complaints } = traffic
  return {
    ...{ path, bytes, strangers, complaints, policy },
    ...{ headingLevels, tooNarrow, serious, focusFaults, charts },
  }
}

async function listen(context: BrowserContext, page: Page, home: string) {
  const session = await context.newCDPSession(page)
  await session.send('Network.enable')
  let bytes = 0
  session.on('Network.loadingFinished', ({ encodedDataLength }) => {
    bytes += encodedDataLength
  })
  const strangers: string[] = []
  const complaints: string[] = []
  page.on('request', (request) => {
    if (!request.url().startsWith(home)) strangers.push(request.url())
  })
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  return { bytes: () => bytes, strangers, complaints }
}

async function widthsTooNarrow(page: Page): Promise<number[]> {
  const found: number[] = []
  for (const size of [COUNTER, PHONE]) {
    await page.setViewportSize(size)
    const isTooWide = await page.evaluate(
      () => document.documentElement.scrollWidth > window.innerWidth,
    )
    if (isTooWide) found.push(size.width)
  }
  return found
}

async function walkByKeyboard(page: Page): Promise<string[]> {
  const faults: string[] = []
  for (let stop = 0; stop < MOST_STOPS; stop++) {
    await page.keyboard.press('Tab')
    let fault = await page.evaluate(faultOfFocus)
    if (fault === 'end') break
    if (fault !== null) {
      // Answers that came meanwhile may have moved the page: there and back again.
      await page.waitForLoadState('networkidle')
      await page.keyboard.press('Shift+Tab')
      await page.keyboard.press('Tab')
      fault = await page.evaluate(faultOfFocus)
    }
    if (fault !== null) faults.push(fault)
  }
  return faults
}

/** Opens all that is folded, waits for what that asks for, and reads every chart. */
async function openedCharts(page: Page): Promise<Visit['charts'][number][]> {
  for (const closed of await page.locator('main details > summary').all()) await closed.click()
  await page.waitForLoadState('networkidle')
  await page.waitForFunction(() => document.querySelector('main progress') === null)
  return page.locator('main figure').evaluateAll((figures) =>
    figures.map((figure) => ({
      text: figure.querySelector('[role=img]')?.getAttribute('aria-label') ?? null,
      tableRows: figure.querySelectorAll('table tbody tr').length,
    })),
  )
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
