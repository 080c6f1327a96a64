import { evaluateCriterion, evaluateDerivatives } from '../evaluate.ts'
import type { StartTolerance } from '../fit-result.ts'
import type { Layout } from '../layout.ts'
import type { Workspace } from '../model/workspace.ts'
import { pointOf, type SearchProblem, type SearchResult } from './search.ts'
import { proposeStep } from './step.ts'

/**
 * The start itself as the result, where the data ask for no other.
 *
 *     λ² = δ'·score,  c² = δ'Bδ,  B_jk = (X'V⁻¹f_j)' C (X'V⁻¹f_k),  f_j = G_j e
 *
 * δ is the average-information step. λ is its length in standard errors of θ; a standard error of a contrast with
 * ν degrees of freedom changes by the share λ/√(2ν) at most. ∂β/∂θ_j = −C X'V⁻¹f_j, so c is the largest change of
 * any contrast in its standard errors. Both are of first order.
 *
 * @param layout the runs, at least one
 * @param ws workspace of this layout; holds the evaluation at the start afterwards. Mutated.
 * @param problem start, what may move, and the settings of the fit
 * @param tolerance of λ² and c
 * @returns the start as a result; null where it is too far away, or a component would reach its bound
 * @source derived here; λ/√(2ν) from the definition of ν (Satterthwaite)
 */
export function keepStart(
  layout: Layout,
  ws: Workspace,
  { start, domain }: SearchProblem,
  tolerance: StartTolerance,
): SearchResult | null {
  const logLikelihood = evaluateCriterion(layout, ws, start)
  if (!Number.isFinite(logLikelihood)) return null
  evaluateDerivatives(layout, ws)
  const { delta, decrement, reachesBound } = proposeStep(pointOf(ws), domain, 0)
  const shift = largestShift(layout.setupCount, ws, delta)
  const near = Math.abs(decrement) < tolerance.decrement && shift < tolerance.shift
  if (!near || reachesBound) return null
  const kept = { decrement: Math.abs(decrement), shift }
  return { theta: start, logLikelihood, converged: true, singular: false, steps: [], kept }
}

/** c, from X'V⁻¹f_j and C times them as the information pass left them. */
function largestShift(K: number, { projected, solved }: Workspace, delta: Float64Array): number {
  let square = 0
  for (let i = 0; i < K; i++) {
    let along = 0
    let moved = 0
    for (let j = 0; j < delta.length; j++) {
      along += delta[j]! * projected[j * K + i]!
      moved += delta[j]! * solved[j * K + i]!
    }
    square += along * moved
  }
  return Math.sqrt(Math.max(0, square))
}
