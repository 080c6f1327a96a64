import { randomUUID } from 'node:crypto'

import type { PoolClient } from 'pg'

import { LOCKS, withAdvisoryLock } from '../../../db/advisory-lock.ts'
import type { Database } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'
import { layoutOf } from '../entries/entries-sql.ts'
import { prepareEntries, storeMissingEntries } from '../entries/prepare.ts'
import { anonymise } from '../privacy/anonymise.ts'
import { UNITS } from '../privacy/units-sql.ts'
import type { Tables } from '../tables/tables.ts'
import { type ExportState, findState, readEvidence } from './state.ts'

/**
 * Stores keys and classes of the evidence of this moment, unless they are there: once for all exports
 * until the evidence changes. Whoever reads meanwhile reads those of the state before.
 */
export async function prepareUnits(db: Database, tables: Tables): Promise<void> {
  const { version } = await readEvidence(db.pool, layoutOf(tables))
  const found = await findState(db.pool)
  const isCurrent = found?.version === version
  if (isCurrent && found.isWhole) return
  const added = await prepareEntries(db, tables)
  if (isCurrent && added === 0) return
  // What comes meanwhile waits for the lock, so that the snapshot lacks no entry that it would be given.
  await withAdvisoryLock(db, LOCKS.entries, () =>
    inTransaction(db, (client) => storeUnits(client, tables, found)),
  )
}

async function storeUnits(
  client: PoolClient,
  tables: Tables,
  before: ExportState | null,
): Promise<void> {
  await client.query('SET TRANSACTION ISOLATION LEVEL REPEATABLE READ')
  const layout = layoutOf(tables)
  const { version, submissions } = await readEvidence(client, layout)
  const found = await findState(client)
  if (found?.version === version && found.salt !== before?.salt) return // another process was first
  await storeMissingEntries(client, tables)
  await client.query('CREATE TEMP TABLE dataset_late (LIKE dataset_entry) ON COMMIT DROP')
  const salt = randomUUID()
  await client.query('DELETE FROM export_state')
  await client.query('DELETE FROM export_unit')
  const { sessions } = await anonymise(client, { layout, salt }, PUT_UNITS)
  await client.query('INSERT INTO export_state (version, salt, is_whole) VALUES ($1, $2, $3)', [
    ...[version, salt],
    sessions === submissions,
  ])
}

const PUT_UNITS = `
  INSERT INTO export_unit (position, revision_id, entry_index, setup_id, session_key, pilot_key, shown)
  SELECT row_number() OVER (ORDER BY session_key, entry_index), revision_id, entry_index, setup_id,
         session_key, pilot_key, shown
    FROM (${UNITS}) unit`
