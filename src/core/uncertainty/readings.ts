import { OutOfRangeError } from '../errors.ts'

/** Means of repeated readings, with what their spread says of them. */
export interface EvaluatedReadings {
  readonly means: Float64Array
  /** Of the means, k = 1. */
  readonly standardUncertainties: Float64Array
  /** Of the means: entry (i, j) is `correlation[i * series + j]`. */
  readonly correlation: Float64Array
  /** Degrees of freedom of each standard uncertainty. */
  readonly degreesOfFreedom: number
}

/**
 * Evaluates series of readings that were taken together (type A).
 *
 *     u²(x̄) = Σ(x_k − x̄)² / (n·(n − 1)),  r(x̄, ȳ) = Σ(x_k − x̄)(y_k − ȳ) / √(Σ(x_k − x̄)²·Σ(y_k − ȳ)²)
 *
 * @param series readings by quantity, each in its unit; the k-th of all were taken together; two or
 *   more of each
 * @returns means [unit of the series], their standard uncertainties and correlations
 * @throws {OutOfRangeError} if the series are shorter than two or of unequal length
 * @source JCGM 100:2008 (GUM), 4.2 and 5.2.3 eq. (17)
 */
export function evaluateReadings(series: readonly (readonly number[])[]): EvaluatedReadings {
  const count = series[0]?.length ?? 0
  for (const { length } of series) {
    if (length < 2 || length !== count) throw new OutOfRangeError('readings', length, 2, count)
  }
  const means = Float64Array.from(series, (one) => one.reduce((sum, x) => sum + x, 0) / count)
  const n = series.length
  const products = new Float64Array(n * n)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      for (let k = 0; k < count; k++) {
        products[i * n + j]! += (series[i]![k]! - means[i]!) * (series[j]![k]! - means[j]!)
      }
    }
  }
  return {
    means,
    standardUncertainties: means.map((_, i) =>
      Math.sqrt(products[i * n + i]! / (count * (count - 1))),
    ),
    correlation: correlationOf(products, n),
    degreesOfFreedom: count - 1,
  }
}

/**
 * Correlations that belong to a covariance matrix.
 *
 *     r_ij = U_ij / √(U_ii·U_jj)
 *
 * @param covariance n × n, symmetric; any common factor is without effect
 * @param n order of the matrix
 * @returns n × n [1]; 0 beside a quantity that does not vary, and 1 on the diagonal
 * @source JCGM 100:2008 (GUM), 5.2.2 eq. (14)
 */
export function correlationOf(covariance: Float64Array, n: number): Float64Array {
  const correlation = new Float64Array(n * n)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const scale = Math.sqrt(covariance[i * n + i]! * covariance[j * n + j]!)
      if (i === j) correlation[i * n + j] = 1
      else if (scale > 0) correlation[i * n + j] = covariance[i * n + j]! / scale
    }
  }
  return correlation
}
