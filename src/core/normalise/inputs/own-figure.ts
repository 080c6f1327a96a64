import type { Propagation } from '../../uncertainty/propagate.ts'
import { SHARED_CAUSES, type SharedCause, type SharedErrors } from './linked.ts'

/** A figure of the wing as one run of the session shows it. */
export interface MeasuredFigure {
  /** Natural logarithm of the figure. */
  readonly logValue: number
  /** u(ln figure) from causes of that run alone [1]. */
  readonly ownRatio: number
  readonly shared: SharedErrors
}

/** A figure of the wing as all runs of the session show it together. */
export interface OwnFigure {
  readonly value: number
  /** u(ln figure) from causes of those runs alone [1]. */
  readonly ownRatio: number
  /** What its error has in common with every other run of the session. */
  readonly shared: SharedErrors
  readonly runs: number
}

/**
 * Splits the uncertainty of a measured logarithm into the run's own part and that of each cause the
 * session shares.
 *
 * @param names names of the inputs, in their order; inputs beyond them are the run's own
 * @param propagation what {@link propagate} gave
 * @param output the logarithm: its place among the outputs, and their number
 * @returns the figure; shared errors with their signs
 * @source JCGM 100:2008 (GUM), 5.2.2
 */
export function measuredFigure(
  names: readonly string[],
  { values, contributions }: Propagation,
  { output, outputs }: { readonly output: number; readonly outputs: number },
): MeasuredFigure {
  const shared: Partial<Record<SharedCause, number>> = {}
  let own = 0
  for (let i = 0; i * outputs < contributions.length; i++) {
    const contribution = contributions[i * outputs + output]!
    const cause = SHARED_CAUSES.find((name) => name === names[i])
    if (cause === undefined) own += contribution ** 2
    else shared[cause] = contribution
  }
  return { logValue: values[output]!, ownRatio: Math.sqrt(own), shared }
}

/**
 * Weighted mean of a figure over the runs of a session, its shared errors drawn once.
 *
 *     ln x̄ = Σ w_j·ln x_j,  w_j ∝ 1/u²_own,j;   u_own² = Σ w_j²·u²_own,j;   b_k = Σ w_j·b_jk
 *
 * @param figures one or more, with own uncertainties above 0
 * @returns the mean, its own uncertainty and what it shares with the session
 * @source JCGM 100:2008 (GUM), 5.1.2 and 5.2.2; weights: least squares
 */
export function pooledFigure(figures: readonly MeasuredFigure[]): OwnFigure {
  const total = figures.reduce((sum, { ownRatio }) => sum + ownRatio ** -2, 0)
  const shared: Partial<Record<SharedCause, number>> = {}
  let log = 0
  for (const figure of figures) {
    const weight = figure.ownRatio ** -2 / total
    log += weight * figure.logValue
    for (const cause of SHARED_CAUSES) {
      const b = figure.shared[cause] ?? 0
      if (b !== 0) shared[cause] = (shared[cause] ?? 0) + weight * b
    }
  }
  return { value: Math.exp(log), ownRatio: 1 / Math.sqrt(total), shared, runs: figures.length }
}

/**
 * Uncertainty of a figure from all causes together.
 *
 *     u² = u_own² + Σ b_k²
 *
 * @param figure of one run or of the session
 * @returns u(ln figure) [1]
 * @source JCGM 100:2008 (GUM), 5.1.2 eq. (10)
 */
export function wholeRatio({ ownRatio, shared }: OwnFigure | MeasuredFigure): number {
  return Math.hypot(ownRatio, ...Object.values(shared))
}
