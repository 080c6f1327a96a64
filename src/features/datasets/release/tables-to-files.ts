import type { PoolClient } from 'pg'
import { to as copyTo } from 'pg-copy-streams'

import { copiedBlocks } from '../files/copied-blocks.ts'
import { csvHeader, csvRows, type Row } from '../files/csv.ts'
import { csvOfBlocks } from '../files/csv-of-blocks.ts'
import { type MakeRowGroups, parquetFromBlocks } from '../files/parquet.ts'
import { rowBlock } from '../files/row-blocks.ts'
import { FileStore, type StoredFile } from '../files/store.ts'
import type { Column } from '../tables/column.ts'
import type { Table } from '../tables/tables.ts'

export const CSV_TYPE = 'text/csv; charset=utf-8; header=present'
export const PARQUET_TYPE = 'application/vnd.apache.parquet'

/** The blocks of rows that a select of heads and rows gives, streamed out of the database. */
export async function* copyBlocks(client: PoolClient, select: string): AsyncGenerator<Buffer> {
  const copied = client.query(copyTo(`COPY (${select}) TO STDOUT (FORMAT binary)`))
  try {
    yield* copiedBlocks(copied.iterator({ destroyOnReturn: false }))
  } finally {
    // Given up in the middle: nothing else comes over this connection until the rest is read.
    copied.on('error', () => {}).resume()
  }
}

/** Rows that become text at once; a fit has a row for every two setups. */
const ROWS_IN_EACH = 4096

/** Rows as blocks without a head, so many rows in each. */
export function* blocksOfRows(
  columns: readonly Column[],
  rows: readonly Row[],
  rowsInEach = ROWS_IN_EACH,
): Generator<Buffer> {
  for (let at = 0; at < rows.length; at += rowsInEach) {
    yield rowBlock('', csvRows(columns, rows.slice(at, at + rowsInEach)))
  }
}

/** A CSV file of blocks of rows. */
export async function* csvFromBlocks(
  columns: readonly Column[],
  blocks: AsyncIterable<Uint8Array>,
): AsyncGenerator<Uint8Array> {
  yield Buffer.from(csvHeader(columns))
  for await (const some of blocks) yield csvOfBlocks(some)
}

/** Where the files of a table go, and what makes row groups. */
export interface FileMaking {
  readonly client: PoolClient
  readonly makeGroups: MakeRowGroups
}

/**
 * A table as its two files, both made of the same blocks in one pass over them.
 *
 * @param blocks each piece some whole ones
 */
export async function storeTable(
  { client, makeGroups }: FileMaking,
  { name, columns }: Pick<Table, 'name' | 'columns'>,
  blocks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): Promise<StoredFile[]> {
  const csv = new FileStore(client, { name: `${name}.csv`, mediaType: CSV_TYPE })
  const parquet = new FileStore(client, { name: `${name}.parquet`, mediaType: PARQUET_TYPE })
  await csv.add(Buffer.from(csvHeader(columns)))
  const storedAsCsv = async function* () {
    for await (const some of blocks) {
      await csv.add(csvOfBlocks(some))
      yield some
    }
  }
  const parts = parquetFromBlocks(columns, storedAsCsv(), makeGroups)
  for await (const part of parts) await parquet.add(part)
  return [await csv.end(), await parquet.end()]
}
