import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { faultsOf, keyboardFaults, openAll, settled } from './inspect.ts'
import {
  fillIn,
  METRIC,
  openStage,
  type Person,
  type Stage,
  signInOn,
  signUpOn,
  tokenOf,
  write,
} from './stage.ts'

const ADMIN: Person = { email: 'keeper@example.org', password: 'late air over the marsh' }

const SESSION = {
  flownOn: '2026-05-10',
  site: { name: 'Larkfield', elevationM: 212 },
  conditions: { temperatureC: 14.5, qnhHPa: 1018, airMotion: 'calm' },
  pilot: { massKg: 82 },
  wing: { flatAreaM2: 25 },
  interest: 'none',
}

interface Named {
  readonly id: string
  readonly name: string
}

describe.skipIf(CHROMIUM === null)(`pages with something on them${WITHOUT}`, () => {
  let stage: Stage
  let person: Person
  let unsafe: Named
  let other: Named

  beforeAll(async () => {
    stage = await openStage({ ADMIN_EMAIL: ADMIN.email, ADMIN_PASSWORD: ADMIN.password })
    const page = await (await stage.context()).newPage()
    person = await signUpOn(page)
    const token = await tokenOf(stage, person)
    const { items } = await stage.read<{ items: Named[] }>('/v1/setups?limit=2')
    unsafe = items[0]!
    other = items[1]!
    const gap = { kind: 'tipClearance', staticClearanceMm: 12, contactSeen: true }
    const climb = {
      kind: 'climb',
      heightGainM: 100,
      durationS: 42,
      startHeightAboveSiteM: 100,
      heightSource: 'barometric',
    }
    const entries = [
      { setupId: unsafe.id, allUpMassKg: 121, runs: [climb, gap] },
      { setupId: other.id, allUpMassKg: 121, runs: [climb] },
    ]
    await write(stage, '/v1/submissions', { token, body: { ...SESSION, entries } })
    await write(stage, '/v1/datasets', { token: await tokenOf(stage, ADMIN), body: {} })
  })

  afterAll(() => stage?.close())

  let visitor: BrowserContext | null = null

  /** Everybody signs in once. */
  async function asPerson(): Promise<Page> {
    if (visitor === null) {
      visitor = await stage.context({ viewport: { width: 360, height: 740 } })
      const page = await visitor.newPage()
      await signInOn(page, person)
      await page.close()
    }
    return visitor.newPage()
  }

  const both = () => `/compare?setups=${unsafe.id},${other.id}`

  const LOOKED_AT = {
    'own tests': () => '/mine',
    'a release': () => '/data',
    'a setup that must not be flown': () => `/setups/${unsafe.id}`,
    'a list with one': () => '/setups',
    'a ranking without it': () => '/compare',
    'a comparison with it': () => `${both()}&tankL=10&reserveL=2`,
  }

  it.each(Object.entries(LOOKED_AT))('have nothing against %s', async (name, address) => {
    const page = await asPerson()
    await page.goto(address())
    await settled(page)
    await openAll(page)
    expect(await faultsOf(page, name)).toEqual([])
    await page.close()
  })

  it('have nothing against the form with a new setup, filled in, and with each kind of run', async () => {
    const page = await asPerson()
    await page.goto('/submit')
    await page.getByText('It is not in the list').click()
    expect(await faultsOf(page, 'a new setup')).toEqual([])
    await page.getByText('It is not in the list').click()
    await fillIn(page, { ...METRIC, time: '4' })
    await page.getByText('Measured something else?').click()
    const kinds = page.locator('.kinds button')
    const count = await kinds.count()
    for (let kind = 0; kind < count; kind++) await kinds.nth(kind).click()
    await page.getByRole('button', { name: 'Stopwatch' }).first().click()
    await openAll(page)
    expect(await page.locator('.run').count()).toBe(count + 1)
    expect(await faultsOf(page, 'a filled form')).toEqual([])
    expect(await keyboardFaults(page, 'a filled form')).toEqual([])
    await page.close()
  })

  it('show what must not be flown before any figure, at 360 px', async () => {
    const context = await stage.context({ viewport: { width: 360, height: 740 } })
    const page = await context.newPage()
    const { powerplantId } = await stage.read<{ powerplantId: string }>(`/v1/setups/${unsafe.id}`)
    const paths = [both(), '/compare', `/setups/${unsafe.id}`, `/components/${powerplantId}`]
    for (const path of paths) {
      await page.goto(path, { waitUntil: 'networkidle' })
      const warning = page.getByRole('main').locator('.warning-stop').first()
      expect(await warning.textContent(), path).toContain('Do not fly')
      expect(await warning.textContent(), path).toContain(unsafe.name)
      const figure = page.locator('main figure, main table, main .verdict').first()
      const above = (await warning.boundingBox())!
      expect(above.y + above.height, path).toBeLessThanOrEqual((await figure.boundingBox())!.y)
    }
    await context.close()
  })

  it('say it again at every place where the setup stands', async () => {
    const page = await (await stage.context()).newPage()
    await page.goto('/setups', { waitUntil: 'networkidle' })
    const item = page.getByRole('main').getByRole('listitem').filter({ hasText: unsafe.name })
    expect(await item.textContent()).toContain('Do not fly')
    await page.goto(`${both()}&tankL=10`, { waitUntil: 'networkidle' })
    const rows = page.getByRole('row').filter({ hasText: unsafe.name })
    await page.getByRole('region', { name: 'From the tank' }).waitFor()
    expect(await rows.count()).toBeGreaterThan(1)
    for (const row of await rows.all()) expect(await row.textContent()).toContain('Do not fly')
    expect(await page.getByTestId('verdict').textContent()).toMatch(/^Do not fly/)
    const pictures = page.locator('svg.picture', { hasText: 'Do not fly' })
    expect(await pictures.count()).toBeGreaterThan(0)
  })

  it('offer files that are there', async () => {
    const page = await (await stage.context()).newPage()
    const made = async () => (await stage.read<{ items: object[] }>('/v1/datasets')).items.length
    await expect.poll(made, { timeout: 60_000 }).toBe(1)
    await page.goto('/data')
    await page.getByRole('link', { name: 'SHA256SUMS' }).waitFor()
    const links = await page.getByRole('main').locator('a[download]').all()
    expect(links.length).toBeGreaterThan(10)
    for (const link of links) {
      const path = (await link.getAttribute('href'))!
      expect((await fetch(`${stage.url}${path}`)).status, path).toBe(200)
    }
  })

  it('print it', async () => {
    const page = await (await stage.context()).newPage()
    await page.goto(both(), { waitUntil: 'networkidle' })
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('main .warning-stop').first().isVisible()).toBe(true)
  })

  it('say how long each setup goes on the tank of the reader, as the predictions do', async () => {
    const page = await (await stage.context()).newPage()
    await page.goto(`${both()}&allUpMassKg=120`, { waitUntil: 'networkidle' })
    await page.getByLabel('Fuel on board').fill('10')
    await page.getByLabel('Kept in reserve').fill('2')
    const table = page.getByRole('region', { name: 'From the tank' })
    const row = table.getByRole('row').filter({ hasText: other.name })
    await page.waitForFunction(() => !document.body.textContent.includes('…'))
    const path = `/v1/setups/${other.id}/predictions?allUpMassKg=120&tankL=10&reserveL=2`
    const { predictions } = await stage.read<{
      predictions: Record<'endurance' | 'range', { value: number }>
    }>(path)
    const text = await row.textContent()
    expect(text).toContain(predictions.endurance.value.toFixed(1))
    expect(text).toContain(predictions.range.value.toFixed(0))
    expect(page.url()).toContain('tankL=10&reserveL=2')
  })

  it.each(['climbRate', 'fuelFlow'])(
    'let the tanks rest on the fit of burns that the answer by %s names in its link',
    async (metric) => {
      const page = await (await stage.context()).newPage()
      const asked: URLSearchParams[] = []
      page.on('request', (request) => {
        const url = new URL(request.url())
        if (url.pathname.endsWith('/predictions')) asked.push(url.searchParams)
      })
      await page.goto(`${both()}&metric=${metric}&tankL=10&excludeInterested=true`)
      await settled(page)
      const link = new URL((await page.locator('.origin a').getAttribute('href'))!, stage.url)
      const fuelFitId = link.searchParams.get('fuelFitId')!
      if (metric === 'fuelFlow') expect(link.searchParams.get('fitId')).toBe(fuelFitId)
      expect(asked.map((query) => query.get('fitId'))).toEqual([fuelFitId, fuelFitId])
      expect(asked.map((query) => query.get('excludeInterested'))).toEqual(['true', 'true'])
      await page.getByText(`Worked out from fit ${fuelFitId} of fuel in level flight`).waitFor()
      await page.context().close()
    },
  )

  it('say beside each prediction of a setup what the other readings of the tests find', async () => {
    interface Predicted {
      readonly otherFits: string
      readonly predictions: {
        readonly climbRate: { readonly robust: { readonly agrees: boolean; value: number } }
      }
    }
    const path = `/v1/setups/${other.id}/predictions`
    const state = async () => (await stage.read<Predicted>(path)).otherFits
    await expect.poll(state, { timeout: 60_000 }).toBe('made')
    const { robust } = (await stage.read<Predicted>(path)).predictions.climbRate
    const page = await (await stage.context()).newPage()
    await page.goto(`/setups/${other.id}`)
    await settled(page)
    const row = page.getByRole('row').filter({ hasText: 'Full-throttle climb' })
    const cell = row.locator('td[data-head="Does it hold?"]')
    const words = robust.agrees
      ? /^the same$/
      : `Misfits count less: ${robust.value.toFixed(2)} m/s`
    await cell.getByText(words).waitFor()
    await page.context().close()
  })
})
