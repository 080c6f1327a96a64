import type { EvidenceTier } from '../mixed/evidence.ts'
import type { AdditiveView } from './additive-view.ts'
import type { JointSpread } from './joint-spread.ts'
import type { LogDifference } from './verdict.ts'

export type { EvidenceTier } from '../mixed/evidence.ts'

/** How much stands behind a setup. */
export interface EvidenceCount {
  readonly sessions: number
  readonly pilots: number
  readonly runs: number
  /** Sessions in which the setup was flown together with another one. */
  readonly independentSessions: number
}

/** Name of the part of a variance that is the scatter of flights and their known reading errors. */
export const SCATTER = 'scatter of the flights'

/** Name of the part that comes from comparing through shared parts only. */
export const BEYOND_PARTS = 'setups that are more than the sum of their parts'

/** One named part of the variance of a difference. */
export interface VariancePart {
  readonly cause: string
  readonly variance: number
}

/** A difference of logarithms with the parts its variance is made of. */
export interface ExplainedDifference extends LogDifference {
  readonly parts: readonly VariancePart[]
}

/** What a comparison asks of a fit. */
export interface FitView {
  /** ln of the quantity at the reference state; null where the setup has no evidence. */
  logQuantityOf(setupId: string): number | null
  /** Σ weight × ln quantity, with its standard error and degrees of freedom. */
  contrast(
    weights: readonly { readonly setup: string; readonly weight: number }[],
  ): ExplainedDifference
  /** Covariance of the ln quantities of two setups that have evidence. */
  covarianceOf(a: string, b: string): number
  /** Place of a setup in the fit; null where it has no evidence. */
  placeOf(setupId: string): number | null
  /** How well all estimates are known together; null where the fit knows no standard errors. */
  jointSpread(): JointSpread | null
  tierOf(a: string, b: string): EvidenceTier
  /** True where removing some one session would cut the link between the two. */
  restsOnOneSession(a: string, b: string): boolean
  /** Setups with the same number stay linked whichever single session is taken away; null: no evidence. */
  groupOf(setupId: string): number | null
  evidenceOf(setupId: string): EvidenceCount
  /** The model of parts; absent or null where there is none. */
  readonly additive?: AdditiveView | null
}
