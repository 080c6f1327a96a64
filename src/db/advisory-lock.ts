import type { PoolClient } from 'pg'

import type { Database } from './client.ts'

/** Keys of what processes on one database take turns at, in one place: two that were alike would wait for each other. */
export const LOCKS = {
  /** Evidence is read and the current fit set. */
  refresh: 7_310_001,
  /** A release is made, until it is published. */
  release: 7_310_002,
  /** Requests for releases are worked off. */
  releaseRequests: 7_310_003,
  /** What stands beside a fit is made: once, however many processes there are. */
  companions: 7_310_004,
  /** Cells of exports are stored. */
  entries: 7_310_005,
} as const

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
