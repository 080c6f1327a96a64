import type { PoolClient } from 'pg'

import { LOCKS } from '../../../db/advisory-lock.ts'
import type { Database } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'
import type { Tables } from '../tables/tables.ts'
import { layoutOf, missingEntries } from './entries-sql.ts'

/**
 * Stores what exports need of every entry that counts, where it is not there yet: once for each
 * revision, so that an export only has to read. What an older version stored is thrown away.
 *
 * @returns how many entries were added
 */
export async function prepareEntries(db: Database, tables: Tables): Promise<number> {
  return inTransaction(db, async (client) => {
    await client.query('SELECT pg_advisory_xact_lock($1)', [LOCKS.entries])
    await client.query('DELETE FROM dataset_entry WHERE layout <> $1', [layoutOf(tables)])
    const { rowCount } = await client.query(
      `INSERT INTO dataset_entry ${missingEntries(tables)} ON CONFLICT DO NOTHING`,
    )
    return rowCount ?? 0
  })
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
