import { createWorkspace } from './evaluate.ts'
import { fitNested } from './fit.ts'
import type { NestedFit } from './fit-result.ts'
import type { Layout } from './layout.ts'
import { type Residuals, residualsOf } from './residuals.ts'

/** A fit in which what does not fit counts less. */
export interface RobustFit {
  readonly fit: NestedFit
  /** The runs with the variances that make outliers count less; what the fit was made from. */
  readonly layout: Layout
  /** Weight of each session's level, 0 to 1, in the order of the layout. */
  readonly sessionWeights: Float64Array
  /** Weight of each cell as a whole, in the order of the layout. */
  readonly cellWeights: Float64Array
  /** Weight of each run, in the order of the observations. */
  readonly runWeights: Float64Array
}

/** Degrees of freedom of the t distributions; editorial: heavy tails that still have a variance. */
const TAIL = 4
/**
 * Residual up to which everything counts in full; editorial: one normal deviate in twenty lies beyond.
 * Checked on seeds it was not chosen on, 95 % intervals, campaigns of 4, 8 and 24 pilots: clean ones held
 * 0.948, 0.943, 0.940 (plain 0.958, 0.950, 0.955); one run in twenty off by 0.4: root-mean-square error
 * 0.63, 0.42, 0.39 of the plain one, held 0.943, 0.935, 0.935; one setup of one session off by 0.4: bias
 * 4.6, 1.0, 0.2 % (plain 8.4, 3.9, 1.3 %). One session in ten off for one setup, always the same way, is
 * too much for it: bias 1.1 % at 24 pilots (plain 4.1 %), held 0.79 (plain 0.40).
 */
const FULL_WEIGHT = 2
/** Rounds of new variances, and of new weights at the same variances. */
const ROUNDS = 2
const STEPS = 12
/** Change of a weight below which the weights count as settled. */
const SETTLED = 1e-3

/**
 * Fits again with t instead of normal distributions for sessions, cells and runs, by weights: what lies
 * far from all others is given a larger variance, nothing a smaller one.
 *
 *     λ = min(1, (ν + c²)/(ν + t²)),  ν = 4, c = 2
 *     session: τs²/λ;  cell: τc²/λ;  run: (s² + u²)/λ
 *     t² = t'²/(1 − k p)   t', p: residual and its precision with the extra variance k already in force
 *
 * Weights are iterated at fixed variances, then the variances are estimated anew, twice.
 *
 * @param layout the runs
 * @param plain result of fitNested on that layout
 * @returns the robust fit with its weights; null where the plain one knows no standard errors or the
 *   robust one could not be made
 * @source K. L. Lange, R. J. A. Little, J. M. G. Taylor, J. Amer. Statist. Assoc. 84, 1989, 881-896
 *   (weights of t models); J. C. Pinheiro, C. Liu, Y. N. Wu, J. Comput. Graph. Statist. 10, 2001, 249-276
 *   (mixed models; both from memory); c = 1 would be the t model
 *   itself, whose variances are too small by design where everything is normal; the cap is ours
 */
export function fitRobust(layout: Layout, plain: NestedFit): RobustFit | null {
  if (!plain.standardErrorsKnown) return null
  const weights: Weights = {
    sessions: new Float64Array(layout.sessionCount).fill(1),
    cells: new Float64Array(layout.cellCount).fill(1),
    runs: new Float64Array(layout.runCount).fill(1),
  }
  const memory = createWorkspace(layout)
  let fit = plain
  let weighted = layout
  for (let round = 0; round < ROUNDS; round++) {
    for (let step = 0; step < STEPS; step++) {
      const residuals = residualsOf(weighted, fit, { memory })
      if (residuals === null) return null
      const change = updateWeights(layout, { fit, weighted, residuals, weights })
      weighted = reweigh(layout, fit, weights)
      if (change < SETTLED) break
    }
    fit = fitNested(weighted)
    if (!fit.standardErrorsKnown || !fit.converged) return null
    if (round < ROUNDS - 1) weighted = reweigh(layout, fit, weights)
  }
  return {
    fit,
    layout: weighted,
    sessionWeights: weights.sessions,
    cellWeights: weights.cells,
    runWeights: weights.runs,
  }
}

interface Weights {
  readonly sessions: Float64Array
  readonly cells: Float64Array
  readonly runs: Float64Array
}

interface Step {
  readonly fit: NestedFit
  readonly weighted: Layout
  readonly residuals: Residuals
  readonly weights: Weights
}

/** New weights from the residuals; returns the largest change. Mutates the weights. */
function updateWeights(layout: Layout, { fit, weighted, residuals, weights }: Step): number {
  const { theta } = fit
  const { runs, cells, sessions } = residuals
  let change = 0
  const put = (into: Float64Array, at: number, t: number, extra: number) => {
    const next = weightOf(t, extra)
    change = Math.max(change, Math.abs(next - into[at]!))
    into[at] = next
  }
  const cellExtra = weights.cells.map((weight) => theta.cell * (1 / weight - 1))
  for (let s = 0; s < layout.sessionCount; s++) {
    const k = theta.session * (1 / weights.sessions[s]! - 1)
    put(weights.sessions, s, sessions.residual[s]!, k * sessions.precision[s]!)
  }
  for (let c = 0; c < layout.cellCount; c++) {
    put(weights.cells, c, cells.residual[c]!, cellExtra[c]! * cells.precision[c]!)
    for (let i = layout.cellStart[c]!; i < layout.cellStart[c + 1]!; i++) {
      const run = layout.order[i]!
      const k = weighted.knownRunVariance[i]! - layout.knownRunVariance[i]!
      put(weights.runs, run, runs.residual[run]!, k * runs.precision[run]!)
    }
  }
  return change
}

/** λ of a residual t' that already has the share `extra` = k p of its variance from its weight. */
function weightOf(t: number, extra: number): number {
  if (Number.isNaN(t)) return 1 // stands alone: nothing says that it does not fit
  const square = (t * t) / Math.max(1 - extra, Number.EPSILON)
  return Math.min(1, (TAIL + FULL_WEIGHT ** 2) / (TAIL + square))
}

/** The layout with the variances that these weights stand for. */
function reweigh(layout: Layout, { theta }: NestedFit, weights: Weights): Layout {
  const knownRunVariance = layout.knownRunVariance.slice()
  for (let c = 0; c < layout.cellCount; c++) {
    let W = 0
    for (let i = layout.cellStart[c]!; i < layout.cellStart[c + 1]!; i++) {
      const plain = theta.run + layout.knownRunVariance[i]!
      knownRunVariance[i] = plain / weights.runs[layout.order[i]!]!
      W += 1 / knownRunVariance[i]!
    }
    // Every run's variance times this adds τc²(1/λ − 1) to the variance of the cell's mean.
    const stretch = 1 + W * theta.cell * (1 / weights.cells[c]! - 1)
    for (let i = layout.cellStart[c]!; i < layout.cellStart[c + 1]!; i++) {
      knownRunVariance[i] = Math.max(0, knownRunVariance[i]! * stretch - theta.run)
    }
  }
  const knownSessionVariance = layout.knownSessionVariance.map(
    (known, s) => known + theta.session * (1 / weights.sessions[s]! - 1),
  )
  return { ...layout, knownRunVariance, knownSessionVariance }
}
