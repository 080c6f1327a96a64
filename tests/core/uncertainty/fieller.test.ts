import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { fiellerSet, type RatioOfEstimates } from '../../../src/core/uncertainty/fieller.ts'

/** Whether a t test of n − θd = 0 keeps θ: the definition of the set, without any quadratic. */
function isKept(ratio: RatioOfEstimates, t: number, theta: number): boolean {
  const { numerator, denominator, numeratorVariance, denominatorVariance, covariance } = ratio
  const variance = numeratorVariance - 2 * theta * covariance + theta ** 2 * denominatorVariance
  return Math.abs(numerator - theta * denominator) <= t * Math.sqrt(Math.max(0, variance))
}

/** The end of the kept ratios between one that is kept and one that is not, by bisection. */
function endBetween(ratio: RatioOfEstimates, t: number, kept: number, lost: number): number {
  let [inside, outside] = [kept, lost]
  for (let i = 0; i < 200; i++) {
    const middle = (inside + outside) / 2
    if (isKept(ratio, t, middle)) inside = middle
    else outside = middle
  }
  return inside
}

const ratios = fc
  .record({
    numerator: fc.double({ min: -10, max: 10, noNaN: true }),
    denominator: fc.double({ min: -10, max: 10, noNaN: true }),
    numeratorVariance: fc.double({ min: 0.01, max: 9, noNaN: true }),
    denominatorVariance: fc.double({ min: 0.01, max: 9, noNaN: true }),
    correlation: fc.double({ min: -0.95, max: 0.95, noNaN: true }),
  })
  .map(({ correlation, ...rest }) => ({
    ...rest,
    covariance: correlation * Math.sqrt(rest.numeratorVariance * rest.denominatorVariance),
  }))

describe('fiellerSet', () => {
  // Independently computed here: the t test of n − θd inverted by bisection, t = 1.959964.
  it.each([
    {
      numerator: 10,
      denominator: 4,
      numeratorVariance: 1,
      denominatorVariance: 0.25,
      covariance: 0.2,
    },
    {
      numerator: -3,
      denominator: 5,
      numeratorVariance: 0.5,
      denominatorVariance: 1,
      covariance: -0.3,
    },
    { numerator: 0.2, denominator: 8, numeratorVariance: 2, denominatorVariance: 4, covariance: 1 },
  ])('has the ends of the inverted t test: %o', (ratio) => {
    const set = fiellerSet(ratio, 1.959964)
    if (set.kind !== 'interval') throw new Error(set.kind)
    const estimate = ratio.numerator / ratio.denominator
    expect(set.low).toBeCloseTo(endBetween(ratio, 1.959964, estimate, estimate - 100), 9)
    expect(set.high).toBeCloseTo(endBetween(ratio, 1.959964, estimate, estimate + 100), 9)
  })

  it('is the ratio of ends where the numerator is exact', () => {
    const exact = { numerator: 500, numeratorVariance: 0, covariance: 0 }
    const set = fiellerSet({ ...exact, denominator: 2, denominatorVariance: 0.25 }, 2)
    expect(set).toEqual({ kind: 'interval', low: 500 / 3, high: 500 })
  })

  it('is an interval exactly where the denominator is told from zero', () => {
    const ratio = { numerator: 1, numeratorVariance: 0.04, denominatorVariance: 1, covariance: 0 }
    expect(fiellerSet({ ...ratio, denominator: 1.97 }, 1.959964).kind).toBe('interval')
    expect(fiellerSet({ ...ratio, denominator: 1.95 }, 1.959964).kind).toBe('outside')
    expect(fiellerSet({ ...ratio, numerator: 0.1, denominator: 0.1 }, 1.959964)).toEqual({
      kind: 'everything',
    })
  })

  it('holds exactly the ratios that the t test keeps', () => {
    fc.assert(
      fc.property(
        ratios,
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: -20, max: 20, noNaN: true }),
        (ratio, t, theta) => {
          const set = fiellerSet(ratio, t)
          // Right at an end rounding decides; everything else must agree.
          if (set.kind !== 'everything') {
            const atEnd = (end: number) => Math.abs(theta - end) <= 1e-6 * (1 + Math.abs(end))
            fc.pre(!atEnd(set.low) && !atEnd(set.high))
          }
          const isInside =
            set.kind === 'everything' ||
            (set.kind === 'interval') === (theta >= set.low && theta <= set.high)
          expect(isInside).toBe(isKept(ratio, t, theta))
        },
      ),
      { numRuns: 2000 },
    )
  })

  it.each([
    [
      {
        numerator: 1,
        denominator: 1,
        numeratorVariance: -1,
        denominatorVariance: 1,
        covariance: 0,
      },
      2,
    ],
    [
      {
        numerator: 1,
        denominator: 1,
        numeratorVariance: 1,
        denominatorVariance: Number.NaN,
        covariance: 0,
      },
      2,
    ],
    [
      { numerator: 1, denominator: 1, numeratorVariance: 1, denominatorVariance: 1, covariance: 0 },
      Number.NaN,
    ],
  ])('refuses %o at t = %d', (ratio, t) => {
    expect(() => fiellerSet(ratio, t)).toThrow(OutOfRangeError)
  })
})
