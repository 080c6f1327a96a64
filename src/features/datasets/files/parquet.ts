import { ByteWriter, ParquetWriter, type SchemaElement } from 'hyparquet-writer'

import type { Column } from '../tables/column.ts'
import type { CsvRecord } from './csv-records.ts'

/** Rows that are held and written at once; bounds the memory. */
const ROWS_PER_GROUP = 32_768

/** Takes what was written so far; the writer's own buffer starts anew. */
class Outlet extends ByteWriter {
  take(): Buffer {
    const bytes = Buffer.from(this.getBytes())
    ;(this as unknown as { index: number }).index = 0
    return bytes
  }
}

/**
 * A Parquet file of the rows of a CSV file, header already taken off: typed columns, row groups with
 * statistics, Snappy. Made from the CSV itself, so the two cannot differ; an empty cell is a null.
 */
export async function* parquetFromCsv(
  columns: readonly Column[],
  records: AsyncIterable<readonly CsvRecord[]>,
): AsyncGenerator<Buffer> {
  const outlet = new Outlet(1 << 20)
  const schema = [{ name: 'root', num_children: columns.length }, ...columns.map(schemaOf)]
  const file = new ParquetWriter({ writer: outlet, schema, createdBy: 'fairclimb' })
  let group = emptyGroup(columns)
  let rows = 0
  for await (const batch of records) {
    for (const { cells } of batch) {
      for (let c = 0; c < columns.length; c++) group[c]!.push(cells[c]!)
      if (++rows < ROWS_PER_GROUP) continue
      yield writeGroup(file, outlet, columns, group)
      group = emptyGroup(columns)
      rows = 0
    }
  }
  if (rows > 0) yield writeGroup(file, outlet, columns, group)
  file.finish()
  yield outlet.take()
}

function emptyGroup(columns: readonly Column[]): string[][] {
  return columns.map(() => [])
}

function writeGroup(
  file: ParquetWriter,
  outlet: Outlet,
  columns: readonly Column[],
  group: readonly (readonly string[])[],
): Buffer {
  const columnData = columns.map((column, c) => ({
    name: column.name,
    data: valuesOf(column, group[c]!),
  }))
  void file.write({ columnData, rowGroupSize: ROWS_PER_GROUP })
  return outlet.take()
}

function valuesOf({ type }: Column, cells: readonly string[]): unknown[] {
  switch (type) {
    case 'number':
    case 'integer':
      return cells.map((cell) => (cell === '' ? null : Number(cell)))
    case 'boolean':
      return cells.map((cell) => (cell === '' ? null : cell === 'true'))
    default:
      return cells.map((cell) => (cell === '' ? null : cell))
  }
}

function schemaOf({ name, type, nullable }: Column): SchemaElement {
  const repetition_type = nullable ? 'OPTIONAL' : 'REQUIRED'
  switch (type) {
    case 'number':
      return { name, repetition_type, type: 'DOUBLE' }
    case 'integer':
      return { name, repetition_type, type: 'INT32' }
    case 'boolean':
      return { name, repetition_type, type: 'BOOLEAN' }
    default:
      return { name, repetition_type, type: 'BYTE_ARRAY', converted_type: 'UTF8' }
  }
}
