import type { Pool, PoolClient } from 'pg'

import type { Problem } from '../../../contract/problems.ts'

type Queryable = Pick<Pool | PoolClient, 'query'>

export const FOLLOWED_STATES = ['running', 'done', 'refused', 'failed'] as const

/** An import that is followed while it is taken in, and what it came to. */
export interface FollowedImport {
  readonly id: string
  readonly accountId: string
  readonly state: (typeof FOLLOWED_STATES)[number]
  /** From 0 to 1. */
  readonly progress: number
  readonly step: string
  readonly importId: string | null
  /** What an import that nobody follows would have been refused with. */
  readonly problem: Problem | null
  readonly createdAt: Date
  readonly finishedAt: Date | null
}

const COLUMNS = `id, account_id AS "accountId", state, progress, step, import_id AS "importId",
  problem, created_at AS "createdAt", finished_at AS "finishedAt"`

/** What was refused holds words of the file: it is kept for as long as somebody may look. */
const KEPT_DAYS = 7

/** Names the lock that a process holds for as long as it works on a request. */
const LOCK = 'hashtextextended($1::text, 7310006)'

/** Adds a request of an account and holds its lock on this connection. */
export async function insertFollowed(
  client: PoolClient,
  { id, accountId }: Pick<FollowedImport, 'id' | 'accountId'>,
): Promise<FollowedImport> {
  await client.query(`SELECT pg_advisory_lock(${LOCK})`, [id])
  await client.query(
    `DELETE FROM import_request WHERE finished_at < now() - interval '${KEPT_DAYS} days'`,
  )
  const { rows } = await client.query<FollowedImport>(
    `INSERT INTO import_request (id, account_id) VALUES ($1, $2) RETURNING ${COLUMNS}`,
    [id, accountId],
  )
  return rows[0]!
}

export async function releaseFollowed(client: PoolClient, id: string): Promise<void> {
  await client.query(`SELECT pg_advisory_unlock(${LOCK})`, [id])
}

export async function findFollowed(source: Queryable, id: string): Promise<FollowedImport | null> {
  const { rows } = await source.query<FollowedImport>(
    `SELECT ${COLUMNS} FROM import_request WHERE id = $1`,
    [id],
  )
  return rows[0] ?? null
}

export async function saveFollowed(
  source: Queryable,
  { id, progress, step }: Pick<FollowedImport, 'id' | 'progress' | 'step'>,
): Promise<void> {
  await source.query('UPDATE import_request SET progress = $2, step = $3 WHERE id = $1', [
    id,
    progress,
    step,
  ])
}

export async function finishFollowed(
  source: Queryable,
  {
    id,
    state,
    step,
    importId = null,
    problem = null,
  }: Pick<FollowedImport, 'id' | 'state' | 'step'> &
    Partial<Pick<FollowedImport, 'importId' | 'problem'>>,
): Promise<void> {
  await source.query(
    `UPDATE import_request SET state = $2, step = $3, import_id = $4, problem = $5, finished_at = now(),
            progress = CASE WHEN $2 = 'failed' THEN progress ELSE 1 END
      WHERE id = $1`,
    [id, state, step, importId, problem === null ? null : JSON.stringify(problem)],
  )
}

/** Marks a request as failed where no process works on it any more: it ended in the middle. */
export async function failIfAbandoned(source: Queryable, id: string): Promise<void> {
  await source.query(
    `UPDATE import_request
        SET state = 'failed', finished_at = now(),
            step = 'the service ended before it was done; nothing was imported: send it again'
      WHERE id = $1::uuid AND state = 'running' AND pg_try_advisory_xact_lock(${LOCK})`,
    [id],
  )
}
