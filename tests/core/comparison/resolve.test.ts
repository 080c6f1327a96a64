import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { type ResolutionQuestion, sessionsToResolve } from '../../../src/core/comparison/resolve.ts'
import { verdictOn } from '../../../src/core/comparison/verdict.ts'
import { studentTQuantile } from '../../../src/core/distributions/student-t.ts'

const question = (
  estimate: number,
  changes: Partial<ResolutionQuestion> = {},
): ResolutionQuestion => ({
  difference: { estimate, standardError: 0.05, degreesOfFreedom: 200 },
  flightsVariance: 0.05 ** 2,
  sessionVariance: 0.06 ** 2,
  margin: 0.05,
  ...changes,
})

describe('sessionsToResolve', () => {
  it('agrees with the sum done by hand for many degrees of freedom', () => {
    // |d| = 0.08 needs u < 0.08/1.96 = 0.0408: 1/u² = 600 = 400 + m/0.0036, m = 0.72, so one session.
    expect(sessionsToResolve(question(0.08))).toBe(1)
    // |d| = 0.03: u < 0.0153 to differ (1/u² = 4268, m = 13.9); or 0.03 + 1.645 u < 0.05, u < 0.01216
    // (6764, m = 22.9): the first comes first.
    const found = sessionsToResolve(question(0.03))!
    expect(found).toBeGreaterThanOrEqual(14)
    expect(found).toBeLessThanOrEqual(15)
  })

  it('finds equality for a difference near zero: 0 + 1.645 u < 0.05 at 1/u² = 1082, two and a half', () => {
    expect(sessionsToResolve(question(0))).toBe(3)
  })

  it('says so where a shared error stands in the way for good', () => {
    const fixed = { difference: { estimate: 0.04, standardError: 0.06, degreesOfFreedom: 50 } }
    expect(sessionsToResolve(question(0.04, { ...fixed, flightsVariance: 0.02 ** 2 }))).toBeNull()
  })

  it('gives a number at which the verdict is another, and one less at which it is not', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.2, max: 0.2, noNaN: true }),
        fc.double({ min: 0.02, max: 0.2, noNaN: true }),
        (estimate, sd) => {
          const asked = question(estimate, {
            difference: { estimate, standardError: sd, degreesOfFreedom: 30 },
            flightsVariance: sd ** 2,
          })
          const verdictAfter = (m: number) =>
            verdictOn(
              {
                estimate,
                standardError: 1 / Math.sqrt(1 / sd ** 2 + m / asked.sessionVariance),
                degreesOfFreedom: 30 + m,
              },
              { better: 'higher', margin: asked.margin, tQuantile: studentTQuantile },
            )
          if (verdictAfter(0) !== 'notResolved') return
          const sessions = sessionsToResolve(asked)
          if (sessions === null) return
          expect(verdictAfter(sessions)).not.toBe('notResolved')
          if (sessions > 1) expect(verdictAfter(sessions - 1)).toBe('notResolved')
        },
      ),
    )
  })
})
