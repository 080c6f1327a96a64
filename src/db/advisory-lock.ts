import type { PoolClient } from 'pg'

import type { Database } from './client.ts'

/**
 * Runs `work` on a connection that holds an advisory lock, outside any transaction: processes on one
 * database take turns. A connection that may still hold the lock is not used again.
 */
export async function withAdvisoryLock<T>(
  db: Pick<Database, 'pool'>,
  key: number,
  work: (client: PoolClient) => Promise<T>,
): Promise<T> {
  const client = await db.pool.connect()
  let clean = false
  try {
    await client.query('SELECT pg_advisory_lock($1)', [key])
    try {
      return await work(client)
    } finally {
      await client.query('SELECT pg_advisory_unlock($1)', [key])
      clean = true
    }
  } finally {
    client.release(!clean)
  }
}
