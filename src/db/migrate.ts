import { randomUUID } from 'node:crypto'

import type { Pool, PoolClient } from 'pg'

import { MIGRATIONS_FOLDER, type Migration, readMigrations } from './migration-files.ts'
import { errorCode, messageOf, StartFault } from './start-fault.ts'
import { inTransaction } from './transaction.ts'

/** PostgreSQL 15.0, as in server_version_num. */
const OLDEST_SERVER = 150_000

/** The key Prisma's own tools lock while they migrate, so that they and this runner exclude each other. */
const LOCK_KEY = 72_707_369

/** The table of Prisma's own tools, so that either can carry on where the other stopped. */
const CREATE_HISTORY = `
  CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
    "id"                  VARCHAR(36) PRIMARY KEY NOT NULL,
    "checksum"            VARCHAR(64) NOT NULL,
    "finished_at"         TIMESTAMPTZ,
    "migration_name"      VARCHAR(255) NOT NULL,
    "logs"                TEXT,
    "rolled_back_at"      TIMESTAMPTZ,
    "started_at"          TIMESTAMPTZ NOT NULL DEFAULT now(),
    "applied_steps_count" INTEGER NOT NULL DEFAULT 0
  )`

interface HistoryRow {
  readonly migration_name: string
  readonly checksum: string
  readonly finished_at: Date | null
}

/**
 * Brings the schema of a database up to date: every migration that it lacks, in order, each in its
 * own transaction under an advisory lock. Processes that start together take turns.
 *
 * @returns names of the migrations that were applied now
 * @throws {StartFault} where the server is too old, or the history of the database is not a
 *   beginning of the migrations of this version, or a migration fails (it then leaves nothing behind)
 */
export async function migrate(
  db: { readonly pool: Pool },
  folder: string = MIGRATIONS_FOLDER,
): Promise<string[]> {
  refuseOldServer(await serverVersion(db.pool))
  const migrations = await readMigrations(folder)
  const applied: string[] = []
  for (;;) {
    const name = await inTransaction(db, (client) => applyNext(client, migrations)).catch(explain)
    if (name === null) return applied
    applied.push(name)
  }
}

interface ServerVersion {
  readonly number: number
  readonly version: string
}

async function serverVersion(pool: Pool): Promise<ServerVersion> {
  const { rows } = await pool.query<ServerVersion>(
    `SELECT current_setting('server_version_num')::int AS number,
            current_setting('server_version') AS version`,
  )
  return rows[0]!
}

/** @throws {StartFault} where a server is older than what the migrations are written for */
export function refuseOldServer(server: ServerVersion): void {
  if (!(server.number >= OLDEST_SERVER)) {
    throw new StartFault(
      `The database server is PostgreSQL ${server.version}; version 15 or newer is needed.`,
    )
  }
}

async function applyNext(
  client: PoolClient,
  migrations: readonly Migration[],
): Promise<string | null> {
  await client.query('SELECT pg_advisory_xact_lock($1)', [LOCK_KEY])
  const history = await readHistory(client)
  refuseForeignHistory(history, migrations)
  const next = migrations[history.length]
  if (next === undefined) return null
  await apply(client, next)
  return next.name
}

async function readHistory(client: PoolClient): Promise<HistoryRow[]> {
  const known = await client.query(`SELECT to_regclass('_prisma_migrations') IS NOT NULL AS exists`)
  if (known.rows[0].exists !== true) await client.query(CREATE_HISTORY)
  const { rows } = await client.query<HistoryRow>(
    `SELECT migration_name, checksum, finished_at FROM "_prisma_migrations"
      WHERE rolled_back_at IS NULL
      ORDER BY migration_name COLLATE "C"`,
  )
  return rows
}

function refuseForeignHistory(
  history: readonly HistoryRow[],
  migrations: readonly Migration[],
): void {
  const known = new Map(migrations.map((migration) => [migration.name, migration]))
  history.forEach((row, index) => {
    const name = row.migration_name
    const migration = known.get(name)
    if (migration === undefined) {
      throw new StartFault(
        `The database has the migration ${name}, which this version does not know: it was last used by a newer version; start that one or restore a backup.`,
      )
    }
    if (row.finished_at === null) {
      throw new StartFault(
        `The migration ${name} was begun in this database by another tool and never finished; restore a backup or repair it by hand.`,
      )
    }
    if (migration.checksum !== row.checksum) {
      throw new StartFault(
        `The migration ${name} was edited after it had been applied to this database; put the file back as it was and write the change as a new migration.`,
      )
    }
    const expected = migrations[index]!.name
    if (expected !== name) {
      throw new StartFault(
        `The database has the migration ${name} but not ${expected}, which comes before it; migrations can only be added at the end.`,
      )
    }
  })
}

function explain(error: unknown): never {
  if (errorCode(error) !== '42501') throw error
  throw new StartFault(
    `The database user may not make tables: ${messageOf(error)}; make it the owner of the database.`,
  )
}

async function apply(client: PoolClient, { name, sql, checksum }: Migration): Promise<void> {
  const startedAt = new Date()
  try {
    await client.query(sql)
  } catch (error) {
    throw new StartFault(`The migration ${name} failed and was undone: ${messageOf(error)}.`)
  }
  await client.query(
    `INSERT INTO "_prisma_migrations"
       (id, checksum, migration_name, started_at, finished_at, applied_steps_count)
     VALUES ($1, $2, $3, $4, clock_timestamp(), 1)`,
    [randomUUID(), checksum, name, startedAt],
  )
}
