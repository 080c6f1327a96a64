import type { PoolClient } from 'pg'

import { METHOD_VERSION } from '../../../core/version.ts'
import { SUBMISSION_COUNTS } from '../../../db/counted-submissions.ts'
import { classSql, ELEVATION_BOUNDS, MASS_BOUNDS, WING_AREA_BOUNDS } from '../tables/classes.ts'

/** Pilots who must share whatever combination of quasi-identifiers is shown. */
export const K_PILOTS = 5

/**
 * What somebody may know of a flight they saw or read about, in the order in which it is given up
 * where too few pilots share all of it: what the evidence needs least goes first.
 */
export const QUASI_IDENTIFIERS = [
  'air_motion',
  'wing_area_class',
  'flown_month',
  'elevation_class',
  'flown_year',
  'interest',
  'all_up_mass_class',
] as const

export type QuasiIdentifier = (typeof QUASI_IDENTIFIERS)[number]

/** What the pass over the evidence came to. */
export interface Anonymity {
  readonly k: number
  readonly pilots: number
  readonly sessions: number
  readonly runs: number
  /** Runs in which the column was emptied, by column. */
  readonly suppressedRuns: Readonly<Record<QuasiIdentifier, number>>
}

/**
 * Makes the temporary table dataset_unit: one row per entry (a setup within a session) that counts,
 * with keys drawn anew and the quasi-identifiers in classes, and `given_up`: how many of them, from
 * the front of {@link QUASI_IDENTIFIERS}, the entry may not show.
 *
 * Whatever combination of setup and quasi-identifiers is left is held by k pilots at least. And at
 * least k pilots have an entry of which nothing is shown, so that a list of somebody's flights,
 * however long, never leaves fewer than k of them. Set-wise in SQL: no row passes through the process.
 *
 * @param client inside the transaction whose snapshot is published; the table goes with it
 */
export async function anonymise(client: PoolClient, k = K_PILOTS): Promise<void> {
  await client.query(UNITS, [METHOD_VERSION])
  await client.query(
    'CREATE INDEX ON dataset_unit (revision_id, entry_index); ANALYZE dataset_unit',
  )
  await giveUp(client, k)
  const { rows } = await client.query<{ unseen: number }>(
    `SELECT count(DISTINCT account_id)::int AS unseen FROM dataset_unit WHERE given_up = ${ALL}`,
  )
  if (rows[0]!.unseen >= k) return
  await client.query(HIDE_FEW, [k])
  await giveUp(client, k)
}

const ALL = QUASI_IDENTIFIERS.length

const WING_AREA = `COALESCE((revision.body #>> '{wing,flatAreaM2}')::float8,
  (SELECT wing.flat_area_m2 FROM component asked
     JOIN component wing ON wing.id = COALESCE(asked.merged_into_id, asked.id)
    WHERE asked.id = (revision.body #>> '{wing,id}')::uuid))`

const randomKey = (letter: string) =>
  `'${letter}' || left(replace(gen_random_uuid()::text, '-', ''), 16)`

