import type { PoolClient } from 'pg'

import type { MergedPair } from './schema.ts'

export type MergedTable = 'component' | 'setup'

export interface MergeRow {
  readonly id: string
  /** Of a component; null for a setup. */
  readonly kind: string | null
  readonly mergedIntoId: string | null
}

/** The records behind two ids, locked in one order, so that two merges cannot wait for one another. */
export async function lockBoth(
  client: PoolClient,
  table: MergedTable,
  ids: readonly string[],
): Promise<MergeRow[]> {
  const kind = table === 'component' ? 'kind::text' : 'NULL'
  const { rows } = await client.query<MergeRow>(
    `SELECT id::text, ${kind} AS kind, merged_into_id::text AS "mergedIntoId"
       FROM ${table} WHERE id = ANY ($1::uuid[]) ORDER BY id FOR UPDATE`,
    [ids],
  )
  return rows
}

/** Whatever led to the merged record leads to the other one: one step is enough for every reader. */
export async function pointTo(
  client: PoolClient,
  table: MergedTable,
  { mergedId, intoId }: MergedPair,
): Promise<void> {
  await client.query(
    `UPDATE ${table} SET merged_into_id = $2 WHERE id = $1 OR merged_into_id = $1`,
    [mergedId, intoId],
  )
}

/** Setups with a component that are one combination now: each younger one with the oldest of them. */
export async function findTwins(client: PoolClient, componentId: string): Promise<MergedPair[]> {
  const { rows } = await client.query<MergedPair>(
    `WITH alive AS (
       SELECT s.id, s.created_at, COALESCE(pp.merged_into_id, pp.id) AS powerplant,
              COALESCE(pr.merged_into_id, pr.id) AS propeller, COALESCE(fr.merged_into_id, fr.id) AS frame
         FROM setup s
         JOIN component pp ON pp.id = s.powerplant_id
         JOIN component pr ON pr.id = s.propeller_id
         JOIN component fr ON fr.id = s.frame_id
        WHERE s.merged_into_id IS NULL),
     eldest AS (
       SELECT id, first_value(id) OVER (
                PARTITION BY powerplant, propeller, frame ORDER BY created_at, id) AS into_id
         FROM alive WHERE $1::uuid IN (powerplant, propeller, frame))
     SELECT id::text AS "mergedId", into_id::text AS "intoId" FROM eldest WHERE id <> into_id ORDER BY id`,
    [componentId],
  )
  return rows
}

/** Setups that have a component, none merged. */
export async function findSetupsWith(client: PoolClient, componentId: string): Promise<string[]> {
  const { rows } = await client.query<{ id: string }>(
    `SELECT DISTINCT s.id::text AS id
       FROM setup s
       JOIN component part ON part.id IN (s.powerplant_id, s.propeller_id, s.frame_id)
      WHERE s.merged_into_id IS NULL AND COALESCE(part.merged_into_id, part.id) = $1`,
    [componentId],
  )
  return rows.map(({ id }) => id)
}
