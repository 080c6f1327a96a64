import type { PoolClient } from 'pg'

import { LOCKS } from '../../../db/advisory-lock.ts'
import type { Database } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'
import type { Tables } from '../tables/tables.ts'
import { layoutOf, missingEntries } from './entries-sql.ts'

/** From so many entries written at once on, the database is told; editorial. */
const MANY = 1000

/**
 * Stores what exports need of every entry that counts, where it is not there yet: once for each
 * revision, so that an export only has to read. What an older version stored is thrown away.
 *
 * @returns how many entries were added
 */
export async function prepareEntries(db: Database, tables: Tables): Promise<number> {
  const { thrownAway, added } = await inTransaction(db, async (client) => {
    await client.query('SELECT pg_advisory_xact_lock($1)', [LOCKS.entries])
    const thrownAway = await throwAwayOld(client, layoutOf(tables))
    const missing = await client.query(`INSERT INTO dataset_entry ${missingEntries(tables)}`)
    return { thrownAway, added: missing.rowCount! }
  })
  // Else the planner expects hardly any entry of a new layout, and joins many of them one by one; and
  // whoever reads an entry for the first time, in the order of the keys, writes its page once more.
  if (thrownAway + added >= MANY) await db.pool.query('VACUUM (ANALYZE) dataset_entry')
  return added
}

async function throwAwayOld(client: PoolClient, layout: string): Promise<number> {
  const isOld = 'layout < $1 OR layout > $1' // as an index finds it
  const { rowCount } = await client.query(`SELECT FROM dataset_entry WHERE ${isOld} LIMIT 1`, [
    layout,
  ])
  if (rowCount === 0) return 0 // what exports have stored goes with any deletion
  return (await client.query(`DELETE FROM dataset_entry WHERE ${isOld}`, [layout])).rowCount!
}

/**
 * The temporary table dataset_late: entries that the snapshot of this transaction sees and nothing is
 * stored for, since they came between {@link prepareEntries} and the snapshot. Mostly none.
 */
export async function collectLateEntries(client: PoolClient, tables: Tables): Promise<void> {
  await client.query(
    `CREATE TEMP TABLE dataset_late ON COMMIT DROP AS ${missingEntries(tables)};
     CREATE INDEX ON dataset_late (revision_id, entry_index)`,
  )
}
