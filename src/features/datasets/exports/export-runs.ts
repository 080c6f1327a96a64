import type { PoolClient } from 'pg'

import type { Database } from '../../../db/client.ts'
import { csvRecords } from '../files/csv-records.ts'
import { ndjsonFromCsv } from '../files/ndjson.ts'
import { parquetFromCsv } from '../files/parquet.ts'
import { withoutHeader } from '../files/without-header.ts'
import { anonymise } from '../release/anonymise.ts'
import { runsSelect } from '../release/runs-sql.ts'
import { CSV_TYPE, copyCsv, PARQUET_TYPE } from '../release/tables-to-files.ts'
import type { ExportQuery } from '../schema.ts'
import type { Tables } from '../tables/tables.ts'
import { applyFilter } from './filter.ts'

export const EXPORT_TYPES: Readonly<Record<ExportQuery['format'], string>> = {
  csv: CSV_TYPE,
  ndjson: 'application/x-ndjson; charset=utf-8',
  parquet: PARQUET_TYPE,
}

/**
 * The runs of this moment, with the columns and the privacy of a release: keys are drawn anew for
 * every export. Bytes come as the database gives them; nothing is gathered.
 */
export async function* exportRuns(
  db: Database,
  { all, rawFields }: Tables,
  query: ExportQuery,
): AsyncGenerator<Buffer> {
  const client = await db.pool.connect()
  let done = false
  try {
    await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ')
    await anonymise(client)
    const filter = await applyFilter(client, query)
    const { columns } = all.runs
    yield* formatted(client, query.format, all.runs, runsSelect(columns, rawFields, filter))
    await client.query('COMMIT')
    done = true
  } finally {
    client.release(!done) // who goes away in the middle leaves a COPY that has no end but this
  }
}

function formatted(
  client: PoolClient,
  format: ExportQuery['format'],
  runs: Tables['all']['runs'],
  select: string,
): AsyncGenerator<Buffer> {
  const csv = copyCsv(client, runs, select)
  if (format === 'csv') return csv
  const records = withoutHeader(csvRecords(csv))
  return format === 'ndjson'
    ? ndjsonFromCsv(runs.columns, records)
    : parquetFromCsv(runs.columns, records)
}
