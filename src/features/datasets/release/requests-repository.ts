import type { Pool, PoolClient } from 'pg'

type Queryable = Pick<Pool | PoolClient, 'query'>

export const REQUEST_STATES = ['queued', 'running', 'published', 'unchanged', 'failed'] as const

/** A wish for a release, and how far it is. */
export interface ReleaseRequest {
  readonly id: string
  readonly state: (typeof REQUEST_STATES)[number]
  /** From 0 to 1. */
  readonly progress: number
  readonly step: string
  readonly releaseId: string | null
  readonly createdAt: Date
  readonly finishedAt: Date | null
}

const COLUMNS = `id, state, progress, step, release_id AS "releaseId", created_at AS "createdAt",
  finished_at AS "finishedAt"`

export async function insertRequest(
  source: Queryable,
  accountId: string | null,
): Promise<ReleaseRequest> {
  const { rows } = await source.query<ReleaseRequest>(
    `INSERT INTO dataset_request (requested_by_id) VALUES ($1) RETURNING ${COLUMNS}`,
    [accountId],
  )
  return rows[0]!
}

export async function findRequest(source: Queryable, id: string): Promise<ReleaseRequest | null> {
  const { rows } = await source.query<ReleaseRequest>(
    `SELECT ${COLUMNS} FROM dataset_request WHERE id = $1`,
    [id],
  )
  return rows[0] ?? null
}

/** The oldest that is not done; one marked as running was left by a process that ended. */
export async function findNextRequest(source: Queryable): Promise<ReleaseRequest | null> {
  const { rows } = await source.query<ReleaseRequest>(
    `SELECT ${COLUMNS} FROM dataset_request WHERE finished_at IS NULL
      ORDER BY created_at, id LIMIT 1`,
  )
  return rows[0] ?? null
}

export async function saveProgress(
  source: Queryable,
  id: string,
  { progress, step }: Pick<ReleaseRequest, 'progress' | 'step'>,
): Promise<void> {
  await source.query(
    `UPDATE dataset_request SET state = 'running', progress = $2, step = $3 WHERE id = $1`,
    [id, progress, step],
  )
}

export async function finishRequest(
  source: Queryable,
  id: string,
  { state, releaseId }: Pick<ReleaseRequest, 'state' | 'releaseId'>,
): Promise<void> {
  await source.query(
    `UPDATE dataset_request SET state = $2, release_id = $3, step = $2, finished_at = now(),
            progress = CASE WHEN $2 = 'failed' THEN progress ELSE 1 END
      WHERE id = $1`,
    [id, state, releaseId],
  )
}

/** Asks in the name of the schedule, unless a request of the last days led or leads to something. */
export async function insertScheduledRequest(source: Queryable, days: number): Promise<boolean> {
  const { rowCount } = await source.query(
    `INSERT INTO dataset_request (requested_by_id)
     SELECT NULL WHERE NOT EXISTS (
       SELECT FROM dataset_request
        WHERE state <> 'failed' AND created_at > now() - make_interval(secs => $1 * 86400))`,
    [days],
  )
  return rowCount === 1
}
