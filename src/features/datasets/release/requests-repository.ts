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
  /** How often its making began. */
  readonly attempts: number
  readonly releaseId: string | null
  readonly createdAt: Date
  readonly finishedAt: Date | null
}

const COLUMNS = `id, state, progress, step, attempts, release_id AS "releaseId", created_at AS "createdAt",
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

/** Counts a beginning, so that a request whose making ends the service is not begun for ever. */
export async function beginRequest(source: Queryable, id: string): Promise<void> {
  await source.query(
    `UPDATE dataset_request SET state = 'running', attempts = attempts + 1, progress = 0,
            step = 'beginning'
      WHERE id = $1`,
    [id],
  )
}

export async function saveProgress(
  source: Queryable,
  id: string,
  { progress, step }: Pick<ReleaseRequest, 'progress' | 'step'>,
): Promise<void> {
  await source.query('UPDATE dataset_request SET progress = $2, step = $3 WHERE id = $1', [
    id,
    progress,
    step,
  ])
}

/** How a request ended; the step says why where that is not the state alone. */
type Finish = Pick<ReleaseRequest, 'state' | 'releaseId'> & { readonly step?: string }

export async function finishRequest(
  source: Queryable,
  id: string,
  { state, releaseId, step = state }: Finish,
): Promise<void> {
  await source.query(
    `UPDATE dataset_request SET state = $2, release_id = $3, step = $4, finished_at = now(),
            progress = CASE WHEN $2 = 'failed' THEN progress ELSE 1 END
      WHERE id = $1`,
    [id, state, releaseId, step],
  )
}

/**
 * Asks in the name of the schedule, unless a request of the last days led or leads to something. After
 * one that failed a day goes by before the next, so that what fails each time is not tried each hour.
 */
export async function insertScheduledRequest(source: Queryable, days: number): Promise<boolean> {
  const { rowCount } = await source.query(
    `INSERT INTO dataset_request (requested_by_id)
     SELECT NULL WHERE NOT EXISTS (
       SELECT FROM dataset_request
        WHERE created_at > now() - make_interval(secs => 86400 *
                CASE WHEN state = 'failed' THEN least($1::float8, 1) ELSE $1::float8 END))`,
    [days],
  )
  return rowCount === 1
}
