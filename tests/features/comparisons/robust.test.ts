import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import type { ComparedPair, Comparison, Ranking } from '../../../src/features/comparisons/schema.ts'
import type { Fit } from '../../../src/features/fits/schema.ts'
import { type Field, openField } from './evenings.ts'

let field: Field
let a: string
let b: string

const random = new Pcg32(77)
/** Seconds for 100 m, with the scatter of a stopwatch and of the air [s]. */
const climbs = (seconds: number) =>
  Array.from({ length: 3 }, () => Number((seconds * (1 + 0.01 * random.normal())).toFixed(1)))

const pairNow = async (): Promise<ComparedPair> => {
  await field.app.fits.refresh()
  const path = `/v1/comparisons?metric=climbRate&setups=${a},${b}`
  return (await field.get<Comparison>(path)).body.pairs[0]!
}

beforeAll(async () => {
  field = await openField(4)
  ;[a, b] = [await field.setup(), await field.setup()]
  // Twelve evenings in which a needs half a per cent less than b: far inside the margin of 5 %.
  for (let i = 0; i < 12; i++) {
    const evening = 50 * (1 + 0.02 * random.normal())
    await field.fly(i % 4, [
      { setupId: a, climbsS: climbs(0.995 * evening) },
      { setupId: b, climbsS: climbs(evening) },
    ])
  }
})

afterAll(() => field.close())

describe('the robust fit beside the plain one', () => {
  it('agrees where nothing is odd', async () => {
    const pair = await pairNow()
    expect(pair.verdict).toBe('practicallyEqual')
    expect(pair.robust).toEqual({ verdict: 'practicallyEqual', agrees: true })
    expect(pair.sentence).not.toMatch('count less')
  })

  it('disagrees after one session with a gross error, and the sentence says so', async () => {
    await field.fly(0, [
      { setupId: a, climbsS: climbs(30) }, // read 30 for 50, three times
      { setupId: b, climbsS: climbs(50) },
    ])
    const pair = await pairNow()
    expect(pair.verdict).not.toBe('practicallyEqual')
    expect(pair.robust).toEqual({ verdict: 'practicallyEqual', agrees: false })
    expect(pair.sentence).toMatch('count less')
  })

  it('is named by what a gain costs too', async () => {
    await field.db.pool.query(
      `UPDATE component SET price_amount = 500, price_currency = 'EUR', price_as_of = '2026-01-20'`,
    )
    expect((await pairNow()).cost!.sentence).toMatch(
      'Where results that do not fit the rest count less this does not hold.',
    )
  })

  it('is asked by a ranking too, setup by setup and in its sentence', async () => {
    const { body } = await field.get<Ranking>('/v1/rankings?metric=climbRate')
    expect(body.otherFits).toBe('made')
    const [first, second] = body.ranked
    expect(first).toMatchObject({ setupId: a, againstFirst: null, robust: { agrees: true } })
    expect(second!.againstFirst).not.toBe('practicallyEqual')
    expect(second!.robust).toMatchObject({ againstFirst: 'practicallyEqual', agrees: false })
    expect(body.robust).toMatchObject({ otherwise: [b], agrees: false })
    expect(body.withoutInterested).toEqual({ first: a, otherwise: [], changes: false })
    expect(body.sentence).toMatch(/has the highest climb rate; of the other 1, .* count less/)
  })

  it('stands beside the evidence without people with an interest as well', async () => {
    await field.fly(
      1,
      [
        { setupId: a, climbsS: climbs(30) },
        { setupId: b, climbsS: climbs(50) },
      ],
      { interest: 'dealer' },
    )
    const whole = await pairNow()
    const path = `/v1/comparisons?metric=climbRate&setups=${a},${b}`
    const { body } = await field.get<Comparison>(`${path}&excludeInterested=true`)
    const [pair] = body.pairs
    expect(pair!.verdict).not.toBe('practicallyEqual')
    expect(pair!.robust).toEqual({ verdict: 'practicallyEqual', agrees: false })
    expect(whole.withoutInterested!.verdict).toBe(pair!.verdict)

    const rest = (await field.get<Fit>(`/v1/fits/${body.fitId}`)).body
    const byRobust = await field.get<Comparison>(`${path}&fitId=${rest.siblings.robust}`)
    expect(byRobust.body.pairs[0]!.verdict).toBe('practicallyEqual')
    const robust = (await field.get<Fit>(`/v1/fits/${rest.siblings.robust}`)).body
    expect(rest.downweighted).toBeNull()
    expect(robust).toMatchObject({ variant: { robust: true }, report: null })
    // The session with a gross error, as a setup of one session or run by run.
    const { setupsOfSessions, runs } = robust.downweighted!
    expect(Math.min(...[...setupsOfSessions, ...runs].map(({ weight }) => weight))).toBeLessThan(
      0.3,
    )
    expect(robust.siblings.robust).toBe(robust.id)
  })
})
