import type { Database } from '../../db/client.ts'

/** The smallest question there is. */
export async function askDatabase(db: Database): Promise<void> {
  await db.pool.query('SELECT 1')
}
