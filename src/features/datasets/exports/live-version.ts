import { createHash, randomUUID } from 'node:crypto'

import type { Pool, PoolClient } from 'pg'

import { SUBMISSION_COUNTS } from '../../../db/counted-submissions.ts'
import type { ExportQuery } from '../schema.ts'

/**
 * Names the state of the evidence: the same submissions that count, in the same revisions, on setups
 * and parts merged alike, in cells of the same layout. Order plays no part in the sums.
 */
export async function findVersion(client: Pool | PoolClient, layout: string): Promise<string> {
  const { rows } = await client.query<{ state: string }>(STATE)
  return createHash('sha256').update(`${layout}\n${rows[0]!.state}`).digest('hex')
}

const STATE = `
  SELECT concat_ws(' ',
    (SELECT concat_ws(' ', count(*), sum(hashtextextended(id::text, current_revision)))
       FROM submission WHERE ${SUBMISSION_COUNTS}),
    (SELECT sum(hashtextextended(id::text || merged_into_id::text, 0)) FROM setup WHERE merged_into_id IS NOT NULL),
    (SELECT sum(hashtextextended(id::text || merged_into_id::text, 0)) FROM component WHERE merged_into_id IS NOT NULL)
  ) AS state`

/** The salt of the keys of a state: drawn when it is first asked for, the same for all who ask after. */
export async function saltOf(pool: Pool, version: string): Promise<string> {
  await pool.query('DELETE FROM dataset_salt WHERE version <> $1', [version])
  const { rows } = await pool.query<{ salt: string }>(
    `INSERT INTO dataset_salt (version, salt) VALUES ($1, $2)
     ON CONFLICT (version) DO UPDATE SET version = EXCLUDED.version RETURNING salt`,
    [version, randomUUID()],
  )
  return rows[0]!.salt
}

/** The same state and question have the same bytes, and this name. */
export function exportTag(version: string, salt: string, query: ExportQuery): string {
  const asked = Object.entries(query).sort(([a], [b]) => (a < b ? -1 : 1))
  const text = JSON.stringify([version, salt, asked])
  return `"${createHash('sha256').update(text).digest('hex')}"`
}
