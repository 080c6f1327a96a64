import type { PoolClient } from 'pg'

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
export async function insertRuns(client: PoolClient, runs: readonly StoredRun[]): Promise<void> {
  for (let start = 0; start < runs.length; start += BATCH) {
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

const FINGERPRINT = `md5(string_agg(log_value::text, ' ' ORDER BY log_value))`

/** Every session gets the hash of its results. */
export async function setFingerprints(client: PoolClient, importId: string): Promise<void> {
  await client.query(
    `UPDATE mirrored_session session SET fingerprint = results.fingerprint
       FROM (SELECT session_id, ${FINGERPRINT} AS fingerprint
               FROM mirrored_run
              WHERE log_value IS NOT NULL
                AND session_id IN (SELECT id FROM mirrored_session WHERE import_id = $1)
              GROUP BY session_id HAVING count(*) >= ${RUNS_TO_KNOW_BY}) results
      WHERE session.id = results.session_id`,
    [importId],
  )
}

/** How many sessions of an import are the same as one submitted here, in whatever revision. */
export async function findOwnSessions(client: PoolClient, importId: string): Promise<number> {
  const { rows } = await client.query<{ sessions: number }>(
    `SELECT count(*)::int AS sessions
       FROM mirrored_session session
      WHERE session.import_id = $1
        AND session.fingerprint IN (
          SELECT ${FINGERPRINT}
            FROM run JOIN run_result result ON result.run_id = run.id
           WHERE result.log_value IS NOT NULL
           GROUP BY run.revision_id, result.method_version)`,
    [importId],
  )
  return rows[0]!.sessions
}

/** Other releases that count and hold sessions of this one, and how many. */
export async function findSessionsOfMirrors(
  client: PoolClient,
  importId: string,
): Promise<{ id: string; sessions: number }[]> {
  const { rows } = await client.query<{ id: string; sessions: number }>(
    `SELECT other.import_id AS id, count(DISTINCT session.id)::int AS sessions
       FROM mirrored_session session
       JOIN mirrored_session other
         ON other.fingerprint = session.fingerprint AND other.import_id <> session.import_id
       JOIN data_import ON data_import.id = other.import_id AND data_import.withdrawn_at IS NULL
      WHERE session.import_id = $1
      GROUP BY other.import_id ORDER BY sessions DESC, other.import_id`,
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
