import type { PoolClient } from 'pg'

import type { Database } from '../../../db/client.ts'
import type { Position } from '../list-query.ts'
import { COMPONENT_HITS, MEAN_CLOSENESS, type Queryable, SHOWN, withSearch } from '../search.ts'
import type { SearchWord } from '../search-words.ts'
import type { ComponentKind, NewComponent } from './schema.ts'

/** A stored component: the fields of its kind, null where nothing is stated. */
export type ComponentRow = Readonly<Record<string, unknown>> & { readonly id: string }

const FIELDS = `
  c.id, c.kind, c.maker, c.model, c.drive, c.displacement_cc AS "displacementCc",
  c.rated_power_kw AS "ratedPowerKw", c.rated_rpm AS "ratedRpm", c.reduction_ratio AS "reductionRatio",
  c.tune, c.diameter_cm AS "diameterCm", c.pitch_cm AS "pitchCm", c.blades, c.material,
  c.hoop_inner_diameter_cm AS "hoopInnerDiameterCm", c.hoop_depth_mm AS "hoopDepthMm",
  c.thrust_line_above_mounts_mm AS "thrustLineAboveMountsMm", c.flat_area_m2 AS "flatAreaM2",
  c.glide_ratio AS "glideRatio", c.trim_speed_mps AS "trimSpeedMps",
  c.trim_at_all_up_mass_kg AS "trimAtAllUpMassKg", c.mass_kg AS "massKg",
  c.price_amount AS "priceAmount", c.price_currency AS "priceCurrency",
  to_char(c.price_as_of, 'YYYY-MM-DD') AS "priceAsOf", c.created_at AS "createdAt"`

/** The component with that id, or the one it was merged into. */
export async function findComponent(source: Queryable, id: string): Promise<ComponentRow | null> {
  const { rows } = await source.query<ComponentRow>(
    `SELECT ${FIELDS}
       FROM component asked
       JOIN component c ON c.id = COALESCE(asked.merged_into_id, asked.id)
      WHERE asked.id = $1`,
    [id],
  )
  return rows[0] ?? null
}

export interface ComponentSearch {
  /** Null: every component; an empty list matches none. */
  readonly words: readonly SearchWord[] | null
  readonly kind: ComponentKind | undefined
  readonly after: Position | null
  readonly limit: number
}

const ALL = 'SELECT id, 1::float8 AS score FROM component WHERE $1::jsonb IS NULL'
const MATCHING = `
  SELECT component_id AS id, ${MEAN_CLOSENESS} AS score
    FROM (${COMPONENT_HITS}) AS hit
   GROUP BY component_id`

/** Components in the order of the list, one more than `limit` where there are more. */
export async function findComponents(
  db: Database,
  { words, kind, after, limit }: ComponentSearch,
): Promise<(ComponentRow & Position)[]> {
  const sql = `
    WITH matched AS (${words === null ? ALL : MATCHING}),
    ranked AS (
      SELECT ${FIELDS}, matched.score, lower(c.maker || ' ' || c.model) AS name,
             COALESCE(c.diameter_cm, c.flat_area_m2, 0) AS size
        FROM matched JOIN component c USING (id)
       WHERE c.merged_into_id IS NULL AND ($2::text IS NULL OR c.kind = $2))
    SELECT * FROM ranked
     WHERE score >= $3 * (SELECT max(score) FROM ranked) AND score >= $9
       AND ($7::uuid IS NULL OR (-score, name, size, id) > (-$4::float8, $5::text, $6::float8, $7))
     ORDER BY -score, name, size, id
     LIMIT $8`
  const position = [after?.score, after?.name, after?.size, after?.id]
  const asked = words === null ? null : JSON.stringify(words)
  const values = [asked, kind, SHOWN.shareOfBest, ...position, limit + 1, SHOWN.score]
  return withSearch(db, words, async (source) => {
    return (await source.query<ComponentRow & Position>(sql, values)).rows
  })
}

/** Makes additions of one kind take turns, so that two of one thing at once cannot both be first. */
export async function lockAdditions(client: PoolClient, kind: ComponentKind): Promise<void> {
  await client.query('SELECT pg_advisory_xact_lock(hashtextextended($1, 0))', [`component ${kind}`])
}

/** Components of that kind and name, ignoring case, spaces and hyphens; `id` is of the survivor. */
export async function findNamesakes(
  client: PoolClient,
  added: NewComponent,
): Promise<ComponentRow[]> {
  const { rows } = await client.query<ComponentRow>(
    `SELECT ${FIELDS}, COALESCE(c.merged_into_id, c.id) AS id
       FROM component c
      WHERE c.kind = $1
        AND lower(regexp_replace(c.maker, $4, '', 'g')) = lower(regexp_replace($2, $4, '', 'g'))
        AND lower(regexp_replace(c.model, $4, '', 'g')) = lower(regexp_replace($3, $4, '', 'g'))
      ORDER BY c.created_at, c.id`,
    [added.kind, added.maker, added.model, '[[:space:]_\u2010-\u2015-]+'],
  )
  return rows
}

/** Stores a component and gives it back as it stands in the table. */
export async function insertComponent(
  client: PoolClient,
  accountId: string,
  added: NewComponent,
): Promise<ComponentRow> {
  const { price, ...fields } = added
  const { rows } = await client.query<ComponentRow>(
    `INSERT INTO component AS c (
       kind, maker, model, drive, displacement_cc, rated_power_kw, rated_rpm, reduction_ratio, tune,
       diameter_cm, pitch_cm, blades, material, hoop_inner_diameter_cm, hoop_depth_mm,
       thrust_line_above_mounts_mm, flat_area_m2, glide_ratio, trim_speed_mps,
       trim_at_all_up_mass_kg, mass_kg, price_amount, price_currency, price_as_of, created_by_id)
     SELECT a.kind, a.maker, a.model, a.drive, a."displacementCc", a."ratedPowerKw", a."ratedRpm",
            a."reductionRatio", a.tune, a."diameterCm", a."pitchCm", a.blades, a.material,
            a."hoopInnerDiameterCm", a."hoopDepthMm", a."thrustLineAboveMountsMm", a."flatAreaM2",
            a."glideRatio", a."trimSpeedMps", a."trimAtAllUpMassKg", a."massKg",
            p.amount, p.currency, p."asOf", $3
       FROM jsonb_to_record($1) AS a (
              kind text, maker text, model text, drive text, "displacementCc" float8,
              "ratedPowerKw" float8, "ratedRpm" float8, "reductionRatio" float8, tune text,
              "diameterCm" float8, "pitchCm" float8, blades int, material text,
              "hoopInnerDiameterCm" float8, "hoopDepthMm" float8, "thrustLineAboveMountsMm" float8,
              "flatAreaM2" float8, "glideRatio" float8, "trimSpeedMps" float8,
              "trimAtAllUpMassKg" float8, "massKg" float8)
       CROSS JOIN jsonb_to_record($2) AS p (amount float8, currency text, "asOf" date)
     RETURNING ${FIELDS}`,
    [JSON.stringify(fields), JSON.stringify(price ?? {}), accountId],
  )
  return rows[0]!
}
