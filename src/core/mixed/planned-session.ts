import type { Component } from './components.ts'
import type { SetupWeight } from './contrasts.ts'
import type { NestedFit } from './fit-result.ts'
import { componentSpreads } from './heterogeneity.ts'

/** A session that is still to be flown, with all setups of a difference. */
export interface PlannedSession {
  /** Of each setup, at least 1. */
  readonly runs: number
  /** Mean variance of one run from causes of its own that are known [square of the unit of y]. */
  readonly knownVariance: number
}

/**
 * Variance of a difference as one further session alone will show it.
 *
 *     v = Σ l² (θ_cell + (θ_run + v_known)/n)
 *
 * It is a plan, so it must not promise too much: a component that was not detected counts at the upper
 * end of its 95 % interval, and a cell variance that cannot be told from that of the runs (or sessions)
 * takes all of it, which more runs of the same session don't average out.
 *
 * @param fit result of fitNested
 * @param weights of the difference [1], each setup once
 * @param planned how many runs, and how well each is known
 * @returns variance [square of the unit of y]; null where the flights say nothing of what a setup does
 *   on a day, so that nothing can be promised
 * @source variance of a mean of n runs in the nested model; the upper end is that of `componentSpreads`
 */
export function plannedSessionVariance(
  fit: NestedFit,
  weights: readonly SetupWeight[],
  { runs, knownVariance }: PlannedSession,
): number | null {
  const ofCell = carrierOf(fit, 'cell')
  const ofRun = carrierOf(fit, 'run')
  if (ofCell === null || ofRun === null) return null
  const bound = upperBounds(fit)
  const cell = bound(ofCell)
  const run = ofRun === ofCell ? 0 : bound(ofRun) // one component that stands for both counts once
  const squares = weights.reduce((sum, { weight }) => sum + weight ** 2, 0)
  const variance = squares * (cell + (run + knownVariance) / runs)
  return Number.isFinite(variance) ? variance : null
}

/** The component a variance is counted with; null: with none. */
function carrierOf(fit: NestedFit, component: Component): Component | null {
  return fit.status[component] === 'notSeparable' ? fit.mergedInto[component] : component
}

/** Variance of a component, or its upper end where it was not detected; NaN where that is not known. */
function upperBounds(fit: NestedFit): (component: Component) => number {
  const spreads = componentSpreads(fit)
  return (component) => {
    const { standardDeviation, interval95 } = spreads[component]
    if (fit.status[component] !== 'notDetected') return standardDeviation ** 2
    return interval95 === null ? Number.NaN : interval95[1] ** 2
  }
}
