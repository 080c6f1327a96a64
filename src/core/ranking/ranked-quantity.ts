import { OutOfRangeError } from '../errors.ts'

/** Which end of the scale comes first. */
export type Better = 'higher' | 'lower'

/**
 * Estimates of one quantity for m items and how well their differences are known. It need not
 * come from a fit: estimates may be transformed, as long as the errors are those of the
 * transformed differences.
 */
export interface RankedQuantity {
  /** m estimates [any one unit]. */
  readonly estimates: ArrayLike<number>
  /** Standard errors of all differences, m × m: entry (k, l) at k + l·m [the same unit], ≥ 0. */
  readonly standardErrors: ArrayLike<number>
  /** Degrees of freedom of those errors, m × m, > 0; left out: the errors are taken as exact. */
  readonly degreesOfFreedom?: ArrayLike<number>
  readonly better: Better
}

/**
 * Refuses a quantity that cannot be ranked.
 *
 * @param quantity estimates finite; standard errors ≥ 0, Infinity allowed; matching lengths
 * @returns number of items m
 * @throws {OutOfRangeError} if a value or a length is out of range
 * @source common practice
 */
export function checkRankedQuantity(quantity: RankedQuantity): number {
  const { estimates, standardErrors, degreesOfFreedom } = quantity
  const m = estimates.length
  requireLength('standardErrors.length', standardErrors, m * m)
  if (degreesOfFreedom !== undefined) {
    requireLength('degreesOfFreedom.length', degreesOfFreedom, m * m)
  }
  for (let k = 0; k < m; k++) {
    if (!Number.isFinite(estimates[k])) {
      const limit = Number.MAX_VALUE
      throw new OutOfRangeError(`estimate ${k}`, estimates[k]!, -limit, limit)
    }
    for (let l = 0; l < m; l++) {
      if (k === l) continue
      const standardError = standardErrors[k + l * m]!
      if (!(standardError >= 0)) {
        throw new OutOfRangeError(`standard error of ${k} - ${l}`, standardError, 0, Infinity)
      }
    }
  }
  return m
}

function requireLength(name: string, values: ArrayLike<number>, length: number): void {
  if (values.length !== length) throw new OutOfRangeError(name, values.length, length, length)
}

/**
 * How far item k is ahead of item l, in standard errors; +∞ or −∞ for a difference known exactly,
 * 0 for no difference.
 *
 * @param quantity checked quantity of m items
 * @param k index of the first item
 * @param l index of the second item
 * @returns (k − l) / se, turned so that positive means k is better [1]
 * @source common practice
 */
export function advantage(quantity: RankedQuantity, k: number, l: number): number {
  const { estimates, standardErrors, better } = quantity
  const difference = estimates[k]! - estimates[l]!
  if (difference === 0) return 0
  const ahead = better === 'higher' ? difference : -difference
  return ahead / standardErrors[k + l * estimates.length]! // x / 0 = ±∞
}

/**
 * Standard errors of all differences of jointly normal estimates, √(c_kk + c_ll − 2 c_kl).
 *
 * @param covariance m × m, column-major, symmetric [unit squared]
 * @param m number of estimates
 * @returns m × m, column-major [unit]
 * @source common practice
 */
export function standardErrorsOfDifferences(
  covariance: ArrayLike<number>,
  m: number,
): Float64Array {
  const result = new Float64Array(m * m)
  for (let l = 0; l < m; l++) {
    for (let k = 0; k < m; k++) {
      const variance = covariance[k + k * m]! + covariance[l + l * m]! - 2 * covariance[k + l * m]!
      result[k + l * m] = k === l ? 0 : Math.sqrt(Math.max(0, variance))
    }
  }
  return result
}
