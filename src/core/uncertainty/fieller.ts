import { requireInRange } from '../atmosphere/range.ts'

/** Two estimates whose ratio is wanted, with their covariance matrix. */
export interface RatioOfEstimates {
  readonly numerator: number
  readonly denominator: number
  readonly numeratorVariance: number
  readonly denominatorVariance: number
  readonly covariance: number
}

/**
 * The ratios that the estimates do not rule out: an interval; or all but an interval, where the
 * denominator may be zero and the numerator not; or every number.
 */
export type RatioSet =
  | { readonly kind: 'interval'; readonly low: number; readonly high: number }
  | { readonly kind: 'outside'; readonly low: number; readonly high: number }
  | { readonly kind: 'everything' }

const NOT_NEGATIVE = { min: 0, max: Number.MAX_VALUE } as const

/**
 * Confidence set of a ratio of two normal estimates by Fieller's theorem.
 *
 *     { θ : (n − θd)² ≤ t²·(v_n − 2θc + θ²v_d) },  that is  Aθ² − 2Bθ + C ≤ 0,
 *     A = d² − t²v_d,  B = nd − t²c,  C = n² − t²v_n
 *
 * An interval exactly where the denominator differs from zero at that level (A > 0); otherwise no
 * finite interval has the coverage, and none is made up.
 *
 * @param ratio numerator n and denominator d, their variances v_n, v_d (0 or more) and covariance c
 * @param t two-sided quantile of Student's t for the confidence level, 0 or more
 * @returns the set, ends in the unit of n/d
 * @throws {OutOfRangeError} if a variance or t is NaN or negative
 * @source E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175; the formula is derived here from its pivot
 * @example fiellerSet({ numerator: 500, denominator: 2, numeratorVariance: 0, denominatorVariance: 0.25, covariance: 0 }, 2).high // 500
 */
export function fiellerSet(ratio: RatioOfEstimates, t: number): RatioSet {
  const { numerator: n, denominator: d, covariance } = ratio
  const vn = requireInRange('numeratorVariance', ratio.numeratorVariance, NOT_NEGATIVE)
  const vd = requireInRange('denominatorVariance', ratio.denominatorVariance, NOT_NEGATIVE)
  const t2 = requireInRange('t', t, NOT_NEGATIVE) ** 2
  const a = d * d - t2 * vd
  const b = n * d - t2 * covariance
  const c = n * n - t2 * vn
  const discriminant = b * b - a * c
  if (!(a > 0) && !(discriminant > 0)) return { kind: 'everything' }
  const root = Math.sqrt(Math.max(0, discriminant))
  const sum = b < 0 ? b - root : b + root // the sum without cancellation; c/sum is the other root
  const ends = [sum / a, sum === 0 ? 0 : c / sum]
  const low = Math.min(...ends)
  const high = Math.max(...ends)
  return { kind: a > 0 ? 'interval' : 'outside', low, high }
}
