import type { PoolClient } from 'pg'

import { findSetupFacts, type SetupFacts } from '../../../db/catalogue-facts.ts'
import type { Row } from '../files/csv.ts'

/** The setups of a release, with their facts, and their components, both in the order of their ids. */
export interface CatalogueRows {
  readonly facts: ReadonlyMap<string, SetupFacts>
  readonly setups: readonly Row[]
  readonly components: readonly Row[]
}

/** Setups with runs in the snapshot; a merged one stands as its survivor. */
export async function readCatalogue(client: PoolClient): Promise<CatalogueRows> {
  const { rows } = await client.query<PartsRow>(PARTS)
  const facts = await findSetupFacts(
    { pool: client },
    rows.map((row) => row.setup_id),
  )
  const ids = [
    ...new Set(rows.flatMap((row) => [row.powerplant_id, row.propeller_id, row.frame_id])),
  ]
  const components = await client.query<Row>(COMPONENTS, [ids])
  const setups = rows.map((row) => {
    const { name, safety } = facts.get(row.setup_id)!
    return { ...row, name, safety_state: safety.state }
  })
  return { facts, setups, components: components.rows }
}

interface PartsRow {
  readonly setup_id: string
  readonly powerplant_id: string
  readonly propeller_id: string
  readonly frame_id: string
}

const PARTS = `
  SELECT setup.id::text AS setup_id,
         COALESCE(powerplant.merged_into_id, powerplant.id)::text AS powerplant_id,
         COALESCE(propeller.merged_into_id, propeller.id)::text AS propeller_id,
         COALESCE(frame.merged_into_id, frame.id)::text AS frame_id
    FROM setup
    JOIN component powerplant ON powerplant.id = setup.powerplant_id
    JOIN component propeller ON propeller.id = setup.propeller_id
    JOIN component frame ON frame.id = setup.frame_id
   WHERE setup.id IN (SELECT setup_id FROM dataset_unit)
   ORDER BY setup.id`

const COMPONENTS = `
  SELECT id::text AS component_id, kind, maker, model, drive, tune, displacement_cc, rated_power_kw,
         rated_rpm, reduction_ratio, diameter_cm, pitch_cm, blades, mass_kg
    FROM component WHERE id = ANY ($1::uuid[]) ORDER BY id`
