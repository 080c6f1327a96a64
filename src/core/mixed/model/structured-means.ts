import { choleskyInPlace, logDeterminant } from '../../linalg/cholesky.ts'
import {
  invertFromFactor,
  solveLowerInPlace,
  solveLowerTransposedInPlace,
} from '../../linalg/triangular.ts'
import type { MeanDesign } from '../design/mean-design.ts'
import type { Workspace } from './workspace.ts'

/**
 * Solves for means that follow a structure, μ = Z b.
 *
 *     Z'MZ b = Z'(X'V⁻¹y),  μ = Z b
 *
 * Reads the lower triangle of M in `factor` and the right-hand side in `effect`; writes
 * structuredFactor, coefficients and `effect` (now μ).
 *
 * @param means Z, of rank p
 * @param ws workspace after the precision pass. Mutated.
 * @returns log|Z'MZ|, or NaN if it is not positive definite
 * @source generalised least squares under linear restrictions (common practice)
 */
export function solveStructuredMeans(means: MeanDesign, ws: Workspace): number {
  const { keptRows } = means
  const K = keptRows.length
  const p = means.kept.length
  const { structuredFactor: M, coefficients: b } = ws
  M.fill(0)
  b.fill(0)
  for (let j = 0; j < K; j++) {
    for (const { column, value } of keptRows[j]!) b[column]! += value * ws.effect[j]!
    for (let i = 0; i < K; i++) {
      const m = i >= j ? ws.factor[i + j * K]! : ws.factor[j + i * K]!
      if (m === 0) continue
      for (const a of keptRows[i]!) {
        for (const c of keptRows[j]!) M[a.column + c.column * p]! += a.value * m * c.value
      }
    }
  }
  if (choleskyInPlace(M, p) !== -1) return Number.NaN
  solveLowerInPlace(M, p, b)
  solveLowerTransposedInPlace(M, p, b)
  for (let k = 0; k < K; k++) {
    ws.effect[k] = keptRows[k]!.reduce((sum, { column, value }) => sum + value * b[column]!, 0)
  }
  return logDeterminant(M, p)
}

/**
 * Covariance of structured means: C_b = (Z'MZ)⁻¹ and Z C_b Z'.
 *
 * @param means Z, of rank p
 * @param ws workspace after {@link solveStructuredMeans}; receives coefficientCovariance and covariance.
 *   Mutated.
 * @source generalised least squares under linear restrictions (common practice)
 */
export function invertStructuredMeans(means: MeanDesign, ws: Workspace): void {
  const { keptRows } = means
  const K = keptRows.length
  const p = means.kept.length
  invertFromFactor(ws.structuredFactor, p, ws.coefficientCovariance)
  for (let j = 0; j < K; j++) {
    for (let i = 0; i < K; i++) {
      let sum = 0
      for (const a of keptRows[i]!) {
        for (const c of keptRows[j]!) {
          sum += a.value * c.value * ws.coefficientCovariance[a.column + c.column * p]!
        }
      }
      ws.covariance[i + j * K] = sum
    }
  }
}
