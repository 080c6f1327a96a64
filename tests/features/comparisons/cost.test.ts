import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { Problem } from '../../../src/contract/problems.ts'
import type {
  ComparedPair,
  ComparedSetup,
  Comparison,
  Cost,
} from '../../../src/features/comparisons/schema.ts'
import { type Field, openField } from './evenings.ts'

let field: Field
let quick: string
let slow: string
let twin: string
let lonely: string

/** Three pilots, six evenings: the quick one climbs faster and burns less; the twin does what the slow one does. */
beforeAll(async () => {
  field = await openField()
  ;[quick, slow, twin, lonely] = await Promise.all([
    field.setup(),
    field.setup(),
    field.setup(),
    field.setup(),
  ])
  for (const [evening, s] of [0, 1, 2, 0.4, 1.4, 2.4].entries()) {
    const wiggle = evening % 2 === 0 ? 0.4 : -0.4
    await field.fly(evening % 3, [
      { setupId: quick, climbsS: [45 + s, 45.6 + s / 2], burnsS: [600 + 4 * s] },
      { setupId: slow, climbsS: [50 + s, 49.4 + s], burnsS: [480 + 3 * s] },
      { setupId: twin, climbsS: [50 + s + wiggle, 49.4 + s - wiggle], burnsS: [481 + 3 * s] },
    ])
  }
  await field.fly(0, [{ setupId: lonely, climbsS: [40, 40.5] }])
  await field.fly(1, [{ setupId: lonely, climbsS: [40.2, 40.1] }])
  await field.app.fits.refresh()
  await price(quick, 'powerplant', 3400, '2026-01-20')
  await price(quick, 'propeller', 410, '2025-11-02')
  await price(quick, 'frame', 900, '2026-02-01')
  await price(slow, 'powerplant', 3000, '2026-01-20')
  await price(slow, 'propeller', 260, '2026-03-01')
  await price(slow, 'frame', 900, '2026-02-01')
  await price(twin, 'powerplant', 3000, '2026-01-20')
  await price(lonely, 'powerplant', 3000, '2026-01-20')
  await price(lonely, 'propeller', 300, '2026-01-20')
  await price(lonely, 'frame', 800, '2026-01-20')
})

afterAll(() => field.close())

async function price(setup: string, part: string, amount: number, asOf: string): Promise<void> {
  await field.db.pool.query(
    `UPDATE component SET price_amount = $2, price_currency = 'EUR', price_as_of = $3
      WHERE id = (SELECT ${part}_id FROM setup WHERE id = $1)`,
    [setup, amount, asOf],
  )
}

/** Every rate is there, with its figures: for those that are asked for. */
type Rate = { value: number; interval95: [number, number]; noFigure?: string }
type Priced = Required<ComparedPair> & {
  cost: Required<Omit<Cost, 'perTenthMps' | 'perNewton' | 'paybackH'>> & {
    perTenthMps: Rate
    perNewton: Rate
    paybackH: Rate
  }
}
type Answer = Omit<Comparison, 'pairs' | 'setups'> & {
  pairs: Priced[]
  setups: { [K in keyof ComparedSetup]-?: NonNullable<ComparedSetup[K]> }[]
}

const compare = async (query: string) => (await field.get<Answer>(`/v1/comparisons?${query}`)).body

