import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chiSquareCdf, chiSquareUpperTail } from '../../../src/core/distributions/chi-square.ts'
import { incompleteGamma } from '../../../src/core/distributions/incomplete-gamma.ts'
import { logGamma } from '../../../src/core/distributions/log-gamma.ts'

const relative = (found: number, expected: number) => Math.abs(found / expected - 1)

// Source of the tables: computed by the team with mpmath 1.3 (Python) at 40 digits, rounded to the nearest double.
describe('chiSquareCdf and chiSquareUpperTail', () => {
  it.each([
    [0.01, 0.5, 0.2930808947210196, 0.7069191052789804],
    [3.84, 1, 0.9499564787512949, 0.050043521248705106],
    [5, 2, 0.9179150013761012, 0.0820849986238988],
    [22.534, 7, 0.9979460448686269, 0.002053955131373015],
    [310, 300, 0.6667456511408638, 0.33325434885913624],
    [1, 18, 3.4354902468481323e-9, 0.9999999965645098],
  ])('at %d with %d degrees of freedom', (x, nu, lower, upper) => {
    expect(relative(chiSquareCdf(x, nu), lower)).toBeLessThan(1e-11)
    expect(relative(chiSquareUpperTail(x, nu), upper)).toBeLessThan(1e-11)
  })

  it('gives the p-value R reports for a test of design-by-treatment interaction', () => {
    // Source: R 4.2.2 on dat.senn2013, Q = 22.5342242375345 on 7 degrees of freedom.
    expect(relative(chiSquareUpperTail(22.5342242375345, 7), 0.00205377130493592)).toBeLessThan(
      1e-12,
    )
  })

  it('is an exponential distribution for 2 degrees of freedom', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 700, noNaN: true }), (x) => {
        expect(Math.abs(chiSquareUpperTail(x, 2) * Math.exp(x / 2) - 1)).toBeLessThan(1e-11)
      }),
    )
  })

  it('starts at 0 and refuses negative values', () => {
    expect(chiSquareCdf(0, 3)).toBe(0)
    expect(() => chiSquareCdf(-1, 3)).toThrow('x must lie in')
    expect(() => chiSquareCdf(1, Number.NaN)).toThrow('a must lie in')
  })
})

describe('incompleteGamma', () => {
  it('is continuous where series and fraction meet', () => {
    for (const a of [0.5, 3, 40, 2500]) {
      const below = incompleteGamma(a, (a + 1) * (1 - 1e-12)).lower
      const above = incompleteGamma(a, (a + 1) * (1 + 1e-12)).lower
      expect(relative(below, above)).toBeLessThan(1e-10)
    }
  })
})

describe('logGamma', () => {
  it.each([
    [0.01, 4.599479878042022],
    [0.5, 0.5723649429247001],
    [3.3, 0.9870985778947344],
    [15, 25.191221182738683],
    [1000, 5905.220423209181],
  ])('at %d', (x, expected) => {
    expect(relative(logGamma(x), expected)).toBeLessThan(1e-13)
  })

  it('grows by log x from x to x + 1', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e4, noNaN: true }), (x) => {
        const step = logGamma(x + 1) - logGamma(x)
        expect(Math.abs(step - Math.log(x))).toBeLessThan(
          1e-14 * Math.max(1, logGamma(x + 1)) + 1e-13,
        )
      }),
    )
  })

  it('refuses what it is not defined for', () => {
    expect(() => logGamma(0)).toThrow('x must lie in')
    expect(() => logGamma(Number.NaN)).toThrow('x must lie in')
  })
})
