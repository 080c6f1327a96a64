import type { PoolClient } from 'pg'

import type { FitSiblings } from '../../core/comparison/fit-about.ts'
import type { FitReport } from '../../core/comparison/fit-report.ts'
import type { Quantity } from '../../core/comparison/metric.ts'
import type { PerComponent } from '../../core/mixed/components.ts'
import type { Database } from '../../db/client.ts'
import type { FitBeside, FittedModel } from './model.ts'

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

/** What a refresh asks of the fit that answers rest on. */
export interface CurrentFit extends FitIdentity {
  readonly converged: boolean
  /** Where it started; null: from the data. */
  readonly start: PerComponent<number> | null
  /** Its variances; null in fits stored without. */
  readonly theta: PerComponent<number> | null
}

/** The fit that answers on a quantity rest on, or null before the first. */
export async function findCurrentFit(
  client: PoolClient,
  quantity: Quantity,
): Promise<CurrentFit | null> {
  const { rows } = await client.query<CurrentFit>(
    `SELECT fit.id, fit.quantity, fit.model_version AS "modelVersion", fit.method_version AS "methodVersion",
            (fit.header #>> '{fit,converged}')::boolean AS converged,
            NULLIF(fit.header #> '{fit,options,start}', 'null') AS start, fit.header #> '{about,theta}' AS theta
       FROM current_fit JOIN fit ON fit.id = current_fit.fit_id
      WHERE current_fit.quantity = $1`,
    [quantity],
  )
  return rows[0] ?? null
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
