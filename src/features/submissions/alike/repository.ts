import type { PoolClient } from 'pg'

import type { Air, FlownEntry } from './compare.ts'

/** A setup that was flown on a day. */
export interface DayAndSetup {
  readonly day: string
  readonly setupId: string
}

/** An entry of a submission that counts. */
export interface StoredEntry {
  readonly submissionId: string
  readonly accountId: string
  /** It came out of a notebook. */
  readonly isImported: boolean
  readonly day: string
  /** As it was asked for; a merged one is the same as its survivor. */
  readonly setupId: string
  readonly air: Air
  readonly entry: FlownEntry
}

/** What was flown on these days with these setups, as it counts now. */
export async function findFlown(
  client: PoolClient,
  asked: readonly DayAndSetup[],
): Promise<StoredEntry[]> {
  const { rows } = await client.query<StoredEntry>(
    `WITH asked AS (
       SELECT DISTINCT one.day, setup.id AS setup_id, COALESCE(setup.merged_into_id, setup.id) AS counts_for
         FROM unnest($1::date[], $2::uuid[]) AS one(day, id) JOIN setup ON setup.id = one.id
     ), flown AS (
       SELECT revision.id, revision.submission_id, submission.account_id, revision.flown_on, revision.body
         FROM submission_revision revision
         JOIN submission ON submission.id = revision.submission_id
                        AND submission.current_revision = revision.number
        WHERE revision.flown_on = ANY ($1::date[]) AND submission.withdrawn_at IS NULL
     )
     SELECT DISTINCT flown.submission_id AS "submissionId", flown.account_id AS "accountId",
            EXISTS (SELECT FROM imported_session session
                     WHERE session.submission_id = flown.submission_id) AS "isImported",
            to_char(flown.flown_on, 'YYYY-MM-DD') AS day, asked.setup_id AS "setupId",
            flown.body -> 'conditions' AS air,
            flown.body #> ARRAY['entries', run.entry_index::text] AS entry
       FROM flown
       JOIN run ON run.revision_id = flown.id
       JOIN setup ON setup.id = run.setup_id
       JOIN asked ON asked.day = flown.flown_on
                 AND asked.counts_for = COALESCE(setup.merged_into_id, setup.id)`,
    [asked.map(({ day }) => day), asked.map(({ setupId }) => setupId)],
  )
  return rows
}
