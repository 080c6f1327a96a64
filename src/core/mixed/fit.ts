import { OutOfRangeError } from '../errors.ts'
import { invertBlock } from '../linalg/symmetric.ts'
import {
  COMPONENT_COUNT,
  COMPONENTS,
  componentArray,
  type PerComponent,
  perComponent,
} from './components.ts'
import { type Separability, separability } from './design/separability.ts'
import { createWorkspace } from './evaluate.ts'
import type { ComponentStatus, FitOptions, NestedFit, StartTolerance } from './fit-result.ts'
import type { Layout } from './layout.ts'
import { sensitivityPass } from './model/sensitivity-pass.ts'
import type { Workspace } from './model/workspace.ts'
import { goOnFrom } from './search/go-on.ts'
import { expectedInformation } from './search/information.ts'
import { searchTwice } from './search/restart.ts'
import type { SearchProblem, SearchResult } from './search/search.ts'
import { type DataScale, dataScale, lowerBounds, startTheta } from './search/start.ts'
import type { SearchDomain } from './search/step.ts'
import { slopesOfCovariance } from './slopes.ts'

export type {
  ComponentStatus,
  FitOptions,
  NestedFit,
  SearchStep,
  StartTolerance,
} from './fit-result.ts'

/** Settings of {@link fitNested} unless the caller gives others. */
export const DEFAULT_FIT_OPTIONS: FitOptions = {
  tolerance: 1e-10,
  maxEvaluations: 100,
  start: null,
  keepStart: null,
  fixed: {},
}

/**
 * Start that a refresh keeps: θ within a tenth of its standard error and every contrast within a hundredth of its
 * own; editorial: a hundredth of a standard error adds 0.005 % to a root-mean-square error.
 */
export const REFRESH_TOLERANCE: StartTolerance = { decrement: 0.01, shift: 0.01 }

/**
 * Fits the nested model by restricted maximum likelihood.
 *
 *     y_i = μ_setup + pilot + session + cell + run_i + known error_i
 *
 * with variances θ for the first four effects and u_i² for the last. Components the design cannot
 * tell apart are merged or left out as `separability` says; components whose estimate is zero stay
 * in the result with status `notDetected`. The result is a function of the layout and the options
 * alone, bit for bit.
 *
 * @param layout runs from buildLayout; may be empty
 * @param options tolerance > 0 (default 1e-10 in |δ'·score|), maxEvaluations ≥ 1 per search (100),
 *   start [unit of y squared], ≥ 0 (from the data), keepStart (never), fixed [unit of y squared], ≥ 0 (none)
 * @returns the fit as data; a singular or unconverged fit says so and is not thrown
 * @throws {OutOfRangeError} if an option is out of its range
 * @source D. A. Harville, J. Amer. Statist. Assoc. 72, 1977, 320-338; A. R. Gilmour, R. Thompson,
 *   B. R. Cullis, Biometrics 51, 1995, 1440-1450 (both from memory)
 */
export function fitNested(layout: Layout, options: Partial<FitOptions> = {}): NestedFit {
  const settings = { ...DEFAULT_FIT_OPTIONS, ...options }
  checkOptions(settings)
  const design = separability(layout, settings.fixed)
  const scale = dataScale(layout)
  const domain: SearchDomain = {
    estimable: Uint8Array.from(COMPONENTS, (component) => (design.estimable[component] ? 1 : 0)),
    lower: lowerBounds(layout, scale),
  }
  const ws = createWorkspace(layout)
  const problem = {
    start: firstTheta(layout, settings, { domain, scale }),
    domain,
    options: settings,
  }
  const runVarianceKnown =
    design.estimable.run || settings.fixed.run !== undefined || scale.leastKnown > 0
  const search =
    layout.runCount > 0 && runVarianceKnown
      ? findTheta(layout, ws, problem)
      : withoutSearch(problem.start)
  const usable = layout.runCount > 0 && runVarianceKnown && !search.singular
  if (!usable) spoil(ws)
  const covarianceSlope = usable ? slopesAt(layout, ws) : unknownMatrices(layout)
  const estimates = copyEstimates(layout, ws)
  if (!runVarianceKnown) estimates.beta.set(layout.anchor) // every setup has one run
  return {
    setups: layout.setupIds,
    theta: perComponent((j) => search.theta[j]!),
    status: statusOf(settings, domain, search.theta),
    mergedInto: design.mergedInto,
    ...estimates,
    covarianceSlope,
    ...(usable ? inverseInformation(layout, ws, domain, covarianceSlope) : unknownInformation()),
    ...diagnosis(search, design, layout),
    standardErrorsKnown: usable,
    options: settings,
  }
}

function checkOptions({
  tolerance,
  maxEvaluations,
  start,
  keepStart: keep,
  fixed,
}: FitOptions): void {
  const { MIN_VALUE, MAX_VALUE, MAX_SAFE_INTEGER } = Number
  requireRange('tolerance', tolerance, MIN_VALUE, MAX_VALUE)
  requireRange('maxEvaluations', maxEvaluations, 1, MAX_SAFE_INTEGER)
  if (keep !== null) {
    requireRange('keepStart.decrement', keep.decrement, MIN_VALUE, MAX_VALUE)
    requireRange('keepStart.shift', keep.shift, MIN_VALUE, MAX_VALUE)
  }
  for (const component of COMPONENTS) {
    if (start !== null) requireRange(`start.${component}`, start[component], 0, MAX_VALUE)
    const value = fixed[component]
    if (value !== undefined) requireRange(`fixed.${component}`, value, 0, MAX_VALUE)
  }
}

