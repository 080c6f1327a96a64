import { choleskyInPlace, logDeterminant } from '../linalg/cholesky.ts'
import {
  invertFromFactor,
  solveLowerInPlace,
  solveLowerTransposedInPlace,
} from '../linalg/triangular.ts'
import { COMPONENT_COUNT, componentArray, type PerComponent } from './components.ts'
import type { Layout } from './layout.ts'
import { informationPass } from './model/information-pass.ts'
import { accumulatePrecision, weighCells, weighGroups } from './model/precision-pass.ts'
import { residualPass } from './model/residual-pass.ts'
import { sensitivityPass } from './model/sensitivity-pass.ts'
import { invertStructuredMeans, solveStructuredMeans } from './model/structured-means.ts'
import { tracePass } from './model/trace-pass.ts'
import { createWorkspace, type Workspace } from './model/workspace.ts'

export { createWorkspace, type Workspace } from './model/workspace.ts'

const LOG_TWO_PI = Math.log(2 * Math.PI)

/**
 * Restricted log-likelihood at given variances. This is the step the search repeats.
 *
 *     l_R = −½ [ (N − K) log 2π + log|V| + log|M| + r'V⁻¹r ],   M = X'V⁻¹X
 *
 * Structured means μ = Z b have p for K and Z'MZ for M.
 *
 * Cost O(N + Σ m_s² + Σ m_p² + K³); no memory is allocated.
 *
 * @param layout the runs
 * @param ws workspace of this layout; holds weights, factor, effect and residuals afterwards. Mutated.
 * @param theta variances (pilot, session, cell, run) [unit of y squared]; 0 is allowed, and so are
 *   slightly negative values as long as V stays positive definite
 * @returns l_R with the constant of lme4 (no term ½ log|X'X|), or NaN if V or M is not positive
 *   definite
 * @source D. Bates, M. Mächler, B. Bolker, S. Walker, J. Stat. Softw. 67(1), 2015 (criterion and
 *   constant); closed form derived for this model
 */
export function evaluateCriterion(layout: Layout, ws: Workspace, theta: Float64Array): number {
  const { setupCount, runCount } = layout
  ws.theta.set(theta)
  let logDet = weighCells(layout, ws)
  logDet += weighGroups(layout, ws)
  accumulatePrecision(layout, ws)
  logDet += layout.means ? solveStructuredMeans(layout.means, ws) : solveMeans(setupCount, ws)
  if (Number.isNaN(logDet)) return Number.NaN
  const squares = residualPass(layout, ws)
  const coefficients = layout.means?.kept.length ?? setupCount
  return -((runCount - coefficients) * LOG_TWO_PI + logDet + squares) / 2
}

/** β from M β = X'V⁻¹y; returns log|M|, or NaN if M is not positive definite. */
function solveMeans(K: number, ws: Workspace): number {
  if (choleskyInPlace(ws.factor, K) !== -1) return Number.NaN
  solveLowerInPlace(ws.factor, K, ws.effect)
  solveLowerTransposedInPlace(ws.factor, K, ws.effect)
  return logDeterminant(ws.factor, K)
}

/**
 * Covariance of the setup means at the variances of the last {@link evaluateCriterion}.
 *
 * @param layout the runs
 * @param ws workspace after evaluateCriterion; holds covariance afterwards, symmetric. Mutated.
 * @source generalised least squares (common practice)
 */
export function evaluateCovariance(layout: Layout, ws: Workspace): void {
  if (layout.means) invertStructuredMeans(layout.means, ws)
  else invertFromFactor(ws.factor, layout.setupCount, ws.covariance)
}

/**
 * Covariance of the setup means and score at the variances of the last {@link evaluateCriterion}.
 *
 *     score_j = ½ [ e'G_je − tr V⁻¹G_j + tr C T_j ],   e = V⁻¹r
 *
 * @param layout the runs
 * @param ws workspace after evaluateCriterion; holds covariance and score afterwards. Mutated.
 * @source D. A. Harville, J. Amer. Statist. Assoc. 72, 1977, 320-338 (from memory)
 */
export function evaluateScore(layout: Layout, ws: Workspace): void {
  evaluateCovariance(layout, ws)
  tracePass(layout, ws)
  const squares = [
    sumOfSquares(ws.pilotResidual),
    sumOfSquares(ws.sessionResidual),
    sumOfSquares(ws.cellResidual),
    ws.residualSquares[0]!,
  ]
  for (let j = 0; j < COMPONENT_COUNT; j++) {
    ws.score[j] = (squares[j]! - ws.trace[j]! + ws.meansTrace[j]!) / 2
  }
}

/**
 * Score and average information at the variances of the last {@link evaluateCriterion}.
 *
 * @param layout the runs
 * @param ws workspace after evaluateCriterion. Mutated.
 * @source A. R. Gilmour, R. Thompson, B. R. Cullis, Biometrics 51, 1995, 1440-1450 (from memory)
 */
export function evaluateDerivatives(layout: Layout, ws: Workspace): void {
  evaluateScore(layout, ws)
  informationPass(layout, ws)
}

function sumOfSquares(values: Float64Array): number {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i]! * values[i]!
  return sum
}

/** The model at one set of variances, in arrays of its own. */
export interface Evaluation {
  readonly logLikelihood: number
  /** Setup means [unit of y]. */
  readonly beta: Float64Array
  /** Covariance of the setup means, K × K [unit of y squared]. */
  readonly covariance: Float64Array
  /** T_j = X'V⁻¹G_jV⁻¹X, four K × K matrices in a row. */
  readonly sensitivity: Float64Array
  /** Derivative of the log-likelihood, 4 entries. */
  readonly score: Float64Array
  /** 4 × 4. */
  readonly averageInformation: Float64Array
}

/**
 * Evaluates criterion, estimates and derivatives once, outside a search.
 *
 * @param layout the runs
 * @param theta variances [unit of y squared], ≥ 0
 * @returns the evaluation; everything is NaN if V or M is not positive definite
 * @source formulas of {@link evaluateCriterion} and {@link evaluateDerivatives}
 */
export function evaluateAt(layout: Layout, theta: PerComponent<number>): Evaluation {
  const ws = createWorkspace(layout)
  const logLikelihood = evaluateCriterion(layout, ws, componentArray(theta))
  if (Number.isNaN(logLikelihood)) {
    for (const result of [ws.effect, ws.covariance, ws.sensitivity]) result.fill(Number.NaN)
    for (const result of [ws.score, ws.averageInformation]) result.fill(Number.NaN)
  } else {
    evaluateDerivatives(layout, ws)
    sensitivityPass(layout, ws)
  }
  return {
    logLikelihood,
    beta: ws.effect.map((effect, setup) => effect + layout.anchor[setup]!),
    covariance: ws.covariance,
    sensitivity: ws.sensitivity,
    score: ws.score,
    averageInformation: ws.averageInformation,
  }
}
