import type { Pool, PoolClient } from 'pg'

type Queryable = Pick<Pool | PoolClient, 'query'>

/** A part of a setup by its name. */
export interface NamedPart {
  readonly kind: string
  readonly maker: string
  readonly model: string
}

/** Per name the parts that bear it, merged ones as their survivor, whatever the case of the letters. */
export async function findPartsByName(
  source: Queryable,
  parts: readonly NamedPart[],
): Promise<string[][]> {
  const { rows } = await source.query<{ ids: string[] }>(
    `SELECT array_remove(array_agg(DISTINCT COALESCE(c.merged_into_id, c.id)), NULL)::text[] AS ids
       FROM unnest($1::text[], $2::text[], $3::text[]) WITH ORDINALITY AS asked(kind, maker, model, place)
       LEFT JOIN component c ON c.kind = asked.kind AND lower(c.maker) = lower(asked.maker)
            AND lower(c.model) = lower(asked.model)
      GROUP BY asked.place ORDER BY asked.place`,
    [parts.map((p) => p.kind), parts.map((p) => p.maker), parts.map((p) => p.model)],
  )
  return rows.map(({ ids }) => ids)
}

/** Per triple of powerplant, propeller and frame the setup they make, or null. */
export async function findSetupsOfParts(
  source: Queryable,
  triples: readonly (readonly string[])[],
): Promise<(string | null)[]> {
  const { rows } = await source.query<{ id: string | null }>(
    `SELECT min(known.id) AS id
       FROM unnest($1::uuid[], $2::uuid[], $3::uuid[]) WITH ORDINALITY AS asked(powerplant, propeller, frame, place)
       LEFT JOIN (
         SELECT COALESCE(setup.merged_into_id, setup.id)::text AS id,
                COALESCE(powerplant.merged_into_id, powerplant.id) AS powerplant,
                COALESCE(propeller.merged_into_id, propeller.id) AS propeller,
                COALESCE(frame.merged_into_id, frame.id) AS frame
           FROM setup
           JOIN component powerplant ON powerplant.id = setup.powerplant_id
           JOIN component propeller ON propeller.id = setup.propeller_id
           JOIN component frame ON frame.id = setup.frame_id) known
         ON known.powerplant = asked.powerplant AND known.propeller = asked.propeller
            AND known.frame = asked.frame
      GROUP BY asked.place ORDER BY asked.place`,
    [0, 1, 2].map((i) => triples.map((triple) => triple[i])),
  )
  return rows.map(({ id }) => id)
}
