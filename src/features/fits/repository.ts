import type { PoolClient } from 'pg'

import type { FitSiblings } from '../../core/comparison/fit-about.ts'
import type { FitReport } from '../../core/comparison/fit-report.ts'
import type { Quantity } from '../../core/comparison/metric.ts'
import type { Database } from '../../db/client.ts'
import { SUBMISSION_COUNTS } from '../../db/counted-submissions.ts'
import { findMirrored } from './mirrored.ts'
import type { EvidenceRows, FitBeside, FittedModel } from './model.ts'

/** One run that counts. */
export type EvidenceRow = [
  setup: string,
  session: string,
  pilot: string,
  y: number,
  own: number,
  shared: number,
  interested: boolean | null,
  systematic: EvidenceRows['systematic'][number],
  powerplant: string,
  propeller: string,
  frame: string,
  allUpMassKg: number | null,
  /** Of the run in its submission (RFC 6901). */
  pointer: string,
  /** Null: it came with a release of another server. */
  revision: number | null,
]

/** What counts, and the revision of each session of this server that it was read from. */
export interface ReadEvidence {
  readonly rows: EvidenceRows
  readonly revisions: ReadonlyMap<string, number>
}

/**
 * Every run that counts: the current revision of each submission that was neither withdrawn nor set
 * aside, under one version of the normalisation. A setup or part merged into another counts for that one. The order is
 * fixed, so that the same evidence reads the same. Runs of mirrored releases follow, unless what was
 * submitted here alone is asked for.
 */
export async function findEvidence(
  client: PoolClient,
  quantity: Quantity,
  methodVersion: string,
  { mirrored = true }: { readonly mirrored?: boolean } = {},
): Promise<ReadEvidence> {
  const own = await findSubmitted(client, quantity, methodVersion)
  const others = mirrored ? await findMirrored(client, quantity, methodVersion) : []
  return inColumns([...own, ...others])
}

/** Raw SQL: a set over six tables. */
async function findSubmitted(
  client: PoolClient,
  quantity: Quantity,
  methodVersion: string,
): Promise<EvidenceRow[]> {
  const { rows } = await client.query<EvidenceRow>({
    rowMode: 'array',
    text: `
      SELECT COALESCE(setup.merged_into_id, setup.id)::text, submission.id::text, COALESCE(submission.guest_pilot_id, submission.account_id)::text,
             result.log_value, result.own_standard_uncertainty, result.shared_standard_uncertainty,
             revision.interest <> 'none', result.systematic,
             COALESCE(powerplant.merged_into_id, powerplant.id)::text,
             COALESCE(propeller.merged_into_id, propeller.id)::text,
             COALESCE(frame.merged_into_id, frame.id)::text,
             (revision.body #>> ARRAY['entries', run.entry_index::text, 'allUpMassKg'])::float8,
             '/entries/' || run.entry_index || '/runs/' || run.run_index, revision.number
        FROM submission
        JOIN submission_revision revision
          ON revision.submission_id = submission.id AND revision.number = submission.current_revision
        JOIN run ON run.revision_id = revision.id
        JOIN run_result result ON result.run_id = run.id AND result.method_version = $2
        JOIN setup ON setup.id = run.setup_id
        JOIN setup counted ON counted.id = COALESCE(setup.merged_into_id, setup.id)
        JOIN component powerplant ON powerplant.id = counted.powerplant_id
        JOIN component propeller ON propeller.id = counted.propeller_id
        JOIN component frame ON frame.id = counted.frame_id
       WHERE ${SUBMISSION_COUNTS} AND result.quantity = $1
       ORDER BY submission.id, run.entry_index, run.run_index`,
    values: [quantity, methodVersion],
  })
  return rows
}

function inColumns(rows: readonly EvidenceRow[]): ReadEvidence {
  const column = <K extends keyof EvidenceRow>(key: K) =>
    rows.map((row) => row[key]) as EvidenceRow[K][]
  const evidence: EvidenceRows = {
    setup: column(0) as string[],
    session: column(1) as string[],
    pilot: column(2) as string[],
    y: Float64Array.from(column(3) as number[]),
    own: Float64Array.from(column(4) as number[]),
    shared: Float64Array.from(column(5) as number[]),
    interested: column(6) as (boolean | null)[],
    systematic: column(7) as EvidenceRows['systematic'],
    parts: Object.fromEntries(
      rows.map((row) => [row[0], { powerplant: row[8], propeller: row[9], frame: row[10] }]),
    ),
    logMass: Float64Array.from(rows, (row) => (row[11] === null ? Number.NaN : Math.log(row[11]))),
    pointer: column(12) as string[],
  }
  const revisions = rows.flatMap((row) => (row[13] === null ? [] : [[row[1], row[13]] as const]))
  return { rows: evidence, revisions: new Map(revisions) }
}

