import type { PoolClient } from 'pg'
import { to as copyTo } from 'pg-copy-streams'

import { copiedTexts } from '../files/copied-texts.ts'
import { csvHeader } from '../files/csv.ts'
import { parquetFromCsv } from '../files/parquet.ts'
import { readFile, type StoredFile, storeFile } from '../files/store.ts'
import type { Table } from '../tables/tables.ts'

export const CSV_TYPE = 'text/csv; charset=utf-8; header=present'
export const PARQUET_TYPE = 'application/vnd.apache.parquet'

/** The lines that a select gives, streamed out of the database; no header. */
export function copyLines(client: PoolClient, select: string): AsyncGenerator<Buffer> {
  return copiedTexts(client.query(copyTo(`COPY (${select}) TO STDOUT (FORMAT binary)`)))
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

/** A table as its two files. The Parquet file is made from the CSV as stored. */
export async function storeTable(
  client: PoolClient,
  table: Table,
  csv: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): Promise<StoredFile[]> {
  const text = await storeFile(client, { name: `${table.name}.csv`, mediaType: CSV_TYPE }, csv)
  const first = csvHeader(table.columns).length
  const lines = readFile(client, text, { first, last: text.sizeBytes - 1 })
  const parquet = await storeFile(
    client,
    { name: `${table.name}.parquet`, mediaType: PARQUET_TYPE },
    parquetFromCsv(table.columns, lines),
  )
  return [text, parquet]
}
