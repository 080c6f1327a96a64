import type { ParquetWriter } from 'hyparquet-writer'

import type { Column } from '../../tables/column.ts'
import { BlockCells, type RowTaker } from '../block-cells.ts'
import type { FilledCells } from '../filled-cells.ts'
import { writeChunk } from './chunk-pages.ts'
import { ColumnChunk, ROWS_PER_GROUP } from './column-chunk.ts'
import { ReusedWriter } from './reused-writer.ts'

/** What the footer of a file says of a row group. */
export type GroupEntry = ParquetWriter['row_groups'][number]

/** Whole blocks of rows of a table. */
export interface TablePart {
  readonly columns: readonly Column[]
  readonly blocks: Uint8Array<ArrayBuffer>
}

/** Row groups, one behind the other; their entries count from the first byte of the first. */
export interface RowGroups {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly entries: readonly GroupEntry[]
}

/**
 * Makes row groups of the rows of a table: typed columns with statistics, dictionaries where values
 * repeat. Made of the cells that the CSV file is made of; an empty one is a null and costs nothing.
 * Cells stay bytes until a page is written: no object per row or cell. Its memory serves one part
 * after the other.
 */
export class RowGroupMaker implements RowTaker {
  readonly #chunks: readonly ColumnChunk[]
  readonly #writer = new ReusedWriter(1 << 20)
  readonly #page = new ReusedWriter(1 << 16)
  #entries: GroupEntry[] = []
  /** Rows of the group in hand. */
  #rows = 0
  /** What the rows of the block in hand have alike. */
  #shared: FilledCells | null = null
  /** From which row on its columns have not got it yet. */
  #sharedFrom = 0

  constructor(columns: readonly Column[]) {
    this.#chunks = columns.map((column) => new ColumnChunk(column))
  }

  /**
   * @param blocks whole ones
   * @throws {CsvFault} where the rows are not whole ones of so many cells
   * @throws {Error} where a column that must not be empty is
   */
  make(blocks: Uint8Array): RowGroups {
    this.#writer.clear()
    this.#entries = []
    this.#beginGroup() // what a part before may have left that could not be read
    new BlockCells(this.#chunks.length, this).push(blocks)
    if (this.#rows > 0) this.#write()
    return { bytes: this.#writer.getBytes().slice(), entries: this.#entries }
  }

  beginBlock(shared: FilledCells): void {
    this.#shared = shared
  }

  endBlock(): void {
    this.#spread()
    this.#shared = null
  }

  add({ bytes, count, columns, starts, ends }: FilledCells): void {
    const chunks = this.#chunks
    for (let i = 0; i < count; i++) {
      chunks[columns[i]!]!.add(this.#rows, bytes, starts[i]!, ends[i]!)
    }
  }

  endRow(): void {
    if (++this.#rows === ROWS_PER_GROUP) this.#write()
  }

  /** Gives the rows of the block so far what they share. */
  #spread(): void {
    const rows = { first: this.#sharedFrom, end: this.#rows }
    this.#sharedFrom = rows.end
    if (this.#shared === null || rows.first === rows.end) return
    const { bytes, count, columns, starts, ends } = this.#shared
    for (let i = 0; i < count; i++) {
      this.#chunks[columns[i]!]!.addToEach(rows, bytes, starts[i]!, ends[i]!)
    }
  }

  #write(): void {
    this.#spread()
    const to = { file: this.#writer, page: this.#page }
    const columns = this.#chunks.map((chunk) => writeChunk(to, chunk, this.#rows))
    const bytes = columns.reduce((sum, { meta_data }) => sum + meta_data!.total_compressed_size, 0n)
    this.#entries.push({
      columns,
      num_rows: BigInt(this.#rows),
      total_byte_size: bytes,
      total_compressed_size: bytes,
    })
    this.#beginGroup()
  }

  #beginGroup(): void {
    for (const chunk of this.#chunks) chunk.clear()
    this.#rows = 0
    this.#sharedFrom = 0
  }
}
