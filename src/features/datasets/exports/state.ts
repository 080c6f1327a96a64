import { createHash } from 'node:crypto'

import type { Pool, PoolClient } from 'pg'

import { SUBMISSION_COUNTS } from '../../../db/counted-submissions.ts'
import type { ExportQuery } from '../schema.ts'

/** A state of the evidence that keys and classes are stored of. */
export interface ExportState {
  readonly version: string
  /** What its keys were drawn from. */
  readonly salt: string
  /** Whether every submission that counted has runs in it; some may wait for results of today's method. */
  readonly isWhole: boolean
}

/** What counts in this moment. */
export interface Evidence {
  readonly version: string
  readonly submissions: number
}

/**
 * Names the state of the evidence: the same submissions that count have the same version, in the same
 * revisions, on setups and parts merged alike, in cells of the same layout. Order plays no part in the sums.
 */
export async function readEvidence(client: Pool | PoolClient, layout: string): Promise<Evidence> {
  const { rows } = await client.query<{ submissions: number; state: string }>(EVIDENCE)
  const [{ submissions, state }] = rows as [(typeof rows)[number]]
  const version = createHash('sha256').update(`${layout}\n${submissions} ${state}`).digest('hex')
  return { version, submissions }
}

const EVIDENCE = `
  SELECT count(*)::int AS submissions,
         concat_ws(' ',
           sum(hashtextextended(id::text, current_revision)),
           (SELECT sum(hashtextextended(id::text || merged_into_id::text, 0)) FROM setup WHERE merged_into_id IS NOT NULL),
           (SELECT sum(hashtextextended(id::text || merged_into_id::text, 0)) FROM component WHERE merged_into_id IS NOT NULL)
         ) AS state
    FROM submission WHERE ${SUBMISSION_COUNTS}`

/** The state that is stored; null: none, or none since a crash. */
export async function findState(client: Pool | PoolClient): Promise<ExportState | null> {
  const { rows } = await client.query<ExportState>(
    'SELECT version, salt, is_whole AS "isWhole" FROM export_state',
  )
  return rows[0] ?? null
}

/** The state that is stored, where it is that of this moment; null: it is not. */
export async function findCurrentState(
  client: Pool | PoolClient,
  layout: string,
): Promise<ExportState | null> {
  const state = await findState(client)
  if (state === null) return null
  return state.version === (await readEvidence(client, layout)).version ? state : null
}

/** The same state and question have the same bytes, and this name. */
export function exportTag({ version, salt }: ExportState, query: ExportQuery): string {
  const asked = Object.entries(query).sort(([a], [b]) => (a < b ? -1 : 1))
  const text = JSON.stringify([version, salt, asked])
  return `"${createHash('sha256').update(text).digest('hex')}"`
}
