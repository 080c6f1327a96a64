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
    120_000,
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
