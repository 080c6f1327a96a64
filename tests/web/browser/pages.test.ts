import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { allPages, openStage, type Stage, seriousOn } from './stage.ts'

const BUDGET_BYTES = 150_000

describe.skipIf(CHROMIUM === null)(`every page${WITHOUT}`, () => {
  let stage: Stage
  let pages: string[]

  beforeAll(async () => {
    stage = await openStage()
    pages = await allPages(stage)
  })

  afterAll(() => stage?.close())

  it.each(['light', 'dark'] as const)(
    'has nothing serious against it in the %s theme, at 360 px',
    async (colorScheme) => {
      const viewport = { width: 360, height: 740 }
      const context = await stage.context({ colorScheme, viewport, reducedMotion: 'reduce' })
      const page = await context.newPage()
      const found: string[] = []
      for (const path of pages) {
        await page.goto(path, { waitUntil: 'networkidle' })
        found.push(...(await seriousOn(page, path)))
      }
      expect(found).toEqual([])
    },
    240_000,
  )

  it.each([360, 1280])(
    'fits into a width of %i px',
    async (width) => {
      const context = await stage.context({ viewport: { width, height: 800 } })
      const page = await context.newPage()
      const wide: string[] = []
      for (const path of pages) {
        await page.goto(path, { waitUntil: 'networkidle' })
        const isTooWide = await page.evaluate(
          () => document.documentElement.scrollWidth > window.innerWidth,
        )
        if (isTooWide) wide.push(path)
      }
      expect(wide).toEqual([])
    },
    60_000,
  )

  it(`brings less than ${BUDGET_BYTES / 1000} kB on a first visit, and nothing from elsewhere`, async () => {
    for (const path of pages) {
      // A context of its own is a first visit.
      const context = await stage.context({ serviceWorkers: 'block' })
      const page = await context.newPage()
      const session = await context.newCDPSession(page)
      await session.send('Network.enable')
      let bytes = 0
      session.on('Network.loadingFinished', ({ encodedDataLength }) => {
        bytes += encodedDataLength
      })
      const strangers: string[] = []
      page.on('request', (request) => {
        if (!request.url().startsWith(stage.url)) strangers.push(request.url())
      })
      await page.goto(path, { waitUntil: 'networkidle' })
      expect(strangers, path).toEqual([])
      expect(bytes, path).toBeGreaterThan(10_000)
      expect(bytes, path).toBeLessThan(BUDGET_BYTES)
      await context.close()
    }
  }, 60_000)

  it('has for every chart a table and a text that say the same', async () => {
    const page = await (await stage.context()).newPage()
    const without: string[] = []
    let charts = 0
    for (const path of pages) {
      await page.goto(path, { waitUntil: 'networkidle' })
      for (const closed of await page.locator('main details > summary').all()) await closed.click()
      await page.waitForLoadState('networkidle')
      const bars = page.locator('main progress')
      await page.waitForFunction(() => document.querySelector('main progress') === null)
      expect(await bars.count()).toBe(0)
      for (const figure of await page.locator('main figure').all()) {
        charts += 1
        const text = await figure.getByRole('img').getAttribute('aria-label')
        const hasTable = (await figure.locator('table tbody tr').count()) > 0
        if (!hasTable || (text ?? '').length < 40) without.push(`${path}: ${text}`)
      }
    }
    expect(without).toEqual([])
    expect(charts).toBeGreaterThan(12)
  }, 120_000)

  it('can be worked by keyboard: every stop is in sight, named, and shows the focus', async () => {
    const context = await stage.context({ viewport: { width: 360, height: 740 } })
    const page = await context.newPage()
    const faults: string[] = []
    // The form grows while it is walked through, and the method has nothing to work.
    for (const path of pages.filter((one) => !/method|submit/.test(one))) {
      await page.goto(path, { waitUntil: 'networkidle' })
      for (let stop = 0; stop < 60; stop++) {
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
        if (fault !== null) faults.push(`${path}: ${fault}`)
      }
    }
    expect(faults).toEqual([])
  }, 120_000)

  it('has one heading of the first level, and no level left out', async () => {
    const page = await (await stage.context()).newPage()
    for (const path of pages) {
      await page.goto(path, { waitUntil: 'networkidle' })
      const levels = await page
        .locator('h1, h2, h3, h4')
        .evaluateAll((all) => all.map(({ tagName }) => Number(tagName.slice(1))))
      expect(
        levels.filter((level) => level === 1),
        path,
      ).toHaveLength(1)
      expect(levels[0], path).toBe(1)
      levels.forEach((level, index) => {
        expect(level - (levels[index - 1] ?? 0), `${path}, heading ${index}`).toBeLessThanOrEqual(1)
      })
    }
  }, 60_000)

  it('gives whoever follows an old link a way back, and a program a problem', async () => {
    const page = await (await stage.context()).newPage()
    const answer = await page.goto('/pilots/of-old')
    expect(answer!.status()).toBe(404)
    await page.getByRole('heading', { name: 'There is no such page' }).waitFor()
    await page.getByRole('main').getByRole('link', { name: 'To the start' }).click()
    await page.waitForURL(`${stage.url}/`)
    const program = await fetch(`${stage.url}/v1/pilots`, { headers: { accept: '*/*' } })
    expect(program.status).toBe(404)
    expect(program.headers.get('content-type')).toContain('application/problem+json')
  })

  it('runs under a policy that takes nothing inline, without a complaint', async () => {
    const page = await (await stage.context()).newPage()
    const complaints: string[] = []
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text())
    })
    page.on('pageerror', (error) => complaints.push(error.message))
    for (const path of pages) {
      const answer = await page.goto(path, { waitUntil: 'networkidle' })
      expect(answer!.headers()['content-security-policy']).toContain("default-src 'self'")
    }
    expect(complaints).toEqual([])
  }, 60_000)
})

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
