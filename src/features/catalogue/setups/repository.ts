import type { PoolClient } from 'pg'

import type { Database } from '../../../db/client.ts'
import type { PartIds } from '../../../db/setups.ts'
import type { Position } from '../list-query.ts'
import { COMPONENT_HITS, MEAN_CLOSENESS, type Queryable, SHOWN, withSearch } from '../search.ts'
import type { SearchWord } from '../search-words.ts'
import type { Setup } from './schema.ts'

export interface ReportRow {
  readonly id: string
  readonly state: 'advisory' | 'doNotFly'
  readonly reason: string
  readonly createdAt: string
  readonly liftedAt: string | null
  readonly liftedReason: string | null
}

export interface SetupRow extends Pick<Setup, 'id' | 'powerplant' | 'propeller' | 'frame'> {
  readonly note: string | null
  readonly createdAt: Date
  /** Newest first; null where there is none. */
  readonly reports: readonly ReportRow[] | null
}

/** Setups `s` with their parts `pp`, `pr`, `fr`. A part that was merged shows as what it was merged into. */
const WITH_PARTS = `
    FROM setup s
    JOIN component own_pp ON own_pp.id = s.powerplant_id
    JOIN component pp ON pp.id = COALESCE(own_pp.merged_into_id, own_pp.id)
    JOIN component own_pr ON own_pr.id = s.propeller_id
    JOIN component pr ON pr.id = COALESCE(own_pr.merged_into_id, own_pr.id)
    JOIN component own_fr ON own_fr.id = s.frame_id
    JOIN component fr ON fr.id = COALESCE(own_fr.merged_into_id, own_fr.id)`

/** A report on a merged setup counts for the one that remains: a warning must not be lost. */
const REPORTS = `
  SELECT COALESCE(reported.merged_into_id, reported.id) AS setup_id,
         jsonb_agg(jsonb_build_object(
           'id', report.id, 'state', report.state, 'reason', report.reason,
           'createdAt', report.created_at, 'liftedAt', report.lifted_at,
           'liftedReason', report.lifted_reason) ORDER BY report.created_at DESC, report.id) AS reports
    FROM safety_report report
    JOIN setup reported ON reported.id = report.setup_id
   GROUP BY 1`

const FIELDS = `
  s.id, s.note, s.created_at AS "createdAt", r.reports,
  jsonb_build_object('id', pp.id, 'maker', pp.maker, 'model', pp.model, 'drive', pp.drive, 'tune', pp.tune) AS powerplant,
  jsonb_build_object('id', pr.id, 'maker', pr.maker, 'model', pr.model, 'diameterCm', pr.diameter_cm) AS propeller,
  jsonb_build_object('id', fr.id, 'maker', fr.maker, 'model', fr.model) AS frame`

/** The setup with that id, or the one it was merged into. */
export async function findSetup(source: Queryable, id: string): Promise<SetupRow | null> {
  const { rows } = await source.query<SetupRow>(
    `SELECT ${FIELDS} ${WITH_PARTS}
       JOIN setup asked ON s.id = COALESCE(asked.merged_into_id, asked.id)
       LEFT JOIN (${REPORTS}) AS r ON r.setup_id = s.id
      WHERE asked.id = $1`,
    [id],
  )
  return rows[0] ?? null
}

export interface SetupSearch {
  /** Null: every setup; an empty list matches none. */
  readonly words: readonly SearchWord[] | null
  readonly parts: Partial<PartIds>
  readonly after: Position | null
  readonly limit: number
}

const ALL = 'SELECT id, 1::float8 AS score FROM setup WHERE $1::jsonb IS NULL'
/** Each word counts with the part that it fits best. */
const MATCHING = `
  SELECT id, ${MEAN_CLOSENESS} AS score
    FROM (SELECT s.id, hit.position, max(hit.closeness) AS closeness
            FROM setup s
            CROSS JOIN LATERAL unnest(ARRAY[s.powerplant_id, s.propeller_id, s.frame_id]) AS part (id)
            JOIN component c ON c.id = part.id
            JOIN (${COMPONENT_HITS}) AS hit ON hit.component_id = COALESCE(c.merged_into_id, c.id)
           GROUP BY s.id, hit.position) AS best
   GROUP BY id`

/**
 * Setups in the order of the list, one more than `limit` where there are more. Ranked by what the
 * order needs and then filled in: the page is short, the catalogue is not.
 */
export async function findSetups(
  db: Database,
  { words, parts, after, limit }: SetupSearch,
): Promise<(SetupRow & Position)[]> {
  const sql = `
    WITH matched AS (${words === null ? ALL : MATCHING}),
    ranked AS (
      SELECT s.id, matched.score, pr.diameter_cm AS size,
             lower(concat_ws(' ', pp.maker, pp.model, pr.maker, pr.model, fr.maker, fr.model)) AS name
             ${WITH_PARTS}
        JOIN matched ON matched.id = s.id
       WHERE s.merged_into_id IS NULL
         AND ($2::uuid IS NULL OR pp.id = $2)
         AND ($3::uuid IS NULL OR pr.id = $3)
         AND ($4::uuid IS NULL OR fr.id = $4)),
    page AS (
      SELECT * FROM ranked
       WHERE score >= $5 * (SELECT max(score) FROM ranked) AND score >= $11
         AND ($9::uuid IS NULL OR (-score, name, size, id) > (-$6::float8, $7::text, $8::float8, $9))
       ORDER BY -score, name, size, id
       LIMIT $10)
    SELECT ${FIELDS}, page.score, page.name, page.size ${WITH_PARTS}
      JOIN page ON page.id = s.id
      LEFT JOIN (${REPORTS}) AS r ON r.setup_id = s.id
     ORDER BY -page.score, page.name, page.size, s.id`
  const { powerplantId, propellerId, frameId } = parts
  const position = [after?.score, after?.name, after?.size, after?.id]
  const asked = words === null ? null : JSON.stringify(words)
  const values = [
    asked,
    powerplantId,
    propellerId,
    frameId,
    SHOWN.shareOfBest,
    ...position,
    limit + 1,
    SHOWN.score,
  ]
  return withSearch(db, words, async (source) => {
    return (await source.query<SetupRow & Position>(sql, values)).rows
  })
}

export interface PartRow {
  readonly askedId: string
  /** What the id stands for: the component, or what it was merged into. */
  readonly id: string
  readonly kind: string
}

/** The components behind ids; those that do not exist are left out. */
export async function findParts(client: PoolClient, ids: readonly string[]): Promise<PartRow[]> {
  const { rows } = await client.query<PartRow>(
    `SELECT id AS "askedId", COALESCE(merged_into_id, id) AS id, kind
       FROM component WHERE id = ANY ($1::uuid[])`,
    [ids],
  )
  return rows
}
