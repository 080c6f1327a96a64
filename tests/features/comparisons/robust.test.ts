import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import type { ComparedPair, Comparison } from '../../../src/features/comparisons/schema.ts'
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
})
