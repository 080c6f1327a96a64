/** What a difference between two setups amounts to. */
export type Verdict = 'aBetter' | 'bBetter' | 'practicallyEqual' | 'notResolved'

export type Direction = 'higher' | 'lower'

/** A difference of logarithms, a against b, as the t distribution sees it. */
export interface LogDifference {
  /** ln(a/b) [1]. */
  readonly estimate: number
  /** Its standard error [1], k = 1. */
  readonly standardError: number
  /** Student's degrees of freedom of that error, at least 1. */
  readonly degreesOfFreedom: number
}

export interface VerdictOptions {
  readonly better: Direction
  /** Largest difference of logarithms that does not matter in practice [1], above 0. */
  readonly margin: number
  /** Quantile function of Student's t: p, degrees of freedom → t. */
  readonly tQuantile: (probability: number, degreesOfFreedom: number) => number
}

/**
 * The verdict on a pair: equivalence first, then superiority.
 *
 * Equivalence: two one-sided tests at 5 % each, that is the 90 % interval lies within ±margin.
 * Superiority: the two-sided 95 % interval leaves out zero. A difference that is certain but smaller than
 * what matters is "practically equal"; one that is neither is "not resolved".
 *
 * @param difference ln(a/b) with its standard error ≥ 0 and degrees of freedom ≥ 1
 * @returns the verdict; "better" follows the direction given
 * @source D. J. Schuirmann, J. Pharmacokinet. Biopharm. 15 (1987) 657 (two one-sided tests); the order of the two is ours
 */
export function verdictOn(difference: LogDifference, options: VerdictOptions): Verdict {
  const { estimate, standardError, degreesOfFreedom } = difference
  const { margin } = options
  const reach90 = options.tQuantile(0.95, degreesOfFreedom) * standardError
  if (estimate - reach90 > -margin && estimate + reach90 < margin) return 'practicallyEqual'

  const reach95 = options.tQuantile(0.975, degreesOfFreedom) * standardError
  if (!(Math.abs(estimate) > reach95)) return 'notResolved'
  const aIsHigher = estimate > 0
  return aIsHigher === (options.better === 'higher') ? 'aBetter' : 'bBetter'
}
