import type { Pool, PoolClient } from 'pg'

import type { Database } from '../../db/client.ts'
import { inTransaction } from '../../db/transaction.ts'
import type { SearchWord } from './search-words.ts'

export type Queryable = Pick<Pool | PoolClient, 'query'>

/** Below this a word does not match a name; a slip in a word of four letters still leaves 0.25. */
const WORD_THRESHOLD = '0.25'
/** What is shown of the matches: at least this share of the best score, and at least this score. */
export const SHOWN = { shareOfBest: 0.7, score: 0.2 }

/**
 * How well components match each word: (component_id, position, closeness 0 to 1). Parameter $1 is
 * a JSON array of SearchWord, null without a search. A merged duplicate's name finds its survivor.
 *
 * Raw SQL: trigram operators. `%>` must stand on the expression of component_name_trgm_idx to use it.
 */
export const COMPONENT_HITS = `
  SELECT component_id, position, max(closeness) AS closeness
    FROM (SELECT COALESCE(c.merged_into_id, c.id) AS component_id, w.position,
                 w.weight * word_similarity(w.word, c.maker || ' ' || c.model) AS closeness
            FROM jsonb_to_recordset($1::jsonb) AS w (word text, position int, weight float8)
            JOIN component c ON (c.maker || ' ' || c.model) %> w.word
          UNION ALL
          SELECT COALESCE(c.merged_into_id, c.id), w.position, 1
            FROM jsonb_to_recordset($1::jsonb) AS w (position int, size float8)
            JOIN component c ON w.size IN (c.diameter_cm, c.flat_area_m2, c.displacement_cc)) AS reading
   GROUP BY component_id, position`

/** Mean closeness over all words of the query, rounded so that it survives a cursor. */
export const MEAN_CLOSENESS = `
  round((sum(closeness) / (SELECT count(DISTINCT w.position)
                             FROM jsonb_to_recordset($1::jsonb) AS w (position int)))::numeric, 4)::float8`

/** Runs a query around {@link COMPONENT_HITS} with the threshold it needs. */
export async function withSearch<T>(
  db: Database,
  words: readonly SearchWord[] | null,
  work: (source: Queryable) => Promise<T>,
): Promise<T> {
  if (words === null) return work(db.pool)
  return inTransaction(db, async (client) => {
    await client.query("SELECT set_config('pg_trgm.word_similarity_threshold', $1, true)", [
      WORD_THRESHOLD,
    ])
    return work(client)
  })
}
