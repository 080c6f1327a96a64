import { expect } from 'vitest'

import type { Database } from '../../../src/db/client.ts'

/**
 * Lines requests up for the locks on accounts, in this order, and lets them go together: what
 * happens when they arrive at the same moment, without leaving it to chance.
 */
export async function inOrderOfLock<T>(
  db: Database,
  accountIds: readonly string[],
  requests: readonly (() => Promise<T>)[],
): Promise<T[]> {
  const client = await db.pool.connect()
  try {
    await client.query('BEGIN')
    await client.query('SELECT FROM account WHERE id = ANY($1) FOR UPDATE', [accountIds])
    const answers: Promise<T>[] = []
    for (const send of requests) {
      answers.push(send())
      await expect.poll(() => countWaiting(db), { timeout: 10_000 }).toBe(answers.length)
    }
    await client.query('COMMIT')
    return await Promise.all(answers)
  } finally {
    client.release()
  }
}

async function countWaiting(db: Database): Promise<number> {
  const { rows } = await db.pool.query<{ waiting: number }>(
    `SELECT count(*)::int AS waiting FROM pg_stat_activity
      WHERE datname = current_database() AND wait_event_type = 'Lock'`,
  )
  return rows[0]!.waiting
}
