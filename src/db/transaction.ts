import type { PoolClient } from 'pg'

import type { Database } from './client.ts'

/** Runs `work` in one transaction: committed when it resolves, rolled back when it throws. */
export async function inTransaction<T>(
  db: Pick<Database, 'pool'>,
  work: (client: PoolClient) => Promise<T>,
): Promise<T> {
  const client = await db.pool.connect()
  let broken: Error | undefined
  try {
    await client.query('BEGIN')
    const result = await work(client)
    await client.query('COMMIT')
    return result
  } catch (error) {
    await client.query('ROLLBACK').catch((cause: Error) => {
      broken = cause // the connection is gone; the server rolls back by itself
    })
    throw error
  } finally {
    client.release(broken)
  }
}