/** Words, not nulls, for what is unknown, so that equality works on it. */
const UNITS = `
  CREATE TEMP TABLE dataset_unit ON COMMIT DROP AS
  WITH counted AS MATERIALIZED (
    SELECT id, account_id, current_revision, ${randomKey('s')} AS session_key
      FROM submission WHERE ${SUBMISSION_COUNTS}
  ), pilot AS MATERIALIZED (
    SELECT account_id, ${randomKey('p')} AS pilot_key FROM (SELECT DISTINCT account_id FROM counted) one
  )
  SELECT revision.id AS revision_id, flown.entry_index, counted.account_id, counted.session_key,
         pilot.pilot_key, COALESCE(setup.merged_into_id, setup.id) AS setup_id,
         revision.body #> ARRAY['entries', flown.entry_index::text, 'runs'] AS raw_runs,
         flown.runs, false AS hidden, NULL::int AS given_up,
         revision.interest,
         extract(year FROM revision.flown_on)::int AS flown_year,
         to_char(revision.flown_on, 'YYYY-MM') AS flown_month,
         COALESCE(${classSql(
           `(revision.body #>> ARRAY['entries', flown.entry_index::text, 'allUpMassKg'])::float8`,
           MASS_BOUNDS,
         )}, 'unknown') AS all_up_mass_class,
         ${classSql('revision.elevation_m', ELEVATION_BOUNDS)} AS elevation_class,
         COALESCE(${classSql(WING_AREA, WING_AREA_BOUNDS)}, 'unknown') AS wing_area_class,
         COALESCE(revision.body #>> '{conditions,airMotion}', 'unknown') AS air_motion
    FROM counted
    JOIN pilot USING (account_id)
    JOIN submission_revision revision
      ON revision.submission_id = counted.id AND revision.number = counted.current_revision
   CROSS JOIN LATERAL (
     SELECT run.entry_index, min(run.setup_id::text)::uuid AS setup_id, count(*)::int AS runs
       FROM run JOIN run_result result ON result.run_id = run.id AND result.method_version = $1
      WHERE run.revision_id = revision.id
      GROUP BY run.entry_index) flown
    JOIN setup ON setup.id = flown.setup_id`

/** The pilots with the fewest entries show nothing, where fewer than k do by themselves. */
const HIDE_FEW = `
  UPDATE dataset_unit SET hidden = true
   WHERE account_id IN (SELECT account_id FROM dataset_unit GROUP BY account_id
                         ORDER BY count(*), min(session_key) LIMIT $1)`

/** From all quasi-identifiers to none: what k pilots share stays as it is then. */
async function giveUp(client: PoolClient, k: number): Promise<void> {
  await client.query('UPDATE dataset_unit SET given_up = NULL')
  for (let level = 0; level < ALL; level++) {
    const columns = ['setup_id', ...QUASI_IDENTIFIERS.slice(level)].join(', ')
    await client.query(
      `UPDATE dataset_unit unit SET given_up = ${level}
         FROM (SELECT ${columns} FROM dataset_unit WHERE given_up IS NULL AND NOT hidden
                GROUP BY ${columns} HAVING count(DISTINCT account_id) >= $1) shared
        WHERE unit.given_up IS NULL AND NOT unit.hidden
          AND (${qualified('unit', columns)}) = (${qualified('shared', columns)})`,
      [k],
    )
  }
  await client.query(`UPDATE dataset_unit SET given_up = ${ALL} WHERE given_up IS NULL`)
}

function qualified(table: string, columns: string): string {
  return columns
    .split(', ')
    .map((column) => `${table}.${column}`)
    .join(', ')
}

/** A quasi-identifier as it may be shown: null where it was given up, or never known. */
export function shownSql(column: QuasiIdentifier): string {
  const level = QUASI_IDENTIFIERS.indexOf(column)
  const known = column === 'flown_year' ? `unit.${column}` : `nullif(unit.${column}, 'unknown')`
  return `CASE WHEN unit.given_up <= ${level} THEN ${known} END`
}

/** Counts of what was published and of what was not shown. */
export async function measureAnonymity(client: PoolClient, k = K_PILOTS): Promise<Anonymity> {
  const sums = QUASI_IDENTIFIERS.map(
    (column, level) =>
      `COALESCE(sum(runs) FILTER (WHERE given_up > ${level}), 0)::int AS ${column}`,
  )
  const { rows } = await client.query<
    Record<QuasiIdentifier | 'pilots' | 'sessions' | 'runs', number>
  >(
    `SELECT count(DISTINCT pilot_key)::int AS pilots, count(DISTINCT session_key)::int AS sessions,
            COALESCE(sum(runs), 0)::int AS runs, ${sums.join(', ')} FROM dataset_unit`,
  )
  const { pilots, sessions, runs, ...suppressedRuns } = rows[0]!
  return { k, pilots, sessions, runs, suppressedRuns }
}
