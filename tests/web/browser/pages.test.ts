import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { chartFaults, faultsOf, keyboardFaults, openAll, settled } from './inspect.ts'
import { openStage, type Stage } from './stage.ts'

const BUDGET_BYTES = 150_000

/** Places of the demo by what is asked of them. */
interface Places {
  readonly setups: readonly string[]
  readonly powerplantId: string
}

const PAGES = {
  start: () => '/',
  ranking: () => '/compare',
  'a comparison of two': ({ setups }) =>
    `/compare?setups=${setups.join(',')}&metric=fuelFlow&tankL=10`,
  'the field form': () => '/submit',
  'the list of setups': () => '/setups',
  'a setup': ({ setups }) => `/setups/${setups[0]}`,
  'a component': ({ powerplantId }) => `/components/${powerplantId}`,
  'the own tests': () => '/mine',
  reviews: () => '/reviews',
  data: () => '/data',
  method: () => '/method',
  'signing in': () => '/sign-in',
} satisfies Record<string, (places: Places) => string>

type Name = keyof typeof PAGES

/** Pages that show charts, and how many at least, folded ones included. */
const CHARTS: Partial<Readonly<Record<Name, number>>> = {
  start: 1,
  ranking: 4,
  'a comparison of two': 4,
  'a setup': 3,
}

describe.skipIf(CHROMIUM === null)(`every page${WITHOUT}`, () => {
  let stage: Stage
  let places: Places

  beforeAll(async () => {
    stage = await openStage()
    const { items } = await stage.read<{ items: { id: string; powerplantId: string }[] }>(
      '/v1/setups?limit=2',
    )
    places = { setups: items.map(({ id }) => id), powerplantId: items[0]!.powerplantId }
  })

  afterAll(() => stage?.close())

  describe.each(Object.keys(PAGES) as Name[])('%s', (name) => {
    let page: Page
    let visit: Visit

    // A context of its own is a first visit.
    beforeAll(async () => {
      const context = await stage.context({ serviceWorkers: 'block', reducedMotion: 'reduce' })
      page = await context.newPage()
      visit = await watched(page, stage.url)
      const answer = await page.goto(PAGES[name](places), { waitUntil: 'networkidle' })
      visit.policy = answer!.headers()['content-security-policy'] ?? ''
      await settled(page)
    })

    afterAll(() => page?.context().close())

    it(`brings less than ${BUDGET_BYTES / 1000} kB on a first visit, and nothing from elsewhere`, () => {
      expect(visit.strangers).toEqual([])
      expect(visit.bytes).toBeGreaterThan(10_000)
      expect(visit.bytes).toBeLessThan(BUDGET_BYTES)
    })

    it('can be worked by keyboard: every stop is in sight, named, and shows the focus', async () => {
      expect(await keyboardFaults(page, name)).toEqual([])
    })

    it('has for every chart a table and a text that say the same', async () => {
      await openAll(page)
      const { charts, faults } = await chartFaults(page, name)
      expect(faults).toEqual([])
      expect(charts).toBeGreaterThanOrEqual(CHARTS[name] ?? 0)
    })

    it('has nothing serious against it in both themes, fits at 360 and 1280 px, and its headings are in order', async () => {
      expect(await faultsOf(page, name)).toEqual([])
    })

    it('runs under a policy that takes nothing inline, without a complaint', () => {
      expect(visit.policy).toContain("default-src 'self'")
      expect(visit.complaints).toEqual([])
    })
  })

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
})

/** What is noted while a page is looked at. */
interface Visit {
  bytes: number
  policy: string
  readonly strangers: string[]
  readonly complaints: string[]
}

async function watched(page: Page, home: string): Promise<Visit> {
  const visit: Visit = { bytes: 0, policy: '', strangers: [], complaints: [] }
  const session = await page.context().newCDPSession(page)
  await session.send('Network.enable')
  session.on('Network.loadingFinished', ({ encodedDataLength }) => {
    visit.bytes += encodedDataLength
  })
  page.on('request', (request) => {
    if (!request.url().startsWith(home)) visit.strangers.push(request.url())
  })
  page.on('console', (message) => {
    if (message.type() === 'error') visit.complaints.push(message.text())
  })
  page.on('pageerror', (error) => visit.complaints.push(error.message))
  return visit
}
