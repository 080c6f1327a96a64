import { studentTQuantile } from '../distributions/student-t.ts'
import type { LogDifference } from './verdict.ts'

/** What limits a difference, and what one further session adds. */
export interface ResolutionQuestion {
  readonly difference: LogDifference
  /** Part of its variance that further sessions average out [1]. */
  readonly flightsVariance: number
  /** Variance of the difference that one further session with both setups shows [1], > 0. */
  readonly sessionVariance: number
  /** Largest difference of logarithms that does not matter [1], > 0. */
  readonly margin: number
}

/** Most sessions that are looked at. */
export const MOST_SESSIONS = 1000

/** Most sessions with one pair that people will ever fly; editorial. */
export const MOST_FLOWN_SESSIONS = 50

/**
 * How many further sessions with both setups would settle an open difference, if it stays what it is.
 *
 *     u²(m) = 1/(1/v + m/v₁) + v_fixed,   settled: |d| > t₀.₉₇₅ u(m)  or  |d| + t₀.₉₅ u(m) < margin
 *
 * Errors that flights do not average out (v_fixed) stay. The degrees of freedom grow by one per session.
 *
 * @param question difference, its variance by what averages out, variance of one session, margin
 * @returns the smallest number of sessions, 1 to 1000; null where even a thousand would not settle it
 * @source common practice (sample size from precision); weights of independent estimates
 */
export function sessionsToResolve(question: ResolutionQuestion): number | null {
  if (!isSettled(question, MOST_SESSIONS)) return null
  let low = 0
  let high = MOST_SESSIONS
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (isSettled(question, middle)) high = middle
    else low = middle
  }
  return high
}

function isSettled(question: ResolutionQuestion, sessions: number): boolean {
  const { difference, flightsVariance, sessionVariance, margin } = question
  const fixed = Math.max(0, difference.standardError ** 2 - flightsVariance)
  const flights = 1 / (1 / flightsVariance + sessions / sessionVariance)
  const standardError = Math.sqrt(flights + fixed)
  const degreesOfFreedom = difference.degreesOfFreedom + sessions
  const size = Math.abs(difference.estimate)
  const differs = size > studentTQuantile(0.975, degreesOfFreedom) * standardError
  return differs || size + studentTQuantile(0.95, degreesOfFreedom) * standardError < margin
}
