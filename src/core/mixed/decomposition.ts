import { choleskyInPlace } from '../linalg/cholesky.ts'
import { invertFromFactor } from '../linalg/triangular.ts'
import { quadraticForm } from './contrasts.ts'
import type { MeanDesign } from './design/mean-design.ts'
import type { NestedFit } from './fit-result.ts'

/** Estimated setup means taken apart into the effects of their parts and what is left over. */
export interface Decomposition {
  /** W, p × K, column-major: effects of parts as weighted sums of setup means, b = W β. */
  readonly weights: Float64Array
  /**
   * Variance of setups about the sum of their parts [unit of y squared]; 0 where none was detected or
   * none can be (no degrees of freedom).
   */
  readonly interactionVariance: number
  /** Weighted squares of what the parts leave over, chi-square on `degreesOfFreedom` if they add up [1]. */
  readonly statistic: number
  /** Setups less independent columns. */
  readonly degreesOfFreedom: number
}

/**
 * Takes setup means apart into effects of parts. What parts do not explain is a random deviation of each
 * setup, so the effects are as uncertain as combinations that were never flown make them.
 *
 *     β ~ (Z b, C + τ²I),   Q = β'(M − MZ(Z'MZ)⁻¹Z'M)β,  M = C⁻¹
 *     τ² = max(0, (Q − df) / tr(M − MZ(Z'MZ)⁻¹Z'M)),   W = (Z'C*⁻¹Z)⁻¹Z'C*⁻¹,  C* = C + τ²I
 *
 * @param fit result of fitNested, with its own mean for each setup
 * @param design parts of its setups, in its order
 * @returns the decomposition; null where the fit knows no standard errors or is singular
 * @source method of moments: R. DerSimonian, N. Laird, Controlled Clin. Trials 7, 1986, 177-188, for
 *   regression S. G. Thompson, S. J. Sharp, Stat. Med. 18, 1999, 2693-2708 (both from memory), here with a
 *   full covariance
 */
export function decompose(fit: NestedFit, design: MeanDesign): Decomposition | null {
  if (!fit.standardErrorsKnown) return null
  const K = fit.setups.length
  const degreesOfFreedom = K - design.kept.length
  const plain = project(fit.covariance, design, 0)
  if (plain === null) return null
  const left = fit.beta.slice()
  subtractFitted(left, plain.weights, { design, beta: fit.beta })
  const statistic = quadraticForm(plain.precision, left)
  const trace = projectionTrace(plain, design)
  const excess = degreesOfFreedom > 0 ? (statistic - degreesOfFreedom) / trace : 0
  const interactionVariance = Math.max(0, excess)
  const final =
    interactionVariance === 0 ? plain : project(fit.covariance, design, interactionVariance)
  if (final === null) return null
  return { weights: final.weights, interactionVariance, statistic, degreesOfFreedom }
}

interface Projection {
  /** (C + τ²I)⁻¹, K × K. */
  readonly precision: Float64Array
  readonly weights: Float64Array
}

function project(
  covariance: Float64Array,
  { keptRows, kept }: MeanDesign,
  extra: number,
): Projection | null {
  const K = keptRows.length
  const p = kept.length
  const factor = covariance.slice()
  for (let k = 0; k < K; k++) factor[k * (K + 1)]! += extra
  if (choleskyInPlace(factor, K) !== -1) return null
  const precision = new Float64Array(K * K)
  invertFromFactor(factor, K, precision)
  const half = new Float64Array(p * K) // Z'M
  const normal = new Float64Array(p * p) // Z'MZ
  for (let k = 0; k < K; k++) {
    for (let i = 0; i < K; i++) {
      const m = precision[i + k * K]!
      for (const { column, value } of keptRows[i]!) half[column + k * p]! += value * m
    }
    for (const { column, value } of keptRows[k]!) {
      for (let a = 0; a < p; a++) normal[a + column * p]! += half[a + k * p]! * value
    }
  }
  if (choleskyInPlace(normal, p) !== -1) return null
  const inverse = new Float64Array(p * p)
  invertFromFactor(normal, p, inverse)
  const weights = new Float64Array(p * K)
  for (let k = 0; k < K; k++) {
    for (let b = 0; b < p; b++) {
      const h = half[b + k * p]!
      for (let a = 0; a < p; a++) weights[a + k * p]! += inverse[a + b * p]! * h
    }
  }
  return { precision, weights }
}

/** β − Z W β. */
function subtractFitted(
  left: Float64Array,
  weights: Float64Array,
  { design, beta }: { readonly design: MeanDesign; readonly beta: Float64Array },
): void {
  const p = design.kept.length
  const b = new Float64Array(p)
  for (let k = 0; k < beta.length; k++) {
    for (let a = 0; a < p; a++) b[a]! += weights[a + k * p]! * beta[k]!
  }
  for (let k = 0; k < beta.length; k++) {
    for (const { column, value } of design.keptRows[k]!) left[k]! -= value * b[column]!
  }
}

/** tr(M − MZW). */
function projectionTrace(
  { precision, weights }: Projection,
  { keptRows, kept }: MeanDesign,
): number {
  const K = keptRows.length
  const p = kept.length
  let trace = 0
  for (let k = 0; k < K; k++) {
    trace += precision[k * (K + 1)]!
    for (let i = 0; i < K; i++) {
      for (const { column, value } of keptRows[i]!) {
        trace -= precision[k + i * K]! * value * weights[column + k * p]!
      }
    }
  }
  return trace
}