describe('the cost of a difference', () => {
  it('is money per 0.1 m/s and per newton, from the prices of the parts', async () => {
    const { pairs, setups } = await compare(`metric=climbRate&setups=${quick},${slow}`)
    const { cost } = pairs[0]!
    expect(cost).toMatchObject({ currency: 'EUR', priceDifference: 550, asOf: '2025-11-02' })
    const gain = setups[0]!.value - setups[1]!.value
    expect(cost.perTenthMps.value).toBeCloseTo(55 / gain, 9)
    expect(cost.perTenthMps.interval95[0]).toBeLessThan(55 / gain)
    expect(cost.perTenthMps.interval95[1]).toBeGreaterThan(55 / gain)
    const thrust = await compare(`metric=climbThrust&setups=${quick},${slow}`)
    const newtons = thrust.setups[0]!.value - thrust.setups[1]!.value
    expect(cost.perNewton.value).toBeCloseTo(550 / newtons, 9)
    expect(cost).not.toHaveProperty('paybackH')
    expect(cost.sentence).toMatch(/costs EUR 550 more than .* for each 0\.1 m\/s of climb \(95 %/)
  })

  it('is the same whichever is named first', async () => {
    const there = (await compare(`metric=climbRate&setups=${quick},${slow}`)).pairs[0]!.cost
    const back = (await compare(`metric=climbRate&setups=${slow},${quick}`)).pairs[0]!.cost
    expect(back.priceDifference).toBe(-550)
    expect(back.perTenthMps.value).toBeCloseTo(there.perTenthMps.value, 9)
    expect(back.perNewton.interval95[1]).toBeCloseTo(there.perNewton.interval95[1], 6)
    expect(back.sentence).toBe(there.sentence)
  })

  it('is hours until fuel has paid for it, at the caller’s price of fuel', async () => {
    const query = `metric=fuelFlow&setups=${quick},${slow}&fuelPricePerL=2&currency=EUR`
    const { pairs, setups } = await compare(query)
    const saved = setups[1]!.value - setups[0]!.value
    expect(pairs[0]!.cost.paybackH.value).toBeCloseTo(550 / 2 / saved, 9)
    expect(pairs[0]!.cost.sentence).toMatch(/h of level flight until fuel has paid/)
    const dear = await compare(query.replace('PerL=2', 'PerL=4'))
    expect(dear.pairs[0]!.cost.paybackH.value).toBeCloseTo(pairs[0]!.cost.paybackH.value / 2, 9)
  })

  it('counts no hours without a price of fuel in the currency of the parts', async () => {
    const query = `metric=fuelFlow&setups=${quick},${slow}`
    expect((await compare(query)).pairs[0]!.cost).not.toHaveProperty('paybackH')
    const francs = await compare(`${query}&fuelPricePerL=2&currency=CHF`)
    expect(francs.pairs[0]!.cost).not.toHaveProperty('paybackH')
    expect(francs.pairs[0]!.cost.priceDifference).toBe(550)
  })

  it('has no figure where the flights do not say which is better', async () => {
    await price(twin, 'propeller', 600, '2026-01-20')
    await price(twin, 'frame', 900, '2026-01-20')
    const { pairs } = await compare(`metric=climbRate&setups=${twin},${slow}`)
    expect(['notResolved', 'practicallyEqual']).toContain(pairs[0]!.verdict)
    expect(pairs[0]!.cost.priceDifference).toBe(340)
    expect(pairs[0]!.cost).not.toHaveProperty('perTenthMps')
    expect(pairs[0]!.cost).not.toHaveProperty('perNewton')
  })

  it('has no figure where the better one is not dearer', async () => {
    await price(slow, 'frame', 2000, '2026-02-01')
    const { cost } = (await compare(`metric=climbRate&setups=${quick},${slow}`)).pairs[0]!
    expect(cost.priceDifference).toBe(-550)
    expect(cost.perTenthMps).toEqual({ value: null, interval95: null, noFigure: 'costsNoMore' })
    expect(cost.sentence).toMatch(/not dearer/)
    await price(slow, 'frame', 900, '2026-02-01')
  })

  it('is left out of a refused pair, and where a price is not known', async () => {
    const apart = (await compare(`metric=climbRate&setups=${lonely},${slow}`)).pairs[0]!
    expect(apart.verdict).toBe('refused')
    expect(apart).not.toHaveProperty('cost')
    await field.db.pool.query(
      `UPDATE component SET price_amount = NULL, price_currency = NULL, price_as_of = NULL
        WHERE id = (SELECT propeller_id FROM setup WHERE id = $1)`,
      [quick],
    )
    expect(
      (await compare(`metric=climbRate&setups=${quick},${slow}`)).pairs[0]!,
    ).not.toHaveProperty('cost')
  })

  it.each([
    ['a price without its currency', 'fuelPricePerL=2', '/currency'],
    ['a currency that is none', 'fuelPricePerL=2&currency=euro', '/currency'],
    ['fuel for nothing', 'fuelPricePerL=0&currency=EUR', '/fuelPricePerL'],
  ])('refuses %s', async (_what, query, pointer) => {
    const path = `/v1/comparisons?metric=fuelFlow&setups=${quick},${slow}&${query}`
    const { status, body } = await field.get<Problem>(path)
    expect(status).toBe(400)
    expect(body.errors?.map((error) => error.pointer)).toEqual([pointer])
  })
})
