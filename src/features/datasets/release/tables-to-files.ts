import type { PoolClient } from 'pg'
import { to as copyTo } from 'pg-copy-streams'

import { copiedTexts } from '../files/copied-texts.ts'
import { csvHeader } from '../files/csv.ts'
import { ParquetOfCsv } from '../files/parquet.ts'
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

/** A table as its two files, both made of the same bytes in one pass over them. */
export async function storeTable(
  client: PoolClient,
  { name, columns }: Pick<Table, 'name' | 'columns'>,
  csv: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): Promise<StoredFile[]> {
  const text = new FileStore(client, { name: `${name}.csv`, mediaType: CSV_TYPE })
  const parquet = new FileStore(client, { name: `${name}.parquet`, mediaType: PARQUET_TYPE })
  const rows = new ParquetOfCsv(columns)
  let headerBytes = csvHeader(columns).length
  for await (const piece of csv) {
    await text.add(piece)
    const skipped = Math.min(headerBytes, piece.length)
    headerBytes -= skipped
    await parquet.add(rows.push(piece.subarray(skipped)))
  }
  await parquet.add(rows.end())
  return [await text.end(), await parquet.end()]
}
