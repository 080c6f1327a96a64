import { ByteWriter, ParquetWriter, type SchemaElement } from 'hyparquet-writer'

import type { Column } from '../tables/column.ts'
import { CsvRows } from './csv-rows.ts'
import { writeChunk } from './parquet/chunk-pages.ts'
import { ColumnChunk, ROWS_PER_GROUP } from './parquet/column-chunk.ts'

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
 * statistics, dictionaries where values repeat. Made from the CSV itself, so the two cannot differ;
 * an empty cell is a null and costs nothing. Cells stay bytes until a page is written: no object per
 * row or cell.
 */
export async function* parquetFromCsv(
  columns: readonly Column[],
  pieces: AsyncIterable<Uint8Array>,
): AsyncGenerator<Buffer> {
  const outlet = new Outlet(1 << 20)
  const schema = [{ name: 'root', num_children: columns.length }, ...columns.map(schemaOf)]
  const file = new ParquetWriter({ writer: outlet, schema, createdBy: 'fairclimb' })
  const chunks = columns.map((column) => new ColumnChunk(column))
  let rows = 0 // of this group
  const writeRows = () => {
    writeGroup(file, outlet, { chunks, rows })
    rows = 0
  }
  const csv = new CsvRows(columns.length, ({ bytes, count, columns: filled, starts, ends }) => {
    for (let i = 0; i < count; i++) chunks[filled[i]!]!.add(rows, bytes, starts[i]!, ends[i]!)
    if (++rows === ROWS_PER_GROUP) writeRows()
  })
  for await (const piece of pieces) {
    csv.push(piece)
    if (outlet.index > 0) yield outlet.take()
  }
  csv.end()
  if (rows > 0) writeRows()
  file.finish()
  yield outlet.take()
}

/** Adds a row group to the file and to what its footer will say. */
function writeGroup(
  file: ParquetWriter,
  writer: ByteWriter,
  { chunks, rows }: { readonly chunks: readonly ColumnChunk[]; readonly rows: number },
): void {
  const columns = chunks.map((chunk) => writeChunk(writer, chunk, rows))
  const bytes = columns.reduce((sum, { meta_data }) => sum + meta_data!.total_compressed_size, 0n)
  file.row_groups.push({
    columns,
    num_rows: BigInt(rows),
    total_byte_size: bytes,
    total_compressed_size: bytes,
  })
  file.num_rows += BigInt(rows)
  for (const chunk of chunks) chunk.clear()
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
