import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { scaleFor } from '../../src/charts/scale.ts'

const SPAN = { fromPx: 0, toPx: 500 }

describe('a scale', () => {
  it('holds every value, its numbered divisions inside it and evenly spaced', () => {
    const value = fc.integer({ min: -1e9, max: 1e9 }).map((v) => v / 1000)
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 8 }), (values) => {
        const scale = scaleFor(values, SPAN)
        const slack = 1e-6 * (scale.max - scale.min)
        for (const v of values) {
          expect(v).toBeGreaterThanOrEqual(scale.min - slack)
          expect(v).toBeLessThanOrEqual(scale.max + slack)
        }
        for (const major of scale.majors) {
          expect(scale.at(major)).toBeGreaterThanOrEqual(-1e-3)
          expect(scale.at(major)).toBeLessThanOrEqual(500 + 1e-3)
        }
        const steps = scale.majors.slice(1).map((m, i) => m - scale.majors[i]!)
        for (const step of steps) expect(step / steps[0]!).toBeCloseTo(1, 6)
      }),
    )
  })

  it.each([
    [[0, 10], [0, 2, 4, 6, 8, 10], 0],
    [[1.2, 3.4], [1.5, 2, 2.5, 3], 1],
  ])('numbers %j at %j', (values, majors, decimals) => {
    const scale = scaleFor(values, SPAN)
    expect(scale.majors.map((m) => Number(m.toFixed(6)))).toEqual(majors)
    expect(scale.decimals).toBe(decimals)
  })

  it('copes with one value, and with none', () => {
    expect(scaleFor([2], SPAN).max).toBeGreaterThan(scaleFor([2], SPAN).min)
    expect(Number.isFinite(scaleFor([], SPAN).at(0.5))).toBe(true)
  })
})
