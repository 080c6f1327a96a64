import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CHROMIUM, WITHOUT } from './chromium.ts'
import { fillIn, METRIC, openStage, type Stage, signUpOn, tokenOf } from './stage.ts'

let stage: Stage

beforeAll(async () => {
  if (CHROMIUM !== null) stage = await openStage()
})

afterAll(() => stage?.close())

describe.skipIf(CHROMIUM === null)(`a dealer at the counter${WITHOUT}`, () => {
  it('has an answer for a weight class in three steps: open, choose, read', async () => {
    const page = await (await stage.context()).newPage()
    await page.goto('/compare')
    await page.getByLabel('120–140').check()
    await page.getByText(/^At 130 kg all-up/).waitFor()
    const verdict = await page.getByTestId('verdict').textContent()
    const path = '/v1/rankings?metric=climbRate&massClass=120to140'
    const { ranked } = await stage.read<{ ranked: { name: string; value: number }[] }>(path)
    expect(verdict).toContain(ranked[0]!.name)
    expect(verdict).toContain(`${ranked[0]!.value.toFixed(2)} m/s`)
  })

  it('waits for one answer only: the sentence is there while all later ones are held back', async () => {
    const page = await (await stage.context({ serviceWorkers: 'block' })).newPage()
    const calls: string[] = []
    await page.route('**/v1/**', async (route) => {
      calls.push(new URL(route.request().url()).pathname)
      if (calls.length === 1) await route.continue()
    })
    await page.goto('/compare?massClass=120to140')
    await page.getByTestId('verdict').waitFor()
    expect(calls[0]).toBe('/v1/rankings')
    await page.unrouteAll({ behavior: 'ignoreErrors' })
  })

  it('hands on a link that shows exactly this answer', async () => {
    const page = await (await stage.context()).newPage()
    await page.goto('/compare?metric=fuelFlow&allUpMassKg=97&elevationM=640')
    const verdict = await page.getByTestId('verdict').textContent()
    const link = await page.locator('.origin a').getAttribute('href')
    expect(link).toContain('fitId=')
    const other = await (await stage.context()).newPage()
    await other.goto(link!)
    await other.getByTestId('verdict').waitFor()
    expect(await other.getByTestId('verdict').textContent()).toBe(verdict)
  })

  it.each([0, 2])('prints the answer on one page, with %i setups named', async (named) => {
    const { items } = await stage.read<{ items: { id: string }[] }>(
      `/v1/setups?limit=${named || 1}`,
    )
    const setups = named === 0 ? '' : `?setups=${items.map(({ id }) => id).join(',')}`
    const page = await (await stage.context()).newPage()
    await page.goto(`/compare${setups}`, { waitUntil: 'networkidle' })
    const pdf = (await page.pdf({ format: 'A4', preferCSSPageSize: true })).toString('latin1')
    expect(/\/Type \/Pages[\s\S]*?\/Count (\d+)/.exec(pdf)?.[1]).toBe('1')
  })

  it('reads why a setup has no rank', async () => {
    const page = await (await stage.context()).newPage()
    await page.goto('/compare')
    const row = page.getByRole('row').filter({ hasText: 'Never flown in one session' })
    await row.first().waitFor()
    expect(await row.first().textContent()).toContain('–')
  })
})

describe.skipIf(CHROMIUM === null)(`units${WITHOUT}`, () => {
  it('go round: pounds typed are kilograms stored, and the same pounds again', async () => {
    const page = await (await stage.context()).newPage()
    const person = await signUpOn(page)
    await page.goto('/submit')
    await page.getByText('Units and display').click()
    await page.getByRole('button', { name: 'US units' }).click()
    await fillIn(page, {
      ...METRIC,
      allUpMass: '267',
      elevation: '695',
      temperature: '58',
      pressure: '30.06',
      pilot: '181',
      area: '269',
    })
    const pilot = page.getByLabel('Pilot with clothing')
    await page.getByRole('button', { name: 'Metric units' }).click()
    expect(Number(await pilot.inputValue())).toBeCloseTo(82.1, 1)
    await page.getByRole('button', { name: 'US units' }).click()
    expect(await pilot.inputValue()).toBe('181')
    await page.getByRole('button', { name: 'Send', exact: true }).click()
    await page.getByTestId('arrived').waitFor()
    const token = await tokenOf(stage, person)
    const { items } = await stage.read<{ items: Sent[] }>('/v1/submissions?mine=true', token)
    const [sent] = items
    // By definition: 1 lb = 0.45359237 kg, 1 ft = 0.3048 m, 1 inHg = 33.86389 hPa (conventional).
    expect(sent!.pilot.massKg).toBeCloseTo(181 * 0.45359237, 6)
    expect(sent!.entries[0]!.allUpMassKg).toBeCloseTo(267 * 0.45359237, 6)
    expect(sent!.site.elevationM).toBeCloseTo(695 * 0.3048, 6)
    expect(sent!.conditions.temperatureC).toBeCloseTo((58 - 32) / 1.8, 6)
    expect(sent!.conditions.qnhHPa).toBeCloseTo(30.06 * 33.86389, 2)
    expect(sent!.wing.flatAreaM2).toBeCloseTo(269 * 0.09290304, 6)
  })
})

interface Sent {
  readonly pilot: { readonly massKg: number }
  readonly site: { readonly elevationM: number }
  readonly conditions: { readonly temperatureC: number; readonly qnhHPa: number }
  readonly wing: { readonly flatAreaM2: number }
  readonly entries: readonly { readonly allUpMassKg: number }[]
}
