import type { PerComponent } from '../mixed/components.ts'
import type { Downweighted } from './downweighted.ts'
import type { MassClass } from './mass-classes.ts'

/** Which of the evidence a fit rests on, and how. */
export interface FitVariant {
  /** Without submissions by people with an interest in what they tested. */
  readonly excludeInterested: boolean
  /** Runs of one mass class only; null: all. */
  readonly massClass: MassClass | null
  /** What does not fit counts less. */
  readonly robust: boolean
}

export const PLAIN: FitVariant = { excludeInterested: false, massClass: null, robust: false }

/** What a stored fit tells of itself beside its numbers. Plain JSON. */
export interface FitAbout {
  readonly variant: FitVariant
  /** Mean square of the runs' own known uncertainty. */
  readonly meanKnownVariance: number
  /** Of a robust fit: what counts less in it. */
  readonly downweighted?: Downweighted
  /** Variances of the fit: where a refresh starts. Absent in fits stored before. */
  readonly theta?: PerComponent<number>
}

/** Other fits of the same evidence, by id; null where there is none. */
export interface FitSiblings {
  /** The fit itself where nobody with an interest submitted. */
  readonly withoutInterested: string | null
  readonly robust: string | null
}
