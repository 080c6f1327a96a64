import type { Pool, PoolClient } from 'pg'

import type { RunOutcome, Warning } from '../../core/normalise/types.ts'
import { METHOD_VERSION } from '../../core/version.ts'
import { findGrounded } from './safety/repository.ts'
import type { NewSubmission } from './schema.ts'

type Queryable = Pick<Pool | PoolClient, 'query'>

/** A submission without what it says. */
export interface SubmissionHead {
  readonly id: string
  readonly accountId: string
  readonly currentRevision: number
  readonly createdAt: Date
  readonly withdrawnAt: Date | null
}

/** One run of a stored revision with its result; the raw values stand in the body. */
export interface StoredRun {
  readonly entryIndex: number
  readonly runIndex: number
  /** The set-up it counts for now: a merged one has become its survivor. */
  readonly setupId: string
  readonly methodVersion: string
  readonly referenceId: string
  readonly normalized: RunOutcome['normalized']
  readonly derived?: RunOutcome['derived'] | null
  readonly warnings: readonly Warning[]
}

/** One revision of a submission, runs in the order of the body. */
export interface StoredRevision extends SubmissionHead {
  readonly revision: number
  readonly revisedAt: Date
  /** A moderator has taken this revision out of the evidence. */
  readonly setAside: boolean
  /** The import that brought it in; null: it was posted. */
  readonly importId?: string | null
  /** Null: flown by the account itself. */
  readonly guestPilotId?: string | null
  readonly body: NewSubmission
  readonly warnings: readonly Warning[]
  readonly runs: readonly StoredRun[]
}

/** A revision as it is shown, with what holds now for its set-ups. */
export interface ShownRevision extends StoredRevision {
  /** Set-ups of the revision that must not be flown now. */
  readonly grounded: readonly string[]
}

/** A run about to be stored. */
export interface NewStoredRun extends StoredRun {
  readonly kind: string
  readonly evidence: RunOutcome['evidence']
}

export interface NewRevision {
  readonly submissionId: string
  readonly accountId: string
  readonly body: NewSubmission
  readonly warnings: readonly Warning[]
  readonly runs: readonly NewStoredRun[]
}

/** A result of a run, and where it stands in an item of JSON; nulls, and no effects, where it is no evidence. */
const RESULT_COLUMNS = `run_id, method_version, reference_id, quantity, log_value, own_standard_uncertainty,
  shared_standard_uncertainty, systematic, normalized, derived, warnings`
const RESULT_OF_ITEM = `"methodVersion", "referenceId", evidence ->> 'quantity', (evidence ->> 'logValue')::float8,
  (evidence ->> 'ownStandardUncertainty')::float8, (evidence ->> 'sharedStandardUncertainty')::float8,
  COALESCE(evidence -> 'systematic', '[]'), normalized, derived, warnings`

/**
 * Stores a revision with its runs and their results, and the submission itself if it is new;
 * of a known one it moves the current revision on, which also makes two at once queue up.
 * One statement, so one round trip however many runs there are; the columns of the revision are
 * read out of the stored body, so they cannot differ from it.
 */
export async function insertRevision(
  client: PoolClient,
  { submissionId, accountId, body, warnings, runs }: NewRevision,
): Promise<StoredRevision> {
  const { rows } = await client.query<SubmissionHead & { revision: number; revisedAt: Date }>({
    name: 'insert-revision',
    text: `
      WITH head AS (
        INSERT INTO submission (id, account_id) VALUES ($1, $2)
        ON CONFLICT (id) DO UPDATE SET current_revision = submission.current_revision + 1
        RETURNING id, account_id, current_revision, created_at, withdrawn_at
      ), revision AS (
        INSERT INTO submission_revision (submission_id, number, body, flown_on, elevation_m, interest, warnings)
        SELECT head.id, head.current_revision, $3::jsonb, ($3::jsonb ->> 'flownOn')::date,
               ($3::jsonb #>> '{site,elevationM}')::float8, $3::jsonb ->> 'interest', $4::jsonb
          FROM head
        RETURNING id, number, created_at
      ), given AS (
        SELECT gen_random_uuid() AS id, item.*
          FROM jsonb_to_recordset($5::jsonb) AS item(
               "entryIndex" int, "runIndex" int, "setupId" uuid, kind text, "methodVersion" text,
               "referenceId" text, normalized jsonb, derived jsonb, warnings jsonb, evidence jsonb)
      ), stored AS (
        INSERT INTO run (id, revision_id, entry_index, run_index, setup_id, kind)
        SELECT given.id, revision.id, "entryIndex", "runIndex", "setupId", kind FROM given, revision
      ), results AS (
        INSERT INTO run_result (${RESULT_COLUMNS})
        SELECT id, ${RESULT_OF_ITEM} FROM given
      )
      SELECT head.id, head.account_id AS "accountId", head.current_revision AS "currentRevision",
             head.created_at AS "createdAt", head.withdrawn_at AS "withdrawnAt",
             revision.number AS revision, revision.created_at AS "revisedAt"
        FROM head, revision`,
    values: [
      submissionId,
      accountId,
      ...[body, warnings, runs].map((json) => JSON.stringify(json)),
    ],
  })
  return { ...rows[0]!, setAside: false, body, warnings, runs }
}

