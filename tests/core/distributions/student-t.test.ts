import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { normalCdf, normalQuantile } from '../../../src/core/distributions/normal.ts'
import { studentTCdf, studentTQuantile } from '../../../src/core/distributions/student-t.ts'

const relative = (found: number, expected: number) => Math.abs(found / expected - 1)
const degrees = fc.double({ min: 0.5, max: 1e6, noNaN: true })

// Source of the tables: computed by the team with mpmath 1.3 (Python) at 40 digits from the
// regularised incomplete beta function, rounded to the nearest double. 12.706 (ν = 1) and 3.169 (ν = 10) are also
// in every printed table of t.
describe('studentTCdf', () => {
  it.each([
    [-40, 1, 0.007956089912025814],
    [-3, 0.5, 0.18365407799297173],
    [-2, 2, 0.09175170953613698],
    [-1, 4.7, 0.18298775649727486],
    [-0.2, 10, 0.4227445956901728],
    [0, 3, 0.5],
    [1.3, 30, 0.8982495207309416],
    [2.5, 120, 0.9931152325374848],
    [-6, 1234.5, 1.2945520888824983e-9],
  ])('at %d with %d degrees of freedom', (t, nu, expected) => {
    expect(relative(studentTCdf(t, nu), expected)).toBeLessThan(1e-12)
  })

  it('has the closed forms of 1 and 2 degrees of freedom', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e3, max: 1e3, noNaN: true }), (t) => {
        expect(studentTCdf(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 13)
        expect(studentTCdf(t, 2)).toBeCloseTo(0.5 + t / (2 * Math.sqrt(2 + t * t)), 13)
      }),
    )
  })

  it('tends to the normal distribution, without a step where the method changes', () => {
    for (const t of [-6, -2, -0.5, 1, 3]) {
      expect(studentTCdf(t, Infinity)).toBe(normalCdf(t))
      // Distance to the normal: (t³ + t) φ(t) / (4 ν), below 1 / ν.
      for (const nu of [9.99e6, 1e7, 1e9]) {
        expect(Math.abs(studentTCdf(t, nu) - normalCdf(t))).toBeLessThan(1 / nu)
      }
    }
  })

  it('refuses what it is not defined for', () => {
    expect(() => studentTCdf(Number.NaN, 3)).toThrow('t must lie in')
    expect(() => studentTCdf(1, 0)).toThrow('degreesOfFreedom')
    expect(() => studentTCdf(1, Number.NaN)).toThrow('degreesOfFreedom')
  })
})

describe('studentTQuantile', () => {
  it.each([
    [0.975, 1, 12.706204736174692],
    [0.975, 2.5, 3.5746548420036817],
    [0.995, 10, 3.169272672616951],
    [0.9, 18.6, 1.3287576998842705],
    [0.0001, 5, -9.67756630088259],
    [0.975, 63.2, 1.9982167890609142],
    [0.6, 200, 0.25368437919014764],
  ])('at %d with %d degrees of freedom', (probability, nu, expected) => {
    expect(relative(studentTQuantile(probability, nu), expected)).toBeLessThan(1e-12)
  })

  it('undoes studentTCdf', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 0.999, noNaN: true }), degrees, (p, nu) => {
        expect(relative(studentTCdf(studentTQuantile(p, nu), nu), p)).toBeLessThan(1e-9)
      }),
    )
  })

  it('never falls when there are fewer degrees of freedom', () => {
    fc.assert(
      fc.property(degrees, degrees, (a, b) => {
        const [few, many] = a < b ? [a, b] : [b, a]
        const slack = 1 + 1e-9 // both quantiles carry their own rounding
        expect(studentTQuantile(0.975, few) * slack).toBeGreaterThanOrEqual(
          studentTQuantile(0.975, many),
        )
      }),
    )
  })

  it('is the normal quantile for infinitely many', () => {
    expect(studentTQuantile(0.975, Infinity)).toBe(normalQuantile(0.975))
  })

  it('refuses what it is not defined for', () => {
    expect(() => studentTQuantile(1, 3)).toThrow('probability')
    expect(() => studentTQuantile(0.5, 0.1)).toThrow('degreesOfFreedom')
  })
})
