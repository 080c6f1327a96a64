import { createHash } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

/** The same from src/db and from dist/db. */
export const MIGRATIONS_FOLDER = fileURLToPath(new URL('../../prisma/migrations', import.meta.url))

/** One step of the schema: prisma/migrations/<name>/migration.sql. */
export interface Migration {
  readonly name: string
  readonly sql: string
  /** SHA-256 of the file, hexadecimal. */
  readonly checksum: string
}

/** Every migration of a folder in Prisma's layout, in the order of their names. */
export async function readMigrations(folder: string): Promise<Migration[]> {
  const entries = await readdir(folder, { withFileTypes: true })
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name)
  return Promise.all(
    names.sort().map(async (name) => {
      const text = await readFile(join(folder, name, 'migration.sql'), 'utf8')
      // A checkout with Windows line ends is the same migration.
      const sql = text.replaceAll('\r\n', '\n')
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') }
    }),
  )
}
