import { randomUUID } from 'node:crypto'
import { Readable } from 'node:stream'

import type { PoolClient } from 'pg'

import type { Database } from '../../../db/client.ts'
import { layoutOf } from '../entries/entries-sql.ts'
import { collectLateEntries, prepareEntries } from '../entries/prepare.ts'
import { runsSelect } from '../entries/runs-select.ts'
import { ndjsonFromBlocks } from '../files/ndjson.ts'
import { type MakeRowGroups, parquetFromBlocks } from '../files/parquet.ts'
import { anonymise } from '../privacy/anonymise.ts'
import { CSV_TYPE, copyBlocks, csvFromBlocks, PARQUET_TYPE } from '../release/tables-to-files.ts'
import type { ExportQuery } from '../schema.ts'
import type { Tables } from '../tables/tables.ts'
import { applyFilter } from './filter.ts'
import { exportTag, findVersion, saltOf } from './live-version.ts'

export const EXPORT_TYPES: Readonly<Record<ExportQuery['format'], string>> = {
  csv: CSV_TYPE,
  ndjson: 'application/x-ndjson; charset=utf-8',
  parquet: PARQUET_TYPE,
}

/** How often a state of the evidence is looked for that stays while a snapshot is taken of it. */
const ATTEMPTS = 3

/** What live exports are made with. */
export interface ExportSource {
  readonly db: Database
  readonly tables: Tables
  readonly makeGroups: MakeRowGroups
}

/** The name that the export has in this moment; its bytes are worked out by {@link openExport}. */
export async function currentTag(
  { db: { pool }, tables }: Pick<ExportSource, 'db' | 'tables'>,
  query: ExportQuery,
): Promise<string> {
  const version = await findVersion(pool, layoutOf(tables))
  return exportTag(version, await saltOf(pool, version), query)
}

/** A live export, and the strong tag of its bytes; null where the evidence changed all the while. */
export interface OpenExport {
  readonly tag: string | null
  readonly bytes: Readable
}

/**
 * The runs of this moment, with the columns and the privacy of a release. Keys are drawn anew for
 * every state of the evidence; the same state and question have the same bytes. Bytes come as the
 * database gives them; nothing is gathered.
 */
export async function openExport(source: ExportSource, query: ExportQuery): Promise<OpenExport> {
  const { db, tables } = source
  const layout = layoutOf(tables)
  await prepareEntries(db, tables)
  for (let attempt = 1; ; attempt++) {
    const expected = await findVersion(db.pool, layout)
    const salt = await saltOf(db.pool, expected)
    const client = await db.pool.connect()
    try {
      await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ')
      const isSame = (await findVersion(client, layout)) === expected
      if (isSame || attempt === ATTEMPTS) {
        const keys = { layout, salt: isSame ? salt : randomUUID() }
        const bytes = streamOf(client, exported(client, source, { query, keys }))
        return { tag: isSame ? exportTag(expected, salt, query) : null, bytes }
      }
      await client.query('ROLLBACK')
      client.release()
    } catch (error) {
      client.release(true)
      throw error
    }
  }
}

/** A stream that gives its connection back when it ends or is given up. */
function streamOf(client: PoolClient, bytes: AsyncIterable<Uint8Array>): Readable {
  const stream = Readable.from(bytes, { objectMode: false })
  // Who goes away in the middle leaves a COPY that has no end but that of its connection.
  return stream.once('close', () => client.release(!stream.readableEnded))
}

async function* exported(
  client: PoolClient,
  source: ExportSource,
  { query, keys }: { readonly query: ExportQuery; readonly keys: Parameters<typeof anonymise>[1] },
): AsyncGenerator<Uint8Array> {
  await collectLateEntries(client, source.tables)
  await anonymise(client, keys)
  await applyFilter(client, query)
  yield* formatted(client, query, source)
  await client.query('COMMIT')
}

function formatted(
  client: PoolClient,
  { format, kind }: ExportQuery,
  { tables, makeGroups }: ExportSource,
): AsyncGenerator<Uint8Array> {
  const { columns } = tables.all.runs
  const blocks = copyBlocks(client, runsSelect(kind))
  switch (format) {
    case 'csv':
      return csvFromBlocks(columns, blocks)
    case 'ndjson':
      return ndjsonFromBlocks(columns, blocks)
    case 'parquet':
      return parquetFromBlocks(columns, blocks, makeGroups)
  }
}
