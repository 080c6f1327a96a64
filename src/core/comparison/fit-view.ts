import type { LogDifference } from './verdict.ts'

/** How two setups are linked: in one session, through others, by their means only, or not at all. */
export type EvidenceTier = 'direct' | 'connected' | 'betweenSessions' | 'none'

/** How much stands behind a setup. */
export interface EvidenceCount {
  readonly sessions: number
  readonly pilots: number
  readonly runs: number
  /** Sessions in which the setup was flown together with another one. */
  readonly independentSessions: number
}

/** What a comparison asks of a fit. */
export interface FitView {
  /** ln of the quantity at the reference state; null where the setup has no evidence. */
  logQuantityOf(setupId: string): number | null
  /** Standard error and degrees of freedom of Σ weight × ln quantity. */
  contrast(weights: readonly { readonly setup: string; readonly weight: number }[]): LogDifference
  tierOf(a: string, b: string): EvidenceTier
  /** True where removing some one session would cut the link between the two. */
  restsOnOneSession(a: string, b: string): boolean
  sessionsOf(setupId: string): number
  evidenceOf(setupId: string): EvidenceCount
}
