import { COMPONENT_COUNT } from '../components.ts'
import { evaluateCriterion, evaluateScore } from '../evaluate.ts'
import type { Layout } from '../layout.ts'
import type { Workspace } from '../model/workspace.ts'

/**
 * Step of the differences, as a share of the smallest variance a group of the component has.
 * Truncation is of the order of its square, 1e-8; rounding of the score over it is less.
 */
const RELATIVE_STEP = 1e-4

/**
 * Observed information −∂score/∂θ by central differences of the analytic score.
 *
 * The step of component j is 1e-4 / max 1'V⁻¹1 over its groups, so V stays positive definite even
 * at θ_j = 0, where one of the two points is slightly negative.
 *
 * @param layout the runs
 * @param ws workspace after the derivatives at theta; afterwards it holds another point. Mutated.
 * @param estimable 1 for each component wanted
 * @returns 4 × 4, symmetric; zero in the rows of other components
 * @source common practice (central differences)
 */
export function observedInformation(
  layout: Layout,
  ws: Workspace,
  estimable: Uint8Array,
): Float64Array {
  const n = COMPONENT_COUNT
  const theta = ws.theta.slice()
  const steps = ws.largestWeight.map((weight) => RELATIVE_STEP / weight)
  const raw = new Float64Array(n * n)
  for (let j = 0; j < n; j++) {
    if (estimable[j] === 0) continue
    const upper = scoreAt(layout, ws, shifted(theta, j, steps[j]!))
    const lower = scoreAt(layout, ws, shifted(theta, j, -steps[j]!))
    for (let k = 0; k < n; k++) {
      if (estimable[k] === 1) raw[k + n * j] = (lower[k]! - upper[k]!) / (2 * steps[j]!)
    }
  }
  const symmetric = new Float64Array(n * n)
  for (let j = 0; j < n; j++) {
    for (let k = 0; k < n; k++) symmetric[k + n * j] = (raw[k + n * j]! + raw[j + n * k]!) / 2
  }
  return symmetric
}

function shifted(theta: Float64Array, j: number, step: number): Float64Array {
  const result = theta.slice()
  result[j]! += step
  return result
}

function scoreAt(layout: Layout, ws: Workspace, theta: Float64Array): Float64Array {
  evaluateCriterion(layout, ws, theta)
  evaluateScore(layout, ws)
  return ws.score.slice()
}
