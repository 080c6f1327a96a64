import type { PoolClient } from 'pg'
import { to as copyTo } from 'pg-copy-streams'

import { csvFromCopy } from '../files/csv.ts'
import { csvRecords } from '../files/csv-records.ts'
import { parquetFromCsv } from '../files/parquet.ts'
import { readFile, type StoredFile, storeFile } from '../files/store.ts'
import { withoutHeader } from '../files/without-header.ts'
import type { Table } from '../tables/tables.ts'

export const CSV_TYPE = 'text/csv; charset=utf-8; header=present'
export const PARQUET_TYPE = 'application/vnd.apache.parquet'

/** The result of a select as CSV, streamed out of the database. */
export function copyCsv(
  client: PoolClient,
  table: Pick<Table, 'columns'>,
  select: string,
): AsyncGenerator<Buffer> {
  const copied = client.query(copyTo(`COPY (${select}) TO STDOUT (FORMAT csv, ENCODING 'UTF8')`))
  return csvFromCopy(table.columns, copied)
}

/** A table as its two files. The Parquet file is made from the CSV as stored. */
export async function storeTable(
  client: PoolClient,
  table: Table,
  csv: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): Promise<StoredFile[]> {
  const text = await storeFile(client, { name: `${table.name}.csv`, mediaType: CSV_TYPE }, csv)
  const rows = withoutHeader(csvRecords(readFile(client, text)))
  const parquet = await storeFile(
    client,
    { name: `${table.name}.parquet`, mediaType: PARQUET_TYPE },
    parquetFromCsv(table.columns, rows),
  )
  return [text, parquet]
}
