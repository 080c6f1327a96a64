import { createHash, randomBytes } from 'node:crypto'
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

import type { Pool } from 'pg'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'

import { openDatabase } from '../../src/db/client.ts'
import { migrate, refuseOldServer } from '../../src/db/migrate.ts'
import { createScratchDatabase } from '../support/database.ts'

describe('migrate', () => {
  let folder: string
  let pool: Pool
  let address: string
  let drop: () => Promise<void>

  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'fairclimb-migrations-'))
    const scratch = await createScratchDatabase()
    const db = openDatabase(scratch.url)
    pool = db.pool
    address = scratch.url
    drop = async () => {
      await db.close()
      await scratch.drop()
    }
  })

  afterEach(async () => {
    await drop()
    await rm(folder, { recursive: true })
  })

  const write = async (name: string, sql: string) => {
    await mkdir(join(folder, name), { recursive: true })
    await writeFile(join(folder, name, 'migration.sql'), sql)
  }

  const history = async () =>
    (await pool.query('SELECT * FROM _prisma_migrations ORDER BY started_at')).rows

  it('applies every migration in the order of their names, and none twice', async () => {
    await write('0002_second', 'ALTER TABLE a ADD COLUMN y INTEGER')
    await write('0001_first', 'CREATE TABLE a (x INTEGER); INSERT INTO a VALUES (1);')

    expect(await migrate({ pool }, folder)).toEqual(['0001_first', '0002_second'])
    expect(await migrate({ pool }, folder)).toEqual([])
    expect((await pool.query('SELECT x, y FROM a')).rows).toEqual([{ x: 1, y: null }])
  })

  it('applies only what is missing', async () => {
    await write('0001_first', 'CREATE TABLE a (x INTEGER)')
    await migrate({ pool }, folder)
    await write('0002_second', 'CREATE TABLE b (x INTEGER)')

    expect(await migrate({ pool }, folder)).toEqual(['0002_second'])
  })

  it('records what it did as the tools of Prisma do', async () => {
    const sql = 'CREATE TABLE a (x INTEGER)\n'
    await write('0001_first', sql)
    await migrate({ pool }, folder)

    expect(await history()).toEqual([
      {
        id: expect.stringMatching(/^[0-9a-f-]{36}$/),
        checksum: createHash('sha256').update(sql).digest('hex'),
        finished_at: expect.any(Date),
        migration_name: '0001_first',
        logs: null,
        rolled_back_at: null,
        started_at: expect.any(Date),
        applied_steps_count: 1,
      },
    ])
  })

  it('takes a checkout with Windows line ends for the same migration', async () => {
    await write('0001_first', 'CREATE TABLE a (\n  x INTEGER\n)\n')
    await migrate({ pool }, folder)
    await write('0001_first', 'CREATE TABLE a (\r\n  x INTEGER\r\n)\r\n')

    expect(await migrate({ pool }, folder)).toEqual([])
  })

  it('leaves nothing of a migration that fails, and keeps those before it', async () => {
    await write('0001_first', 'CREATE TABLE a (x INTEGER)')
    await write('0002_second', 'CREATE TABLE b (x INTEGER); SELECT 1 / 0;')

    await expect(migrate({ pool }, folder)).rejects.toThrow(
      'The migration 0002_second failed and was undone: division by zero.',
    )
    expect((await history()).map((row) => row.migration_name)).toEqual(['0001_first'])
    expect((await pool.query(`SELECT to_regclass('b') AS b`)).rows).toEqual([{ b: null }])
  })

  it('refuses a migration that was edited after it had been applied', async () => {
    await write('0001_first', 'CREATE TABLE a (x INTEGER)')
    await migrate({ pool }, folder)
    await write('0001_first', 'CREATE TABLE a (x BIGINT)')

    await expect(migrate({ pool }, folder)).rejects.toThrow(/0001_first was edited after/)
  })

  it('refuses a database that a newer version has migrated', async () => {
    await write('0001_first', 'CREATE TABLE a (x INTEGER)')
    await write('0002_second', 'CREATE TABLE b (x INTEGER)')
    await migrate({ pool }, folder)
    await rm(join(folder, '0002_second'), { recursive: true })

    await expect(migrate({ pool }, folder)).rejects.toThrow(
      /0002_second, which this version does not know: it was last used by a newer version/,
    )
  })

  it('refuses a migration that was slipped in before one that is applied', async () => {
    await write('0002_second', 'CREATE TABLE b (x INTEGER)')
    await migrate({ pool }, folder)
    await write('0001_first', 'CREATE TABLE a (x INTEGER)')

    await expect(migrate({ pool }, folder)).rejects.toThrow(
      /has the migration 0002_second but not 0001_first, which comes before it/,
    )
  })

  it('refuses a migration that another tool began and did not finish', async () => {
    await write('0001_first', 'CREATE TABLE a (x INTEGER)')
    await migrate({ pool }, folder)
    await pool.query('UPDATE _prisma_migrations SET finished_at = NULL')

    await expect(migrate({ pool }, folder)).rejects.toThrow(
      /0001_first was begun .* never finished/,
    )
  })

  it('lets processes that start together take turns', async () => {
    await write('0001_first', 'CREATE TABLE a (x INTEGER)')
    await write('0002_second', 'CREATE TABLE b (x INTEGER)')

    const applied = await Promise.all(Array.from({ length: 6 }, () => migrate({ pool }, folder)))
    expect(applied.flat().sort()).toEqual(['0001_first', '0002_second'])
  })

  it('refuses a server before PostgreSQL 15, and no later one', () => {
    expect(() => refuseOldServer({ number: 140_012, version: '14.12' })).toThrow(
      'The database server is PostgreSQL 14.12; version 15 or newer is needed.',
    )
    expect(() => refuseOldServer({ number: 150_000, version: '15.0' })).not.toThrow()
    expect(() => refuseOldServer({ number: 180_004, version: '18.4' })).not.toThrow()
  })

  it('says so where the user may not make tables', async () => {
    const role = `visitor_${randomBytes(4).toString('hex')}`
    await pool.query(`CREATE ROLE ${role} LOGIN PASSWORD 'visitor'`)
    const url = new URL(address)
    url.username = role
    url.password = 'visitor'
    const visitor = openDatabase(url.href)
    try {
      await expect(migrate(visitor, folder)).rejects.toThrow(
        /^The database user may not make tables/,
      )
    } finally {
      await visitor.close()
      await pool.query(`DROP ROLE ${role}`)
    }
  })
})