/** Whether a fit with that id is stored already: the same evidence gives the same id. */
export async function fitExists(client: PoolClient, id: string): Promise<boolean> {
  const { rowCount } = await client.query('SELECT 1 FROM fit WHERE id = $1', [id])
  return rowCount === 1
}

export interface FitIdentity {
  readonly id: string
  readonly quantity: Quantity
  readonly modelVersion: string
  readonly methodVersion: string
}

/** Stores a fit; one that is there already stays as it is. */
export async function insertFit(
  client: PoolClient,
  { id, quantity, modelVersion, methodVersion }: FitIdentity,
  model: FittedModel,
): Promise<void> {
  await client.query(
    `INSERT INTO fit (id, quantity, model_version, method_version, runs, header, numbers)
     VALUES ($1, $2, $3, $4, $5, $6, $7)
     ON CONFLICT (id) DO NOTHING`,
    [
      id,
      quantity,
      modelVersion,
      methodVersion,
      model.runs,
      model.header,
      Buffer.from(model.numbers),
    ],
  )
}

/** Makes a stored fit the one that answers rest on. */
export async function setCurrentFit(
  client: PoolClient,
  quantity: Quantity,
  id: string,
): Promise<void> {
  await client.query(
    `INSERT INTO current_fit (quantity, fit_id) VALUES ($1, $2)
     ON CONFLICT (quantity) DO UPDATE SET fit_id = EXCLUDED.fit_id, updated_at = now()
       WHERE current_fit.fit_id <> EXCLUDED.fit_id`,
    [quantity, id],
  )
}

/** What stands beside a fit. */
export type Companions = FitSiblings & Pick<FitBeside, 'report'>

/** Whether what stands beside a fit is made. */
export async function companionsExist(client: PoolClient, id: string): Promise<boolean> {
  const { rowCount } = await client.query('SELECT 1 FROM fit_companion WHERE fit_id = $1', [id])
  return rowCount === 1
}

/** What stands out in a fit; null where it knows no uncertainty, or is not looked over yet. */
export async function findReport(client: PoolClient, id: string): Promise<FitReport | null> {
  const { rows } = await client.query<{ report: FitReport | null }>(
    'SELECT report FROM fit_companion WHERE fit_id = $1',
    [id],
  )
  return rows[0]?.report ?? null
}

/** Id of the robust fit beside a fit; null where there is none, or none yet. */
export async function findRobust(client: PoolClient, id: string): Promise<string | null> {
  const { rows } = await client.query<{ robust: string | null }>(
    'SELECT robust_id AS robust FROM fit_companion WHERE fit_id = $1',
    [id],
  )
  return rows[0]?.robust ?? null
}

/** Stores what stands beside a fit, all of it at once; what is there already stays. */
export async function insertCompanions(
  client: PoolClient,
  id: string,
  { withoutInterested, robust, report }: Companions,
): Promise<void> {
  await client.query(
    `INSERT INTO fit_companion (fit_id, without_interested_id, robust_id, report)
     VALUES ($1, $2, $3, $4)
     ON CONFLICT (fit_id) DO NOTHING`,
    [id, withoutInterested, robust, report],
  )
}

interface FitRow {
  readonly quantity: string
  readonly modelVersion: string
  readonly methodVersion: string
  readonly createdAt: Date
  readonly header: unknown
  readonly numbers: Uint8Array
  readonly companionsMade: boolean
  readonly withoutInterested: string | null
  readonly robust: string | null
  readonly report: FitReport | null
}

/** One stored fit with what stands beside it, or null. */
export async function findFit(db: Database, id: string): Promise<FitRow | null> {
  const { rows } = await db.pool.query<FitRow>(
    `SELECT fit.quantity, fit.model_version AS "modelVersion", fit.method_version AS "methodVersion",
            fit.created_at AS "createdAt", fit.header, fit.numbers,
            beside.fit_id IS NOT NULL AS "companionsMade",
            beside.without_interested_id AS "withoutInterested", beside.robust_id AS robust, beside.report
       FROM fit LEFT JOIN fit_companion beside ON beside.fit_id = fit.id
      WHERE fit.id = $1`,
    [id],
  )
  return rows[0] ?? null
}
