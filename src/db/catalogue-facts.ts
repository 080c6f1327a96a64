import type { PoolClient } from 'pg'

import { setupName } from '../contract/setup-name.ts'
import type { PricedPart } from '../core/comparison/cost.ts'
import type { Drive } from '../core/normalise/types.ts'
import type { Database } from './client.ts'

export type SafetyState = 'none' | 'advisory' | 'doNotFly'

/** What an answer tells of a setup beside its figures. */
export interface SetupFacts {
  readonly setupId: string
  readonly name: string
  readonly equipment: { readonly drive: Drive; readonly propellerDiameterCm: number }
  /** Engine speed at the rated power [1/min]. */
  readonly ratedRpm: number | null
  /** Engine revolutions per propeller revolution. */
  readonly reductionRatio: number | null
  /** Powerplant, propeller and frame. */
  readonly parts: readonly PricedPart[]
  readonly safety: { readonly state: SafetyState; readonly advisories: readonly string[] }
}

interface SetupRow {
  readonly askedId: string
  readonly setupId: string
  readonly drive: Drive
  readonly tune: string | null
  readonly ratedRpm: number | null
  readonly reductionRatio: number | null
  readonly diameterCm: number
  readonly parts: readonly PricedPart[]
  readonly engineMaker: string
  readonly engineModel: string
  readonly propellerMaker: string
  readonly propellerModel: string
  readonly frameMaker: string
  readonly frameModel: string
  readonly doNotFly: readonly string[] | null
  readonly advisories: readonly string[] | null
}

/**
 * Facts of setups by the ids asked for; a merged id gives the surviving setup, with the reports on
 * both; a merged part shows as its survivor. Ids that do not exist are missing. Raw SQL: one round
 * trip over five tables, parts and reports folded in.
 */
export async function findSetupFacts(
  db: { readonly pool: Pick<PoolClient, 'query'> },
  ids: readonly string[],
): Promise<ReadonlyMap<string, SetupFacts>> {
  const { rows } = await db.pool.query<SetupRow>(
    `SELECT asked.id::text AS "askedId", setup.id::text AS "setupId",
            engine.drive, engine.tune, engine.rated_rpm AS "ratedRpm",
            engine.reduction_ratio AS "reductionRatio", propeller.diameter_cm AS "diameterCm",
            engine.maker AS "engineMaker", engine.model AS "engineModel",
            propeller.maker AS "propellerMaker", propeller.model AS "propellerModel",
            frame.maker AS "frameMaker", frame.model AS "frameModel",
            json_build_array(${['engine', 'propeller', 'frame'].map(partOf).join(', ')}) AS parts,
            reports."doNotFly", reports.advisories
       FROM setup asked
       JOIN setup ON setup.id = COALESCE(asked.merged_into_id, asked.id)
       JOIN component own_engine ON own_engine.id = setup.powerplant_id
       JOIN component engine ON engine.id = COALESCE(own_engine.merged_into_id, own_engine.id)
       JOIN component own_propeller ON own_propeller.id = setup.propeller_id
       JOIN component propeller ON propeller.id = COALESCE(own_propeller.merged_into_id, own_propeller.id)
       JOIN component own_frame ON own_frame.id = setup.frame_id
       JOIN component frame ON frame.id = COALESCE(own_frame.merged_into_id, own_frame.id)
       LEFT JOIN LATERAL (
         SELECT array_agg(reason ORDER BY safety_report.created_at) FILTER (WHERE state = 'doNotFly') AS "doNotFly",
                array_agg(reason ORDER BY safety_report.created_at) FILTER (WHERE state = 'advisory') AS advisories
           FROM safety_report JOIN setup reported ON reported.id = safety_report.setup_id
          WHERE COALESCE(reported.merged_into_id, reported.id) = setup.id AND lifted_at IS NULL) reports ON true
      WHERE asked.id = ANY($1::uuid[])`,
    [ids],
  )
  return new Map(rows.map((row) => [row.askedId, toFacts(row)]))
}

/** A joined component with its price, as JSON; the price is null where any of it is missing. */
function partOf(alias: string): string {
  return `json_build_object('id', ${alias}.id, 'price', CASE WHEN ${alias}.price_amount IS NOT NULL
    THEN json_build_object('amount', ${alias}.price_amount, 'currency', ${alias}.price_currency,
                           'asOf', ${alias}.price_as_of) END)`
}

function toFacts(row: SetupRow): SetupFacts {
  const doNotFly = row.doNotFly ?? []
  const advisories = row.advisories ?? []
  return {
    setupId: row.setupId,
    name: setupName({
      powerplant: { maker: row.engineMaker, model: row.engineModel, tune: row.tune },
      propeller: {
        maker: row.propellerMaker,
        model: row.propellerModel,
        diameterCm: row.diameterCm,
      },
      frame: { maker: row.frameMaker, model: row.frameModel },
    }),
    equipment: { drive: row.drive, propellerDiameterCm: row.diameterCm },
    ratedRpm: row.ratedRpm,
    reductionRatio: row.reductionRatio,
    parts: row.parts,
    safety: {
      state: doNotFly.length > 0 ? 'doNotFly' : advisories.length > 0 ? 'advisory' : 'none',
      advisories: [...doNotFly, ...advisories],
    },
  }
}

export interface WingFacts {
  readonly id: string
  readonly flatAreaM2: number
  readonly glideRatio: number | null
  readonly trimSpeedMps: number | null
  readonly trimAtAllUpMassKg: number | null
}

/** A wing of the catalogue, or null; a merged id gives the surviving wing. */
export async function findWing(db: Database, id: string): Promise<WingFacts | null> {
  const wing = await db.prisma.component.findUnique({
    where: { id },
    include: { mergedInto: true },
  })
  const found = wing?.mergedInto ?? wing
  if (found?.kind !== 'wing' || found.flatAreaM2 === null) return null
  const { glideRatio, trimSpeedMps, trimAtAllUpMassKg } = found
  return { id: found.id, flatAreaM2: found.flatAreaM2, glideRatio, trimSpeedMps, trimAtAllUpMassKg }
}
