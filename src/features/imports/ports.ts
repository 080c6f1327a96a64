import type { PoolClient } from 'pg'
import type { z } from 'zod'

/** Something that is doubtful in a body, at a JSON Pointer into it. */
interface Doubt {
  readonly pointer: string
  readonly code: string
  readonly detail: string
}

/** A setup of a body whose readings stand somewhere already. */
export interface AlikeEntry {
  readonly entryIndex: number
  /** Pairs of runs with the same readings. */
  readonly runs: number
  /** Mass and air are the same too. */
  readonly isSame: boolean
  readonly earlier:
    | { readonly submissionId: string; readonly accountId: string }
    | { readonly bodyIndex: number }
}

/** Who submits what. */
export interface CheckedSubmission {
  readonly accountId: string
  readonly body: unknown
  readonly normalised: unknown
}

/**
 * What an import needs of submissions: they are checked and stored by the very code that takes a posted
 * one. What is checked and what comes out of it pass through unread.
 */
export interface SubmissionPort {
  readonly schema: z.ZodType
  /** @throws {ApiProblem} with pointers into the body */
  check(client: PoolClient, body: unknown): Promise<unknown>
  warningsOf(normalised: unknown): readonly Doubt[]
  /** Stores it, with what it says against flying; gives its id. */
  store(client: PoolClient, submission: CheckedSubmission): Promise<string>
  /** For each body, which of its readings a submission that counts or a body before it has already. */
  alike(client: PoolClient, bodies: readonly unknown[]): Promise<AlikeEntry[][]>
  /** Which of these set-ups must not be flown now. */
  grounded(client: PoolClient, setupIds: readonly string[]): Promise<string[]>
}

/** A column of a table of a release, as its description says it. */
export interface ReleaseColumn {
  readonly name: string
  readonly type: string
  readonly unit: string | null
  readonly nullable: boolean
  readonly minimum: number | null
  readonly maximum: number | null
  readonly values: readonly string[] | null
  readonly pattern: string | null
}

/** The tables of a release that are taken in. */
export const RELEASE_PARTS = ['runs', 'systematic', 'setups', 'components'] as const

export type ReleasePart = (typeof RELEASE_PARTS)[number]

/** What an import needs of datasets. */
export interface ReleaseTables {
  readonly all: Readonly<Record<ReleasePart, { readonly columns: readonly ReleaseColumn[] }>>
  /** Columns of `runs` that came with a kind of run; a release of before has fewer. */
  readonly rawFields: readonly { readonly column: { readonly name: string } }[]
}

/** What an import needs of the catalogue. */
export interface CataloguePort {
  /** The schema that a new component is checked by. */
  readonly component: z.ZodType
}
