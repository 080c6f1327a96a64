import type { Pool, PoolClient } from 'pg'

import type { Drive } from '../../../core/normalise/types.ts'
import type { DescribedWing } from '../schema.ts'

type Queryable = Pick<Pool | PoolClient, 'query'>

/** What a normalisation needs to know of a set-up. */
export interface KnownSetup {
  /** The id that was asked for. */
  readonly askedId: string
  /** The set-up it stands for: itself, or the one it was merged into. */
  readonly setupId: string
  readonly drive: Drive
  readonly propellerDiameterCm: number
  readonly reductionRatio: number | null
  readonly ratedPowerKw: number | null
}

/**
 * The set-ups behind the ids, those that do not exist left out. Merges lead to their survivor
 * (a merge of merged ones is flattened by the catalogue, so one step is enough).
 */
export async function findSetups(source: Queryable, ids: readonly string[]): Promise<KnownSetup[]> {
  if (ids.length === 0) return []
  const { rows } = await source.query<KnownSetup>({
    name: 'find-setups',
    text: `
      SELECT asked.id AS "askedId", survivor.id AS "setupId", powerplant.drive,
             propeller.diameter_cm AS "propellerDiameterCm",
             powerplant.reduction_ratio AS "reductionRatio", powerplant.rated_power_kw AS "ratedPowerKw"
        FROM setup asked
        JOIN setup survivor ON survivor.id = COALESCE(asked.merged_into_id, asked.id)
        JOIN component own_powerplant ON own_powerplant.id = survivor.powerplant_id
        JOIN component powerplant
          ON powerplant.id = COALESCE(own_powerplant.merged_into_id, own_powerplant.id)
        JOIN component own_propeller ON own_propeller.id = survivor.propeller_id
        JOIN component propeller
          ON propeller.id = COALESCE(own_propeller.merged_into_id, own_propeller.id)
       WHERE asked.id = ANY ($1::uuid[])`,
    values: [ids],
  })
  return rows
}

/** The wing of the catalogue with that id, as a pilot would describe it, or null. */
export async function findWing(source: Queryable, id: string): Promise<DescribedWing | null> {
  const { rows } = await source.query<Record<keyof DescribedWing, number | null>>({
    name: 'find-wing',
    text: `
      SELECT wing.flat_area_m2 AS "flatAreaM2", wing.glide_ratio AS "glideRatio",
             wing.trim_speed_mps AS "trimSpeedMps", wing.trim_at_all_up_mass_kg AS "trimAtAllUpMassKg"
        FROM component asked
        JOIN component wing ON wing.id = COALESCE(asked.merged_into_id, asked.id)
       WHERE asked.id = $1 AND wing.kind = 'wing'`,
    values: [id],
  })
  const wing = rows[0]
  if (wing === undefined) return null
  return {
    flatAreaM2: wing.flatAreaM2!,
    glideSource: 'catalogue',
    glideRatio: wing.glideRatio ?? undefined,
    trimSpeedMps: wing.trimSpeedMps ?? undefined,
    trimAtAllUpMassKg: wing.trimAtAllUpMassKg ?? undefined,
  }
}
