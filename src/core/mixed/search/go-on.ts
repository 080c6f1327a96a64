import { evaluateCriterion, evaluateDerivatives } from '../evaluate.ts'
import type { StartTolerance } from '../fit-result.ts'
import type { Layout } from '../layout.ts'
import type { Workspace } from '../model/workspace.ts'
import { searchTwice } from './restart.ts'
import { pointOf, type SearchProblem, type SearchResult, searchTheta } from './search.ts'
import { proposeStep } from './step.ts'

/**
 * λ² below which a search goes on from its start alone: θ within a standard error of it. Whoever gave the
 * start has looked on the other side of zero, and so little further evidence moves no maximum past another;
 * editorial.
 */
const NEAR = 1

/**
 * What follows from a start that an earlier fit ended at: the start itself where the data ask for no
 * other, else a search from there.
 *
 *     λ² = δ'·score,  c² = δ'Bδ,  B_jk = (X'V⁻¹f_j)' C (X'V⁻¹f_k),  f_j = G_j e
 *
 * δ is the average-information step. λ is its length in standard errors of θ; a standard error of a contrast with
 * ν degrees of freedom changes by the share λ/√(2ν) at most. ∂β/∂θ_j = −C X'V⁻¹f_j, so c is the largest change of
 * any contrast in its standard errors. Both are of first order. The start is kept where both are within
 * their tolerance and no component would reach its bound; from λ² of 1 on the search is that of {@link searchTwice}.
 *
 * @param layout the runs, at least one
 * @param ws workspace of this layout; holds the evaluation at the result afterwards. Mutated.
 * @param problem start, what may move, and the settings of the fit
 * @param tolerance of λ² and c
 * @returns the result, with its distance where it is the start
 * @source derived here; λ/√(2ν) from the definition of ν (Satterthwaite)
 */
export function goOnFrom(
  layout: Layout,
  ws: Workspace,
  problem: SearchProblem,
  tolerance: StartTolerance,
): SearchResult {
  const { start, domain } = problem
  const logLikelihood = evaluateCriterion(layout, ws, start)
  if (!Number.isFinite(logLikelihood)) return searchTwice(layout, ws, problem)
  evaluateDerivatives(layout, ws)
  const step = proposeStep(pointOf(ws), domain, 0)
  const decrement = Math.abs(step.decrement)
  if (!(decrement < NEAR)) return searchTwice(layout, ws, problem)
  const shift = largestShift(layout.setupCount, ws, step.delta)
  if (decrement < tolerance.decrement && shift < tolerance.shift && !step.reachesBound) {
    const kept = { decrement, shift }
    return { theta: start, logLikelihood, converged: true, singular: false, steps: [], kept }
  }
  return searchTheta(layout, ws, problem, logLikelihood)
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
