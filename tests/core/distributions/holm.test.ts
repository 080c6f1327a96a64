import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { holmAdjusted } from '../../../src/core/distributions/holm.ts'

const pValues = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
  minLength: 1,
  maxLength: 20,
})

describe('holmAdjusted', () => {
  it('adjusts a small example worked by hand from the rule', () => {
    // Sorted 0.005, 0.01, 0.03, 0.04: times 4, 3, 2, 1 is 0.02, 0.03, 0.06, 0.04; running maximum.
    const adjusted = holmAdjusted([0.01, 0.04, 0.03, 0.005])
    const expected = [0.03, 0.06, 0.06, 0.02]
    for (const [i, p] of expected.entries()) expect(adjusted[i]!).toBeCloseTo(p, 12)
  })

  it('leaves one test alone, and tests that could not be made out of the count', () => {
    expect([...holmAdjusted([0.02])]).toEqual([0.02])
    const adjusted = holmAdjusted([Number.NaN, 0.02, 0.5])
    expect(adjusted[0]).toBeNaN()
    expect(adjusted[1]).toBeCloseTo(0.04, 12)
  })

  it('lies between the value itself and the Bonferroni value, and keeps the order', () => {
    fc.assert(
      fc.property(pValues, (values) => {
        const adjusted = holmAdjusted(values)
        values.forEach((p, i) => {
          expect(adjusted[i]!).toBeGreaterThanOrEqual(p)
          expect(adjusted[i]!).toBeLessThanOrEqual(Math.min(1, values.length * p) + 1e-15)
          values.forEach((q, j) => {
            if (p < q) expect(adjusted[i]!).toBeLessThanOrEqual(adjusted[j]!)
          })
        })
      }),
    )
  })
})
