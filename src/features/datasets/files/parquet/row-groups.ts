import { ByteWriter, type ParquetWriter } from 'hyparquet-writer'

import type { Column } from '../../tables/column.ts'
import { CsvRows, type FilledCells } from '../csv-rows.ts'
import { writeChunk } from './chunk-pages.ts'
import { ColumnChunk, ROWS_PER_GROUP } from './column-chunk.ts'

/** What the footer of a file says of a row group. */
export type GroupEntry = ParquetWriter['row_groups'][number]

/** Whole rows of a table as CSV. */
export interface CsvPart {
  readonly columns: readonly Column[]
  readonly csv: Uint8Array
}

/** Row groups, one behind the other; their entries count from the first byte of the first. */
export interface RowGroups {
  readonly bytes: Uint8Array
  readonly entries: readonly GroupEntry[]
}

/**
 * Row groups of the rows of a CSV file: typed columns with statistics, dictionaries where values
 * repeat. Made from the CSV itself, so the two cannot differ; an empty cell is a null and costs
 * nothing. Cells stay bytes until a page is written: no object per row or cell.
 *
 * @throws {CsvFault} where the CSV is not of whole rows of so many cells
 * @throws {Error} where a column that must not be empty is
 */
export function rowGroupsOf({ columns, csv }: CsvPart): RowGroups {
  const groups = new Groups(columns)
  new CsvRows(columns.length, (cells) => groups.add(cells)).push(csv)
  return groups.end()
}

class Groups {
  readonly #writer = new ByteWriter(1 << 20)
  readonly #entries: GroupEntry[] = []
  readonly #chunks: readonly ColumnChunk[]
  /** Rows of the group in hand. */
  #rows = 0

  constructor(columns: readonly Column[]) {
    this.#chunks = columns.map((column) => new ColumnChunk(column))
  }

  add({ bytes, count, columns, starts, ends }: FilledCells): void {
    const chunks = this.#chunks
    for (let i = 0; i < count; i++) {
      chunks[columns[i]!]!.add(this.#rows, bytes, starts[i]!, ends[i]!)
    }
    if (++this.#rows === ROWS_PER_GROUP) this.#write()
  }

  end(): RowGroups {
    if (this.#rows > 0) this.#write()
    return { bytes: this.#writer.getBytes(), entries: this.#entries }
  }

  #write(): void {
    const columns = this.#chunks.map((chunk) => writeChunk(this.#writer, chunk, this.#rows))
    const bytes = columns.reduce((sum, { meta_data }) => sum + meta_data!.total_compressed_size, 0n)
    this.#entries.push({
      columns,
      num_rows: BigInt(this.#rows),
      total_byte_size: bytes,
      total_compressed_size: bytes,
    })
    for (const chunk of this.#chunks) chunk.clear()
    this.#rows = 0
  }
}
