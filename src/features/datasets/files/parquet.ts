import { ByteWriter, ParquetWriter, type SchemaElement } from 'hyparquet-writer'

import type { Column } from '../tables/column.ts'
import { CsvRows, type FilledCells } from './csv-rows.ts'
import { writeChunk } from './parquet/chunk-pages.ts'
import { ColumnChunk, ROWS_PER_GROUP } from './parquet/column-chunk.ts'

const NOTHING = Buffer.alloc(0)

/** Takes what was written so far; the writer's own buffer starts anew. */
class Outlet extends ByteWriter {
  take(): Buffer {
    if ((this as unknown as { index: number }).index === 0) return NOTHING
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
export class ParquetOfCsv {
  readonly #outlet = new Outlet(1 << 20)
  readonly #file: ParquetWriter
  readonly #chunks: readonly ColumnChunk[]
  readonly #csv: CsvRows
  /** Rows of the group in hand. */
  #rows = 0

  constructor(columns: readonly Column[]) {
    const schema = [{ name: 'root', num_children: columns.length }, ...columns.map(schemaOf)]
    this.#file = new ParquetWriter({ writer: this.#outlet, schema, createdBy: 'fairclimb' })
    this.#chunks = columns.map((column) => new ColumnChunk(column))
    this.#csv = new CsvRows(columns.length, (cells) => this.#addRow(cells))
  }

  /** Takes a piece of the CSV; gives what of the file is ready, often nothing. */
  push(piece: Uint8Array): Buffer {
    this.#csv.push(piece)
    return this.#outlet.take()
  }

  /** Gives the rest of the file. */
  end(): Buffer {
    this.#csv.end()
    if (this.#rows > 0) this.#writeRows()
    this.#file.finish()
    return this.#outlet.take()
  }

  #addRow({ bytes, count, columns, starts, ends }: FilledCells): void {
    const chunks = this.#chunks
    for (let i = 0; i < count; i++) {
      chunks[columns[i]!]!.add(this.#rows, bytes, starts[i]!, ends[i]!)
    }
    if (++this.#rows === ROWS_PER_GROUP) this.#writeRows()
  }

  #writeRows(): void {
    writeGroup(this.#file, this.#outlet, { chunks: this.#chunks, rows: this.#rows })
    this.#rows = 0
  }
}

/** The same piece by piece. */
export async function* parquetFromCsv(
  columns: readonly Column[],
  pieces: AsyncIterable<Uint8Array>,
): AsyncGenerator<Buffer> {
  const parquet = new ParquetOfCsv(columns)
  for await (const piece of pieces) {
    const ready = parquet.push(piece)
    if (ready.length > 0) yield ready
  }
  yield parquet.end()
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
