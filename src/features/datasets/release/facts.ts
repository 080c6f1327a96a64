import type { Anonymity } from '../privacy/anonymity.ts'

/** Raised when the files of a release change their shape. */
export const FORMAT_VERSION = '1'

export const LICENCE = {
  name: 'CC-BY-4.0',
  title: 'Creative Commons Attribution 4.0 International',
  path: 'https://creativecommons.org/licenses/by/4.0/',
}

export const TITLE = 'Fairclimb: flight tests of powered-paraglider setups'

export const KEYWORDS = [
  'powered paragliding',
  'climb rate',
  'fuel consumption',
  'propulsion',
  'mixed model',
  'measurement uncertainty',
]

/** What every description of a release says of it. */
export interface ReleaseFacts {
  /** Day and number within the day. */
  readonly id: string
  /** Counts the releases. */
  readonly number: number
  readonly snapshotAt: Date
  readonly methodVersion: string
  readonly modelVersion: string
  readonly fits: readonly {
    readonly metric: string
    readonly fitId: string
    readonly runs: number
  }[]
  readonly setups: number
  readonly anonymity: Anonymity
  /** Sentences on what differs from the release before. */
  readonly changes: readonly string[]
}

/** The day of a release, YYYY-MM-DD. */
export function dayOf({ snapshotAt }: Pick<ReleaseFacts, 'snapshotAt'>): string {
  return snapshotAt.toISOString().slice(0, 'YYYY-MM-DD'.length)
}

/** How to cite it, in one line. */
export function citationOf(facts: Pick<ReleaseFacts, 'id' | 'snapshotAt'>): string {
  return `Fairclimb contributors (${facts.snapshotAt.getUTCFullYear()}). ${TITLE}, release ${facts.id} [data set]. ${LICENCE.name}.`
}

export const DESCRIPTION =
  'Pooled flight tests of powered-paraglider setups (engine, propeller, frame): every run with what was read off, its result at a reference state and its uncertainty; estimates of a mixed model over pilots and sessions; rankings by weight class; and a script that fits the model again.'
