import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { type LogDifference, verdictOn } from '../../../src/core/comparison/verdict.ts'
import { studentTQuantile } from '../../../src/core/distributions/student-t.ts'

const options = {
  better: 'higher',
  margin: Math.log(1.05),
  tQuantile: studentTQuantile,
} as const
const lower = { ...options, better: 'lower' } as const

function difference(
  percent: number,
  standardError: number,
  degreesOfFreedom: number,
): LogDifference {
  return { estimate: Math.log1p(percent / 100), standardError, degreesOfFreedom }
}

describe('verdictOn', () => {
  // Critical values of Student's t, two-sided 5 % and one-sided 5 %, 10 degrees of freedom:
  // 2.228 and 1.812 (Fisher & Yates, Statistical Tables, table III; recalled from memory).
  it('calls a better when the 95 % interval just leaves out zero, and not before', () => {
    const certain = { estimate: 0.2, standardError: 0.2 / 2.2285, degreesOfFreedom: 10 }
    const doubtful = { estimate: 0.2, standardError: 0.2 / 2.2275, degreesOfFreedom: 10 }
    expect(verdictOn(certain, options)).toBe('aBetter')
    expect(verdictOn(doubtful, options)).toBe('notResolved')
  })

  it('calls a pair equal when the 90 % interval just fits into the margin, and not before', () => {
    const margin = Math.log(1.05)
    const fits = { estimate: 0, standardError: margin / 1.8135, degreesOfFreedom: 10 }
    const sticksOut = { estimate: 0, standardError: margin / 1.811, degreesOfFreedom: 10 }
    expect(verdictOn(fits, options)).toBe('practicallyEqual')
    expect(verdictOn(sticksOut, options)).toBe('notResolved')
  })

  it('prefers equality to a difference that is certain but does not matter', () => {
    expect(verdictOn(difference(2, 0.001, 30), options)).toBe('practicallyEqual')
  })

  it('turns round when lower is better', () => {
    expect(verdictOn(difference(20, 0.01, 30), options)).toBe('aBetter')
    expect(verdictOn(difference(20, 0.01, 30), lower)).toBe('bBetter')
  })

  it('says the mirror image when the two change places', () => {
    const mirror = { aBetter: 'bBetter', bBetter: 'aBetter' } as const
    fc.assert(
      fc.property(
        fc.double({ min: -0.5, max: 0.5, noNaN: true }),
        fc.double({ min: 1e-4, max: 0.3, noNaN: true }),
        fc.double({ min: 1, max: 200, noNaN: true }),
        (estimate, standardError, degreesOfFreedom) => {
          const there = verdictOn({ estimate, standardError, degreesOfFreedom }, options)
          const back = verdictOn({ estimate: -estimate, standardError, degreesOfFreedom }, options)
          expect(back).toBe(there === 'aBetter' || there === 'bBetter' ? mirror[there] : there)
        },
      ),
    )
  })

  it('never decides without a known standard error', () => {
    expect(verdictOn(difference(50, Number.POSITIVE_INFINITY, 1), options)).toBe('notResolved')
  })
})
