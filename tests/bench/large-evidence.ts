import type { PoolClient } from 'pg'

import type { Database } from '../../src/db/client.ts'
import { inTransaction } from '../../src/db/transaction.ts'

/** Size of a made-up community: 8 runs a session of three setups, 20 sessions a pilot. */
export interface LargeCommunity {
  readonly runs: number
  readonly setups: number
}

const RUNS_PER_SESSION = 8
const SETUPS_PER_SESSION = 3
const SESSIONS_PER_PILOT = 20

/**
 * Fills a database with climbs of a made-up community by set-wise inserts: bodies as long as real ones, results
 * that the service would have stored, scatter of pilots, sessions, cells and runs from a fixed seed.
 *
 * @param db a migrated database with demo data; its bodies and results are the pattern
 * @param size of the community
 */
export async function insertCommunity(db: Database, size: LargeCommunity): Promise<void> {
  const sessions = Math.ceil(size.runs / RUNS_PER_SESSION)
  const pilots = Math.ceil(sessions / SESSIONS_PER_PILOT)
  await inTransaction(db, async (client) => {
    await client.query('SELECT setseed(0.5)')
    await insertPeopleAndSetups(client, pilots, size.setups)
    await insertSessions(client, sessions)
    await insertRuns(client, size.setups)
  })
  await db.pool.query('ANALYZE')
}

async function insertPeopleAndSetups(client: PoolClient, pilots: number, setups: number) {
  await client.query(
    `CREATE TEMPORARY TABLE made_pilot ON COMMIT DROP AS
       SELECT n, gen_random_uuid() AS id, 0.02 * random_normal() AS effect FROM generate_series(0, $1::int - 1) n`,
    [pilots],
  )
  await client.query(`
    INSERT INTO account (id, email, password_hash, display_name)
    SELECT id, 'made' || n || '@example.org', '-', 'Made ' || n FROM made_pilot`)
  await client.query(
    `CREATE TEMPORARY TABLE made_setup ON COMMIT DROP AS
       SELECT n, gen_random_uuid() AS id, gen_random_uuid() AS propeller, 0.01 * (n % 20) AS effect
         FROM generate_series(0, $1::int - 1) n`,
    [setups],
  )
  await client.query(`
    INSERT INTO component (id, kind, maker, model, diameter_cm)
    SELECT propeller, 'propeller', 'Zephyrine', 'Made ' || n, 125 FROM made_setup`)
  await client.query(`
    INSERT INTO setup (id, powerplant_id, propeller_id, frame_id)
    SELECT made.id, known.powerplant_id, made.propeller, known.frame_id
      FROM made_setup made, (SELECT * FROM setup ORDER BY id LIMIT 1) known`)
}

async function insertSessions(client: PoolClient, sessions: number): Promise<void> {
  await client.query(
    `CREATE TEMPORARY TABLE made_session ON COMMIT DROP AS
       SELECT made.n, gen_random_uuid() AS id, gen_random_uuid() AS revision, made_pilot.id AS pilot,
              made_pilot.effect + 0.03 * random_normal() AS effect, floor(1e6 * random())::int AS first
         FROM generate_series(0, $1::int - 1) AS made(n)
         JOIN made_pilot ON made_pilot.n = made.n / ${SESSIONS_PER_PILOT}`,
    [sessions],
  )
  await client.query('INSERT INTO submission (id, account_id) SELECT id, pilot FROM made_session')
  await client.query(`
    INSERT INTO submission_revision (id, submission_id, number, body, flown_on, elevation_m, interest, warnings)
    SELECT made.revision, made.id, 1, pattern.body, pattern.flown_on, pattern.elevation_m,
           CASE WHEN made.n % 10 = 0 THEN 'dealer' ELSE 'none' END, '[]'
      FROM made_session made,
           (SELECT * FROM submission_revision ORDER BY length(body::text) DESC, id LIMIT 1) pattern`)
}

async function insertRuns(client: PoolClient, setups: number): Promise<void> {
  await client.query(
    `CREATE TEMPORARY TABLE made_run ON COMMIT DROP AS
       SELECT gen_random_uuid() AS id, made.revision, i / 3 AS entry, i % 3 AS run, made_setup.id AS setup,
              made.effect + made_setup.effect + 0.02 * random_normal() AS y, 0.02 * random() AS own
         FROM made_session made CROSS JOIN generate_series(0, ${RUNS_PER_SESSION - 1}) i
         JOIN made_setup ON made_setup.n = (made.first + 7919 * (i / ${SETUPS_PER_SESSION})) % $1::int`,
    [setups],
  )
  await client.query(`
    INSERT INTO run (id, revision_id, entry_index, run_index, setup_id, kind)
    SELECT id, revision, entry, run, setup, 'climb' FROM made_run`)
  await client.query(`
    INSERT INTO run_result (run_id, method_version, reference_id, quantity, log_value, own_standard_uncertainty,
                            shared_standard_uncertainty, systematic, normalized, derived, warnings)
    SELECT made.id, pattern.method_version, pattern.reference_id, pattern.quantity, 9 + y, own, 0.01,
           pattern.systematic, pattern.normalized, pattern.derived, pattern.warnings
      FROM made_run made,
           (SELECT * FROM run_result WHERE quantity = 'inducedPower' ORDER BY run_id LIMIT 1) pattern`)
}
