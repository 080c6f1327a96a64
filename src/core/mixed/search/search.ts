import { COMPONENT_COUNT, perComponent } from '../components.ts'
import { evaluateCriterion, evaluateDerivatives } from '../evaluate.ts'
import type { FitOptions, SearchStep, StartTolerance } from '../fit-result.ts'
import type { Layout } from '../layout.ts'
import type { Workspace } from '../model/workspace.ts'
import { type ProposedStep, proposeStep, type SearchDomain, type SearchPoint } from './step.ts'

/** Where the search ended. */
export interface SearchResult {
  readonly theta: Float64Array
  readonly logLikelihood: number
  readonly converged: boolean
  readonly singular: boolean
  readonly steps: readonly SearchStep[]
  /** Distance of a start that was kept. */
  readonly kept?: StartTolerance
}

/** What a search is asked to do. */
export interface SearchProblem {
  /** Variances to start from, inside the bounds. */
  readonly start: Float64Array
  readonly domain: SearchDomain
  readonly options: FitOptions
}

const FIRST_DAMPING = 0.1
const DAMPING_FACTOR = 10
/** Beyond this damping a step no longer changes theta. */
const LARGEST_DAMPING = 1e12
/** Fall of the log-likelihood that rounding alone can cause, per unit of N + |l|. */
const ROUNDING_OF_CRITERION = 1e-13
/** A score counts as zero below this many standard errors of its own. */
const SCORE_TOLERANCE = 1e-3
/** Relative distance at which a variance counts as being on its bound. */
const BOUND_TOLERANCE = 1e-12

/**
 * Maximises the restricted likelihood inside the bounds: average-information steps, damped while
 * the likelihood would fall. The workspace holds the evaluation at the result afterwards.
 *
 * @param layout the runs, at least one
 * @param ws workspace of this layout. Mutated.
 * @param problem start (feasible), what may move, and the settings of the fit
 * @param known log-likelihood at the start, where the workspace holds criterion and derivatives there
 * @returns theta and the record of the search; singular if the start cannot be evaluated
 * @source A. R. Gilmour, R. Thompson, B. R. Cullis, Biometrics 51, 1995, 1440-1450 (from memory);
 *   step control as in Levenberg and Marquardt
 */
export function searchTheta(
  layout: Layout,
  ws: Workspace,
  problem: SearchProblem,
  known: number | null = null,
): SearchResult {
  const { domain, options } = problem
  const steps: SearchStep[] = []
  let logLikelihood = known ?? evaluateCriterion(layout, ws, problem.start)
  if (!Number.isFinite(logLikelihood)) {
    return { theta: problem.start, logLikelihood, converged: false, singular: true, steps }
  }
  if (known === null) evaluateDerivatives(layout, ws)
  let point = pointOf(ws)
  let plain = proposeStep(point, domain, 0)
  let damping = 0
  let evaluations = 1
  while (!isDone(plain, options.tolerance)) {
    if (evaluations >= options.maxEvaluations || damping > LARGEST_DAMPING) break
    const step = damping === 0 ? plain : proposeStep(point, domain, damping)
    const trial = moved(point.theta, step.delta, domain.lower)
    const found = evaluateCriterion(layout, ws, trial)
    const noise = ROUNDING_OF_CRITERION * (layout.runCount + Math.abs(logLikelihood))
    const accepted = found >= logLikelihood - noise
    steps.push(record(trial, { logLikelihood: found, step, damping, accepted }))
    evaluations++
    if (accepted) {
      logLikelihood = found
      evaluateDerivatives(layout, ws)
      point = pointOf(ws)
      plain = proposeStep(point, domain, 0)
      damping = damping <= FIRST_DAMPING ? 0 : damping / DAMPING_FACTOR
    } else damping = damping === 0 ? FIRST_DAMPING : damping * DAMPING_FACTOR
  }
  if (steps.at(-1)?.accepted === false) evaluateHere(layout, ws, point.theta)
  const converged = isDone(plain, options.tolerance) && isStationary(point, domain)
  return { theta: point.theta, logLikelihood, converged, singular: false, steps }
}

function isDone(plain: ProposedStep, tolerance: number): boolean {
  return Math.abs(plain.decrement) < tolerance && !plain.reachesBound
}

/**
 * Leaves the workspace with criterion and derivatives at theta.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @param theta variances at which the model can be evaluated [unit of y squared]
 * @source formulas of evaluateCriterion and evaluateDerivatives
 */
export function evaluateHere(layout: Layout, ws: Workspace, theta: Float64Array): void {
  evaluateCriterion(layout, ws, theta)
  evaluateDerivatives(layout, ws)
}

/**
 * The model at the present variances, for the next step.
 *
 * @param ws workspace after the derivatives
 * @returns copies of its numbers
 * @source common practice
 */
export function pointOf(ws: Workspace): SearchPoint {
  return {
    theta: ws.theta.slice(),
    score: ws.score.slice(),
    information: ws.averageInformation.slice(),
    informationScale: ws.traceSquares.slice(),
  }
}

function moved(theta: Float64Array, delta: Float64Array, lower: Float64Array): Float64Array {
  return theta.map((value, j) => {
    const next = value + delta[j]!
    return delta[j]! < 0 && next <= lower[j]! * (1 + BOUND_TOLERANCE) ? lower[j]! : next
  })
}

/**
 * Whether the first-order conditions of a bounded maximum hold: score zero (within 1e-3 of its
 * standard error) where θ is above its bound, not positive where θ is on it.
 */
function isStationary({ theta, score, information }: SearchPoint, domain: SearchDomain): boolean {
  for (let j = 0; j < COMPONENT_COUNT; j++) {
    if (domain.estimable[j] === 0) continue
    const slack = SCORE_TOLERANCE * Math.sqrt(information[j + COMPONENT_COUNT * j]!)
    const excess = theta[j]! > domain.lower[j]! ? Math.abs(score[j]!) : score[j]!
    if (!(excess <= slack)) return false
  }
  return true
}

function record(
  theta: Float64Array,
  rest: {
    readonly logLikelihood: number
    readonly step: ProposedStep
    readonly damping: number
    readonly accepted: boolean
  },
): SearchStep {
  const { logLikelihood, step, damping, accepted } = rest
  return {
    theta: perComponent((j) => theta[j]!),
    logLikelihood,
    decrement: step.decrement,
    damping,
    accepted,
  }
}
