import type { PoolClient } from 'pg'
import type { Progress } from '../../../contract/progress.ts'
import type { Quantity } from '../../../core/comparison/metric.ts'
import type { ReleasedRun } from './check.ts'

/** Rows of one statement; keeps its text within what a message to the database may hold. */
const BATCH = 5000

export async function insertSessions(
  client: PoolClient,
  importId: string,
  sessions: readonly { readonly id: string; readonly pilotId: string }[],
): Promise<void> {
  await client.query(
    `INSERT INTO mirrored_session (id, import_id, pilot_id)
     SELECT id, $1, pilot_id FROM unnest($2::uuid[], $3::uuid[]) AS session(id, pilot_id)`,
    [importId, sessions.map(({ id }) => id), sessions.map(({ pilotId }) => pilotId)],
  )
}

export type StoredRun = ReleasedRun & { readonly sessionId: string }

/** Figures travel as JSON, in which every double comes out as it went in. */
export async function insertRuns(
  client: PoolClient,
  runs: readonly StoredRun[],
  progress: Progress,
): Promise<void> {
  for (let start = 0; start < runs.length; start += BATCH) {
    await progress(start / runs.length, `storing run ${start + 1} of ${runs.length}`)
    await client.query({
      name: 'insert-mirrored-runs',
      text: `
        INSERT INTO mirrored_run (session_id, file_row, setup_id, quantity, method_version, log_value,
                                  own_standard_uncertainty, shared_standard_uncertainty, systematic,
                                  interested, all_up_mass_kg, as_released)
        SELECT "sessionId", row, "setupId", quantity, "asReleased" ->> 'method_version', "logValue", own,
               shared, systematic, interested, "allUpMassKg", "asReleased"
          FROM jsonb_to_recordset($1::jsonb) AS run(
               "sessionId" uuid, row int, "setupId" uuid, quantity text, "logValue" float8, own float8,
               shared float8, systematic jsonb, interested boolean, "allUpMassKg" float8,
               "asReleased" jsonb)`,
      values: [JSON.stringify(runs.slice(start, start + BATCH))],
    })
  }
}

/** Results of fewer runs may be alike by chance: rounded readings in the same air. */
const RUNS_TO_KNOW_BY = 2

/**
 * Results that depend on mass, wing, place and air alike, as their uncertainties do: one of them with
 * both is known to the last digit. A pull or a sound level of another evening may well be the same.
 */
const KNOWN_BY_ONE: readonly Quantity[] = ['inducedPower', 'fuelFlow', 'electricPower']

/** Of the results of a session, one of them or several. */
const FINGERPRINT = `md5(CASE WHEN count(*) > 1 THEN string_agg(log_value::text, ' ' ORDER BY log_value)
  ELSE min(concat_ws(' ', quantity, log_value, own_standard_uncertainty, shared_standard_uncertainty)) END)`

/** How many runs a session is as good as, to be known by. */
const RUNS_TO_KNOW = `CASE WHEN count(*) = 1 AND min(quantity) IN ('${KNOWN_BY_ONE.join("', '")}')
  THEN ${RUNS_TO_KNOW_BY} ELSE count(*) END`

/** Every session gets the hash of its results. */
export async function setFingerprints(client: PoolClient, importId: string): Promise<void> {
  await client.query(
    `UPDATE mirrored_session session SET fingerprint = results.fingerprint
       FROM (SELECT session_id, ${FINGERPRINT} AS fingerprint
               FROM mirrored_run
              WHERE log_value IS NOT NULL
                AND session_id IN (SELECT id FROM mirrored_session WHERE import_id = $1)
              GROUP BY session_id) results
      WHERE session.id = results.session_id`,
    [importId],
  )
}

/** The sessions of an import, and how many runs each is as good as. */
const SESSIONS = `
  SELECT session.id, session.fingerprint, ${RUNS_TO_KNOW} AS runs
    FROM mirrored_session session JOIN mirrored_run run ON run.session_id = session.id
   WHERE session.import_id = $1 AND run.log_value IS NOT NULL
   GROUP BY session.id`

/** How many sessions of an import are the same as one submitted here, in whatever revision. */
export async function findOwnSessions(client: PoolClient, importId: string): Promise<number> {
  const { rows } = await client.query<{ sessions: number }>(
    `SELECT count(*)::int AS sessions
       FROM (${SESSIONS}) session
      WHERE session.fingerprint IN (
          SELECT ${FINGERPRINT}
            FROM run JOIN run_result result ON result.run_id = run.id
           WHERE result.log_value IS NOT NULL
           GROUP BY run.revision_id, result.method_version)
     HAVING sum(session.runs) >= ${RUNS_TO_KNOW_BY}`,
    [importId],
  )
  return rows[0]?.sessions ?? 0
}

/** Other releases that count and hold sessions of this one, and how many. */
export async function findSessionsOfMirrors(
  client: PoolClient,
  importId: string,
): Promise<{ id: string; sessions: number }[]> {
  const { rows } = await client.query<{ id: string; sessions: number }>(
    `SELECT id, count(*)::int AS sessions
       FROM (SELECT DISTINCT other.import_id AS id, session.id AS session_id, session.runs
               FROM (${SESSIONS}) session
               JOIN mirrored_session other
                 ON other.fingerprint = session.fingerprint AND other.import_id <> $1
               JOIN data_import
                 ON data_import.id = other.import_id AND data_import.withdrawn_at IS NULL) known
      GROUP BY id HAVING sum(runs) >= ${RUNS_TO_KNOW_BY} ORDER BY sessions DESC, id`,
    [importId],
  )
  return rows
}

/** The release of this server that holds a file with that content, or null. */
export async function findOwnRelease(client: PoolClient, sha256: string): Promise<string | null> {
  const { rows } = await client.query<{ id: string }>(
    'SELECT release_id AS id FROM dataset_file WHERE sha256 = $1 LIMIT 1',
    [sha256],
  )
  return rows[0]?.id ?? null
}