function requireRange(name: string, value: number, min: number, max: number): void {
  if (!(value >= min && value <= max)) throw new OutOfRangeError(name, value, min, max)
}

/** Place of the runs among the components. */
const RUN = COMPONENTS.indexOf('run')

/** Share of the observed variance below which a search for the run variance makes no headway. */
const LEAST_RUN_SHARE = 1e-4

/**
 * Start inside the bounds; fixed components at their value, inseparable ones at zero. A run
 * variance far below the scatter of the data is raised: from there each step only doubles it.
 */
function firstTheta(
  layout: Layout,
  { start, fixed }: FitOptions,
  { domain, scale }: { readonly domain: SearchDomain; readonly scale: DataScale },
): Float64Array {
  const { estimable, lower } = domain
  const theta = start === null ? startTheta(layout, scale, estimable) : componentArray(start)
  return theta.map((value, j) => {
    const least = j === RUN ? LEAST_RUN_SHARE * scale.total - scale.leastKnown : 0
    if (estimable[j] === 1) return Math.max(value, lower[j]!, least)
    return fixed[COMPONENTS[j]!] ?? 0
  })
}

function findTheta(layout: Layout, ws: Workspace, problem: SearchProblem): SearchResult {
  const { keepStart: tolerance, start } = problem.options
  if (tolerance === null || start === null) return searchTwice(layout, ws, problem)
  return goOnFrom(layout, ws, problem, tolerance)
}

function withoutSearch(theta: Float64Array): SearchResult {
  return { theta, logLikelihood: Number.NaN, converged: true, singular: false, steps: [] }
}

function statusOf(
  { fixed }: FitOptions,
  { estimable, lower }: SearchDomain,
  theta: Float64Array,
): PerComponent<ComponentStatus> {
  return perComponent((j) => {
    if (fixed[COMPONENTS[j]!] !== undefined) return 'fixed'
    if (estimable[j] === 0) return 'notSeparable'
    return theta[j]! > lower[j]! ? 'estimated' : 'notDetected'
  })
}

/** Marks every result in the workspace as unknown. */
function spoil(ws: Workspace): void {
  for (const result of [ws.effect, ws.covariance, ws.score]) result.fill(Number.NaN)
}

function copyEstimates(
  { anchor }: Layout,
  ws: Workspace,
): Pick<NestedFit, 'beta' | 'covariance' | 'score'> {
  return {
    beta: ws.effect.map((effect, setup) => effect + anchor[setup]!),
    covariance: ws.covariance.slice(),
    score: ws.score.slice(),
  }
}

/** Observed information O = 2 AI − E: AI holds the parts that depend on y. */
function inverseInformation(
  layout: Layout,
  ws: Workspace,
  { estimable, lower }: SearchDomain,
  slopes: Float64Array,
): Pick<NestedFit, 'inverseExpected' | 'inverseObserved'> {
  const n = COMPONENT_COUNT
  const theta = ws.theta.slice()
  const average = ws.averageInformation.slice()
  const expected = expectedInformation(layout, ws, slopes, estimable)
  const observed = average.map((value, entry) => 2 * value - expected[entry]!)
  const separable = [...estimable.keys()].filter((j) => estimable[j] === 1)
  const positive = separable.filter((j) => theta[j]! > lower[j]!)
  const unknown = unknownInformation()
  return {
    inverseExpected: invertBlock(expected, n, separable) ?? unknown.inverseExpected,
    inverseObserved: invertBlock(observed, n, positive) ?? unknown.inverseObserved,
  }
}

function slopesAt(layout: Layout, ws: Workspace): Float64Array {
  sensitivityPass(layout, ws)
  return slopesOfCovariance(ws.covariance, ws.sensitivity, layout.setupCount)
}

function unknownMatrices({ setupCount: K }: Layout): Float64Array {
  return new Float64Array(COMPONENT_COUNT * K * K).fill(Number.NaN)
}

function unknownInformation(): Pick<NestedFit, 'inverseExpected' | 'inverseObserved'> {
  const unknown = () => new Float64Array(COMPONENT_COUNT ** 2).fill(Number.NaN)
  return { inverseExpected: unknown(), inverseObserved: unknown() }
}

function diagnosis(
  search: SearchResult,
  design: Separability,
  layout: Layout,
): Pick<
  NestedFit,
  | 'logLikelihood'
  | 'keptStart'
  | 'converged'
  | 'singular'
  | 'iterations'
  | 'search'
  | 'separability'
  | 'counts'
> {
  return {
    logLikelihood: search.logLikelihood,
    keptStart: search.kept ?? null,
    converged: search.converged,
    singular: search.singular,
    iterations: search.steps.filter((step) => step.accepted).length,
    search: search.steps,
    separability: design.degreesOfFreedom,
    counts: {
      runs: layout.runCount,
      cells: layout.cellCount,
      sessions: layout.sessionCount,
      pilots: layout.pilotCount,
      setups: layout.setupCount,
    },
  }
}
