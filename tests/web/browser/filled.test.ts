import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import {
  fillIn,
  METRIC,
  openStage,
  type Person,
  type Stage,
  seriousInBothThemes,
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

  const both = () => `/compare?setups=${unsafe.id},${other.id}`

  it('have nothing serious against them in either theme', async () => {
    const viewport = { width: 360, height: 740 }
    const context = await stage.context({ viewport, reducedMotion: 'reduce' })
    const page = await context.newPage()
    await signInOn(page, person)
    const found: string[] = []
    const paths = ['/mine', '/data', `/setups/${unsafe.id}`, '/setups', '/compare', both()]
    for (const path of [...paths, `${both()}&tankL=10&reserveL=2`]) {
      await page.goto(path, { waitUntil: 'networkidle' })
      for (const closed of await page.locator('main details > summary').all()) {
        await closed.click()
      }
      await page.waitForLoadState('networkidle')
      found.push(...(await seriousInBothThemes(page, path)))
    }
    await page.goto('/submit')
    await page.getByText('It is not in the list').click()
    found.push(...(await seriousInBothThemes(page, 'a new setup')))
    await page.getByText('It is not in the list').click()
    await fillIn(page, { ...METRIC, time: '4' })
    await page.getByText('How sure are these readings?').click()
    found.push(...(await seriousInBothThemes(page, 'a filled form')))
    expect(found).toEqual([])
    await context.close()
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
})
