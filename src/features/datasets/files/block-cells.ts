import { CsvFault } from './csv-fault.ts'
import { CellPlaces, type FilledCells } from './filled-cells.ts'
import { RowBlocks } from './row-blocks.ts'

const COMMA = 0x2c
const QUOTE = 0x22
const LF = 0x0a
const CR = 0x0d

/** Is told the cells of rows; what it is given is the same object again and again. */
export interface RowTaker {
  /** What each row of the block has in its first columns; stays as it is until the block ends. */
  beginBlock(shared: FilledCells): void
  /** Some of the row in hand, further to the right than any before. */
  add(cells: FilledCells): void
  /** The row in hand has nothing more. */
  endRow(): void
  endBlock(): void
}

/**
 * Splits blocks of rows into cells that stay bytes: nothing is allocated for a cell, nothing done for
 * an empty one, and what a block has once is told once.
 */
export class BlockCells {
  readonly #columnCount: number
  readonly #taker: RowTaker
  readonly #shared: CellPlaces
  readonly #cells: CellPlaces
  /** The cell that a head begins and each row ends. */
  readonly #joint = new CellPlaces(1)
  #words: DataView = new DataView(new ArrayBuffer(0))
  #row = 0
  /** The column in which the last split began or ended, and where the cell that it left open begins. */
  #column = 0
  #start = 0

  constructor(columnCount: number, taker: RowTaker) {
    this.#columnCount = columnCount
    this.#taker = taker
    this.#shared = new CellPlaces(columnCount)
    this.#cells = new CellPlaces(columnCount)
  }

  /**
   * Takes some whole blocks.
   *
   * @throws {CsvFault} where a row has another number of cells than columns, or the last one no end
   */
  push(bytes: Uint8Array): void {
    const blocks = new RowBlocks(bytes)
    this.#shared.bytes = bytes
    this.#cells.bytes = bytes
    this.#words = new DataView(bytes.buffer, bytes.byteOffset, bytes.length)
    while (blocks.next()) this.#block(blocks)
  }

  #block({ headStart, headEnd, rowsStart, rowsEnd }: RowBlocks): void {
    this.#column = 0
    const end = this.#split(this.#shared, headStart, headEnd)
    if (end !== -1) throw new CsvFault('What rows begin with ends a row.')
    this.#taker.beginBlock(this.#shared)
    const column = this.#column
    const begun = this.#cells.bytes.subarray(this.#start, headEnd)
    for (let at = rowsStart; at < rowsEnd; ) {
      this.#row++
      this.#column = column
      const from = begun.length > 0 ? this.#join(begun, at, rowsEnd) : at
      at = this.#split(this.#cells, from, rowsEnd)
      if (at === -1) throw new CsvFault('The last row has no line end.')
      if (this.#column !== this.#columnCount - 1) {
        throw new CsvFault(`Row ${this.#row}: too many or too few cells.`)
      }
      this.#taker.add(this.#cells)
      this.#taker.endRow()
    }
    this.#taker.endBlock()
  }

  /** Tells the cell that the head has begun and the row ends; gives where it ends. */
  #join(begun: Uint8Array, from: number, to: number): number {
    const { bytes } = this.#cells
    let at = from
    while (at < to && bytes[at] !== COMMA && bytes[at] !== CR && bytes[at] !== LF) at++
    const joint = this.#joint
    const length = begun.length + at - from
    if (length > joint.bytes.length) joint.bytes = new Uint8Array(2 * length)
    for (let i = 0; i < begun.length; i++) joint.bytes[i] = begun[i]!
    for (let i = from; i < at; i++) joint.bytes[begun.length + i - from] = bytes[i]!
    joint.count = 0
    joint.put(this.#column, 0, length)
    this.#taker.add(joint)
    return at
  }

  /** Finds the cells up to a line end; gives what is behind it, or −1: there is none. */
  #split(cells: CellPlaces, from: number, to: number): number {
    const { bytes } = cells
    const words = this.#words
    let column = this.#column
    let start = from
    cells.count = 0
    for (let at = from; at < to; at++) {
      while (at + 4 <= to && isPlain(words.getInt32(at, true))) at += 4
      if (at === to) break
      const byte = bytes[at]!
      if (byte > COMMA) continue // most are
      if (byte === COMMA) {
        if (at > start && column < this.#columnCount) cells.put(column, start, at)
        column++
        start = at + 1
      } else if (byte === LF) {
        const end = at > start && bytes[at - 1] === CR ? at - 1 : at
        if (end > start && column < this.#columnCount) cells.put(column, start, end)
        this.#column = column
        return at + 1
      } else if (byte === QUOTE) {
        at = bytes.indexOf(QUOTE, at + 1)
        if (at === -1) break
      }
    }
    this.#column = column
    this.#start = start
    return -1
  }
}

/**
 * Whether none of four bytes is a comma or below: a byte minus 0x2d takes its highest bit from below, unless the
 * byte had it itself (UTF-8 beyond ASCII, which is above).
 *
 * @source H. S. Warren, Hacker's Delight, 2nd ed., 2013, §6-1 (from memory)
 */
function isPlain(word: number): boolean {
  return ((word - 0x2d2d2d2d) & ~word & 0x80808080) === 0
}
