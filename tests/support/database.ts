import { randomBytes } from 'node:crypto'

import { inject } from 'vitest'

import { type Database, openDatabase } from '../../src/db/client.ts'
import { queryOnce, withDatabase } from './admin.ts'

export interface TestDatabase {
  readonly db: Database
  readonly url: string
  /** Closes the pool and removes the database. */
  drop(): Promise<void>
}

/** A fresh database with every migration, for one test file. Drop it in afterAll. */
export async function createTestDatabase(): Promise<TestDatabase> {
  const scratch = await createScratchDatabase(`${inject('testServer').prefix}_template`)
  const db = openDatabase(scratch.url)
  return {
    db,
    url: scratch.url,
    async drop() {
      await db.close()
      await scratch.drop()
    },
  }
}

/** A database without any table, or a copy of another. */
export async function createScratchDatabase(
  template = 'template0',
): Promise<{ readonly url: string; drop(): Promise<void> }> {
  const { adminUrl, prefix } = inject('testServer')
  const name = `${prefix}_${randomBytes(6).toString('hex')}`
  await queryOnce(adminUrl, `CREATE DATABASE ${name} TEMPLATE ${template}`)
  return {
    url: withDatabase(adminUrl, name),
    async drop() {
      await queryOnce(adminUrl, `DROP DATABASE ${name} WITH (FORCE)`)
    },
  }
}
