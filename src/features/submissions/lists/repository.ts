import type { Database } from '../../../db/client.ts'
import { SUBMISSION_COUNTS } from '../../../db/counted-submissions.ts'

/** One place in a list: what it is sorted by. */
export interface Mark {
  readonly id: string
  /** What goes before the id in the order of that list. */
  readonly key: string
}

interface Page<Key> {
  /** The last one of the page before. */
  readonly after: Key | null
  readonly limit: number
}

/** Submissions of an account, the newest first, withdrawn ones too. */
export async function findOwn(
  db: Database,
  accountId: string,
  { after, limit }: Page<Mark>,
): Promise<Mark[]> {
  const { rows } = await db.pool.query<{ id: string; key: Date }>(
    `SELECT id, created_at AS key FROM submission
      WHERE account_id = $1
        AND ($2::timestamptz IS NULL OR (created_at, id) < ($2::timestamptz, $3::uuid))
      ORDER BY created_at DESC, id DESC
      LIMIT $4`,
    [accountId, after?.key ?? null, after?.id ?? null, limit],
  )
  return rows.map(({ id, key }) => ({ id, key: key.toISOString() }))
}

/**
 * Submissions that count for a set-up or for one merged into the same, none withdrawn or set aside, by
 * the month of flying, the last first. A finer order would give away the day.
 */
export async function findBySetup(
  db: Database,
  setupId: string,
  { after, limit }: Page<Mark>,
): Promise<Mark[]> {
  const { rows } = await db.pool.query<Mark>(
    `WITH survivor AS (
       SELECT COALESCE(merged_into_id, id) AS id FROM setup WHERE id = $1
     ), flown AS (
       SELECT DISTINCT submission.id, to_char(revision.flown_on, 'YYYY-MM') AS key
         FROM survivor
         JOIN setup ON setup.id = survivor.id OR setup.merged_into_id = survivor.id
         JOIN run ON run.setup_id = setup.id
         JOIN submission_revision revision ON revision.id = run.revision_id
         JOIN submission ON submission.id = revision.submission_id
              AND submission.current_revision = revision.number
        WHERE ${SUBMISSION_COUNTS}
     )
     SELECT id, key FROM flown
      WHERE $2::text IS NULL OR (key, id) < ($2, $3::uuid)
      ORDER BY key DESC, id DESC
      LIMIT $4`,
    [setupId, after?.key ?? null, after?.id ?? null, limit],
  )
  return rows
}

/** Numbers of the revisions of a submission, the last first. */
export async function findRevisionNumbers(
  db: Database,
  submissionId: string,
  { after, limit }: Page<number>,
): Promise<number[]> {
  const { rows } = await db.pool.query<{ number: number }>(
    `SELECT number FROM submission_revision
      WHERE submission_id = $1 AND ($2::int IS NULL OR number < $2)
      ORDER BY number DESC
      LIMIT $3`,
    [submissionId, after, limit],
  )
  return rows.map((row) => row.number)
}
