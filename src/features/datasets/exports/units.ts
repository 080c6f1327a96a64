import { randomUUID } from 'node:crypto'

import type { PoolClient } from 'pg'

import { LOCKS, withAdvisoryLock } from '../../../db/advisory-lock.ts'
import type { Database } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'
import { layoutOf } from '../entries/entries-sql.ts'
import { prepareEntries } from '../entries/prepare.ts'
import { anonymise } from '../privacy/anonymise.ts'
import { UNITS } from '../privacy/units-sql.ts'
import type { Tables } from '../tables/tables.ts'
import { findCurrentState, findState, readEvidence } from './state.ts'

/**
 * Stores keys and classes of the evidence of this moment, unless they are there: once for all exports
 * until the evidence changes. Whoever reads meanwhile reads those of the state before.
 */
export async function prepareUnits(db: Database, tables: Tables): Promise<void> {
  const current = await findCurrentState(db.pool, layoutOf(tables))
  if (current?.isWhole) return
  const added = await prepareEntries(db, tables)
  if (current !== null && added === 0) return
  await withAdvisoryLock(db, LOCKS.entries, () =>
    inTransaction(db, (client) => storeUnits(client, layoutOf(tables))),
  )
}

async function storeUnits(client: PoolClient, layout: string): Promise<void> {
  await client.query('SET TRANSACTION ISOLATION LEVEL REPEATABLE READ')
  const { version, submissions } = await readEvidence(client, layout)
  const stored = await findState(client)
  if (stored?.version === version && stored.isWhole) return // another process was first
  const salt = randomUUID()
  await client.query('DELETE FROM export_state')
  await client.query('DELETE FROM export_unit')
  // What has come since the entries were stored waits for the next look: the state is not whole then.
  await client.query('CREATE TEMP TABLE dataset_late (LIKE dataset_entry) ON COMMIT DROP')
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
