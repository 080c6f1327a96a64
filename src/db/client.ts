import { PrismaPg } from '@prisma/adapter-pg'
import pg from 'pg'

import { PrismaClient } from './generated/client.ts'

/** One pool with two faces: Prisma for records, SQL for sets of rows. */
export interface Database {
  readonly pool: pg.Pool
  readonly prisma: PrismaClient
  close(): Promise<void>
}

/** Opens the pool; connections are made on first use. */
export function openDatabase(connectionString: string, maxConnections = 16): Database {
  const pool = new pg.Pool({ connectionString, max: maxConnections })
  // An idle connection may be cut at any time (restart, failover); the next query opens another.
  pool.on('error', () => {})
  // Nor may one that is in somebody's hands: his next query fails, the process goes on.
  pool.on('connect', (client) => client.on('error', () => {}))
  const prisma = new PrismaClient({ adapter: new PrismaPg(pool) })
  return {
    pool,
    prisma,
    async close() {
      await prisma.$disconnect()
      await pool.end()
    },
  }
}
