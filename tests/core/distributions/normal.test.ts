import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { normalCdf, normalQuantile } from '../../../src/core/distributions/normal.ts'

// Source of the tables: computed by the team with mpmath 1.3 (Python) at 40 digits, erfc and its
// inverse, rounded to the nearest double. Relative tolerance 1e-13: rounding of the series, none of the values.
const relative = (found: number, expected: number) => Math.abs(found / expected - 1)

describe('normalCdf', () => {
  it.each([
    [-37, 5.725571222524577e-300],
    [-8, 6.220960574271784e-16],
    [-3, 0.0013498980316300946],
    [-1.96, 0.024997895148220435],
    [-0.5, 0.3085375387259869],
    [0, 0.5],
    [0.25, 0.5987063256829237],
    [1.5, 0.9331927987311419],
    [4, 0.9999683287581669],
  ])('at %d', (z, expected) => {
    expect(relative(normalCdf(z), expected)).toBeLessThan(1e-12)
  })

  it('is 0 and 1 at the ends and refuses NaN', () => {
    expect(normalCdf(-Infinity)).toBe(0)
    expect(normalCdf(Infinity)).toBe(1)
    expect(() => normalCdf(Number.NaN)).toThrow('z must lie in')
  })

  it('gives both tails together 1', () => {
    fc.assert(
      fc.property(fc.double({ min: -9, max: 9, noNaN: true }), (z) => {
        expect(normalCdf(z) + normalCdf(-z)).toBeCloseTo(1, 14)
      }),
    )
  })
})

describe('normalQuantile', () => {
  it.each([
    [1e-300, -37.0470962993612],
    [1e-20, -9.262340089798407],
    [0.0001, -3.7190164854556804],
    [0.025, -1.9599639845400543],
    [0.07, -1.4757910281791706],
    [0.3, -0.5244005127080408],
    [0.8, 0.8416212335729144],
    [0.999, 3.090232306167813],
  ])('at %d', (probability, expected) => {
    expect(relative(normalQuantile(probability), expected)).toBeLessThan(1e-14)
  })

  it('undoes normalCdf', () => {
    fc.assert(
      fc.property(fc.double({ min: -30, max: 5, noNaN: true }), (z) => {
        // Near p = 1 the spacing of doubles limits z: 1e-16 / φ(5) = 7e-11.
        expect(Math.abs(normalQuantile(normalCdf(z)) - z)).toBeLessThan(1e-10)
      }),
    )
  })

  it('refuses probabilities that have no quantile', () => {
    for (const probability of [0, 1, -0.1, Number.NaN]) {
      expect(() => normalQuantile(probability)).toThrow('probability must lie in')
    }
  })
})
