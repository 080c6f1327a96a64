import type { Schemas } from '../../../api/client.ts'
import type { Dimension } from '../../../units.ts'

export type RunKind = Schemas['NewSubmission']['entries'][number]['runs'][number]['kind']

/** A measured number of a run. `at` is its place in the run, as a JSON Pointer has it. */
export interface NumberSpec {
  readonly at: string
  readonly label: string
  readonly dimension?: Dimension
  readonly sign?: string
  readonly isOptional?: boolean
  readonly hint?: string
  /** What a new run starts with, in the unit of the interface. */
  readonly usual?: number
  /** Taken as it stands: nobody can say how sure it is. */
  readonly isExact?: boolean
  /** Only where this choice of the run has this value. */
  readonly onlyIf?: readonly [at: string, value: string]
  /** Only of a setup with a battery. */
  readonly isElectric?: boolean
}

export interface ChoiceSpec {
  readonly at: string
  readonly label: string
  /** The first is what a new run starts with; an empty one is not sent. */
  readonly choices: readonly (readonly [value: string, label: string])[]
  /** It has to be chosen: nothing is taken for granted. */
  readonly isNeeded?: boolean
  /** Sent as true and false. */
  readonly isYesNo?: boolean
  /** Only where another choice of the run has this value. */
  readonly onlyIf?: readonly [at: string, value: string]
}

export interface RunSpec {
  readonly label: string
  /** What was done, in a few words. */
  readonly about: string
  readonly numbers: readonly NumberSpec[]
  readonly choices: readonly ChoiceSpec[]
  readonly hasStopwatch: boolean
  readonly caution: string
}
