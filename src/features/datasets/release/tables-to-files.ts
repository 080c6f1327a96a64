import type { PoolClient } from 'pg'
import { to as copyTo } from 'pg-copy-streams'

import { copiedTexts } from '../files/copied-texts.ts'
import { csvHeader } from '../files/csv.ts'
import { type MakeRowGroups, parquetFromCsv } from '../files/parquet.ts'
import { FileStore, type StoredFile } from '../files/store.ts'
import type { Table } from '../tables/tables.ts'

export const CSV_TYPE = 'text/csv; charset=utf-8; header=present'
export const PARQUET_TYPE = 'application/vnd.apache.parquet'

/** The lines that a select gives, streamed out of the database; no header. */
export async function* copyLines(client: PoolClient, select: string): AsyncGenerator<Buffer> {
  const copied = client.query(copyTo(`COPY (${select}) TO STDOUT (FORMAT binary)`))
  try {
    yield* copiedTexts(copied.iterator({ destroyOnReturn: false }))
  } finally {
    // Given up in the middle: nothing else comes over this connection until the rest is read.
    copied.on('error', () => {}).resume()
  }
}

/** The same as a CSV file. */
export async function* copyCsv(
  client: PoolClient,
  { columns }: Pick<Table, 'columns'>,
  select: string,
): AsyncGenerator<Buffer> {
  yield Buffer.from(csvHeader(columns))
  yield* copyLines(client, select)
}

/** Where the files of a table go, and what makes row groups. */
export interface FileMaking {
  readonly client: PoolClient
  readonly makeGroups: MakeRowGroups
}

/**
 * A table as its two files, both made of the same bytes in one pass over them.
 *
 * @param csv header first; each piece ends where a row does
 */
export async function storeTable(
  { client, makeGroups }: FileMaking,
  { name, columns }: Pick<Table, 'name' | 'columns'>,
  csv: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): Promise<StoredFile[]> {
  const text = new FileStore(client, { name: `${name}.csv`, mediaType: CSV_TYPE })
  const parquet = new FileStore(client, { name: `${name}.parquet`, mediaType: PARQUET_TYPE })
  const rows = async function* () {
    let headerBytes = csvHeader(columns).length
    for await (const piece of csv) {
      await text.add(piece)
      const skipped = Math.min(headerBytes, piece.length)
      headerBytes -= skipped
      yield piece.subarray(skipped)
    }
  }
  for await (const part of parquetFromCsv(columns, rows(), makeGroups)) await parquet.add(part)
  return [await text.end(), await parquet.end()]
}