/** Revisions with a run that has no result of that method, by id. */
export async function findUnnormalised(
  source: Pool | PoolClient,
  {
    method,
    after,
    most,
  }: { readonly method: string; readonly after: string | null; readonly most: number },
): Promise<{ readonly id: string; readonly body: NewSubmission }[]> {
  const { rows } = await source.query<{ id: string; body: NewSubmission }>(
    `SELECT id, body FROM submission_revision revision
      WHERE ($2::uuid IS NULL OR id > $2)
        AND EXISTS (SELECT FROM run WHERE run.revision_id = revision.id
                       AND NOT EXISTS (SELECT FROM run_result result
                                        WHERE result.run_id = run.id AND result.method_version = $1))
      ORDER BY id LIMIT $3`,
    [method, after, most],
  )
  return rows
}

/** Adds results to the runs of a revision, all or none; those there are stay. */
export async function insertResults(
  source: Pool | PoolClient,
  revisionId: string,
  runs: readonly NewStoredRun[],
): Promise<void> {
  await source.query(
    `INSERT INTO run_result (${RESULT_COLUMNS})
     SELECT run.id, ${RESULT_OF_ITEM}
       FROM jsonb_to_recordset($2::jsonb) AS item(
            "entryIndex" int, "runIndex" int, "methodVersion" text, "referenceId" text,
            normalized jsonb, derived jsonb, warnings jsonb, evidence jsonb)
       JOIN run ON run.revision_id = $1 AND run.entry_index = "entryIndex" AND run.run_index = "runIndex"
     ON CONFLICT DO NOTHING`,
    [revisionId, JSON.stringify(runs)],
  )
}

/** The submission, locked until the transaction ends, or null. */
export async function lockSubmission(
  client: PoolClient,
  id: string,
): Promise<SubmissionHead | null> {
  const { rows } = await client.query<SubmissionHead>(
    `SELECT id, account_id AS "accountId", current_revision AS "currentRevision",
            created_at AS "createdAt", withdrawn_at AS "withdrawnAt"
       FROM submission WHERE id = $1 FOR UPDATE`,
    [id],
  )
  return rows[0] ?? null
}

export async function markWithdrawn(client: PoolClient, id: string): Promise<void> {
  await client.query('UPDATE submission SET withdrawn_at = now() WHERE id = $1', [id])
}

/** A revision that is wanted; without a number the current one. */
export interface RevisionKey {
  readonly id: string
  readonly revision?: number
}

/**
 * The wanted revisions in the order asked, those that do not exist left out. Results are those of
 * today's method, or of the newest before it. Raw SQL: rows of five tables folded into one each.
 */
export async function findRevisions(
  source: Queryable,
  keys: readonly RevisionKey[],
): Promise<ShownRevision[]> {
  const { rows } = await source.query<StoredRevision>({
    name: 'find-revisions',
    text: `
      SELECT submission.id, submission.account_id AS "accountId",
             submission.current_revision AS "currentRevision", submission.created_at AS "createdAt",
             submission.withdrawn_at AS "withdrawnAt", revision.number AS revision,
             revision.created_at AS "revisedAt",
             EXISTS (SELECT FROM report
                      WHERE report.submission_id = submission.id
                        AND report.revision_number = revision.number AND report.sets_aside) AS "setAside",
             submission.guest_pilot_id AS "guestPilotId",
             (SELECT import_id FROM imported_session WHERE submission_id = submission.id) AS "importId",
             revision.body, revision.warnings, folded.runs
        FROM unnest($1::uuid[], $2::int[]) WITH ORDINALITY AS wanted(id, number, place)
        JOIN submission ON submission.id = wanted.id
        JOIN submission_revision revision ON revision.submission_id = submission.id
             AND revision.number = COALESCE(wanted.number, submission.current_revision)
       CROSS JOIN LATERAL (
         SELECT json_agg(json_build_object(
                  'entryIndex', run.entry_index, 'runIndex', run.run_index,
                  'setupId', COALESCE(setup.merged_into_id, setup.id),
                  'methodVersion', result.method_version, 'referenceId', result.reference_id,
                  'normalized', result.normalized, 'derived', result.derived,
                  'warnings', result.warnings)
                  ORDER BY run.entry_index, run.run_index) AS runs
           FROM run
           JOIN setup ON setup.id = run.setup_id
          CROSS JOIN LATERAL (
            SELECT * FROM run_result WHERE run_result.run_id = run.id
             ORDER BY run_result.method_version = $3 DESC, length(run_result.method_version) DESC,
                      run_result.method_version DESC
             LIMIT 1) result
          WHERE run.revision_id = revision.id) folded
       ORDER BY wanted.place`,
    values: [keys.map((key) => key.id), keys.map((key) => key.revision ?? null), METHOD_VERSION],
  })
  const setupIds = new Set(rows.flatMap(({ runs }) => runs.map((run) => run.setupId)))
  const grounded = new Set(await findGrounded(source, [...setupIds]))
  return rows.map((row) => toShown(row, grounded))
}

/** A revision with those of its set-ups that must not be flown, in the order of its entries. */
export function toShown(stored: StoredRevision, grounded: ReadonlySet<string>): ShownRevision {
  const setupIds = new Set(stored.runs.map(({ setupId }) => setupId))
  return { ...stored, grounded: [...setupIds].filter((id) => grounded.has(id)) }
}
