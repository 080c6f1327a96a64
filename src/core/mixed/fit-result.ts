import type { Component, PerComponent } from './components.ts'

/**
 * What the data say about a variance component.
 *
 * - `estimated`: its estimate is positive;
 * - `notDetected`: its estimate lies at its lower bound, zero (for runs without any known
 *   uncertainty: a tiny floor that keeps the weights finite);
 * - `notSeparable`: the design holds no information on it; it is taken as zero and, if
 *   `mergedInto` names a component, that component carries both;
 * - `fixed`: the caller gave its value.
 */
export type ComponentStatus = 'estimated' | 'notDetected' | 'notSeparable' | 'fixed'

/** One accepted or refused step of the search. */
export interface SearchStep {
  /** Variances tried [unit of y squared]. */
  readonly theta: PerComponent<number>
  /** Restricted log-likelihood there. */
  readonly logLikelihood: number
  /** Squared length of the proposed step in units of standard errors, |δ'·score|. */
  readonly decrement: number
  /** Damping of the step; 0 is the plain average-information step. */
  readonly damping: number
  readonly accepted: boolean
}

/** How far a start may be from the optimum and still be kept as the result. */
export interface StartTolerance {
  /** Of |δ'·score|: the squared length of the step to the optimum in standard errors of θ; > 0. */
  readonly decrement: number
  /** Of the first-order change of whatever contrast that step changes most, in its standard errors; > 0. */
  readonly shift: number
}

/** Settings of a fit; see `fitNested` for the defaults. */
export interface FitOptions {
  /** The search stops when |δ'·score| falls below this; dimensionless, > 0. */
  readonly tolerance: number
  /** Most evaluations of the criterion in one search, ≥ 1. */
  readonly maxEvaluations: number
  /** Variances to start from [unit of y squared], or null to derive them from the data. */
  readonly start: PerComponent<number> | null
  /** Keeps a given start that is this near to the optimum, without a search; null: always searches. */
  readonly keepStart: StartTolerance | null
  /** Components not estimated, and the variance they are held at [unit of y squared], ≥ 0. */
  readonly fixed: Readonly<Partial<Record<Component, number>>>
}

/** Numbers of things the fit has seen. */
export interface FitCounts {
  readonly runs: number
  readonly cells: number
  readonly sessions: number
  readonly pilots: number
  readonly setups: number
}

/** A fit of the nested model. Plain data: a doubtful fit says so here, it does not throw. */
export interface NestedFit {
  /** Setup ids in the order of beta and of all matrices. */
  readonly setups: readonly string[]
  /** Variance components [unit of y squared]. */
  readonly theta: PerComponent<number>
  readonly status: PerComponent<ComponentStatus>
  /** The component that carries an inseparable one, or null. */
  readonly mergedInto: PerComponent<Component | null>
  /** Setup means [unit of y], K entries. */
  readonly beta: Float64Array
  /** C, their covariance [unit of y squared], K × K, column-major and symmetric. */
  readonly covariance: Float64Array
  /**
   * ∂C/∂θ_j = C T_j C, T_j = X'V⁻¹G_jV⁻¹X, for the four components, one K × K matrix after the other
   * [unit of y squared per unit of y squared]: degrees of freedom of any contrast follow from it.
   */
  readonly covarianceSlope: Float64Array
  /**
   * Inverse expected information over all separable components, also those at zero, 4 × 4
   * [unit of y to the fourth]; rows of other components are zero. NaN if it is singular.
   */
  readonly inverseExpected: Float64Array
  /** Inverse observed information over the components above zero, 4 × 4; NaN if not invertible. */
  readonly inverseObserved: Float64Array
  /** Score at theta [1 / unit of y squared], 4 entries. */
  readonly score: Float64Array
  /** Restricted log-likelihood, with the constant of lme4: no term ½ log|X'X|. */
  readonly logLikelihood: number
  /** Distance of a start that was kept from the optimum; null where θ was searched. */
  readonly keptStart: StartTolerance | null
  /** The search stopped by its tolerance and the boundary conditions hold, or the start was kept. */
  readonly converged: boolean
  /** The model could not be evaluated; beta and the matrices hold NaN. */
  readonly singular: boolean
  /**
   * False if no run-to-run variance is known or estimable, as when every setup has one run and
   * no uncertainty: the means stand, their standard errors are unknown and the matrices hold NaN.
   */
  readonly standardErrorsKnown: boolean
  /** Number of accepted steps. */
  readonly iterations: number
  /** Every step; a second search follows the first where a component ended at zero. */
  readonly search: readonly SearchStep[]
  /** Degrees of freedom left to each component by the design, exact integers (0: not separable). */
  readonly separability: PerComponent<number>
  readonly counts: FitCounts
  /** The settings used, defaults filled in. */
  readonly options: FitOptions
}
