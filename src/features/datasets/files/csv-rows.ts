import { CsvFault } from './csv-records.ts'

const COMMA = 0x2c
const QUOTE = 0x22
const LF = 0x0a
const CR = 0x0d

/** The cells of a row in which something stands: of which columns, and where in the bytes. */
export interface FilledCells {
  readonly bytes: Uint8Array
  /** How many there are; only so many entries below are of this row. */
  readonly count: number
  readonly columns: Int32Array
  readonly starts: Int32Array
  readonly ends: Int32Array
}

/**
 * Splits CSV (RFC 4180, a line end after every row) into rows of cells that stay bytes: nothing is
 * allocated for a cell, and nothing done for an empty one.
 */
export class CsvRows {
  readonly #columnCount: number
  readonly #take: (cells: FilledCells) => void
  readonly #cells: { -readonly [K in keyof FilledCells]: FilledCells[K] }
  #words: DataView = new DataView(new ArrayBuffer(0))
  #line = 0

  /** @param take is given the same object for every row */
  constructor(columnCount: number, take: (cells: FilledCells) => void) {
    this.#columnCount = columnCount
    this.#take = take
    this.#cells = {
      bytes: new Uint8Array(0),
      count: 0,
      columns: new Int32Array(columnCount),
      starts: new Int32Array(columnCount),
      ends: new Int32Array(columnCount),
    }
  }

  /**
   * Takes some whole rows.
   *
   * @throws {CsvFault} where a row has another number of cells than columns, or the last one no end
   */
  push(rows: Uint8Array): void {
    this.#cells.bytes = rows
    this.#words = new DataView(rows.buffer, rows.byteOffset, rows.length)
    for (let at = 0; at < rows.length; ) at = this.#row(rows, at)
  }

  /** Hands over the row that begins there; gives where the next one begins. */
  #row(bytes: Uint8Array, from: number): number {
    const { columns, starts, ends } = this.#cells
    const { length } = bytes
    const words = this.#words
    let count = 0
    let column = 0
    let start = from
    for (let at = from; at < length; at++) {
      while (at + 4 <= length && isPlain(words.getInt32(at, true))) at += 4
      const byte = bytes[at]!
      if (byte > COMMA) continue // most are
      if (byte === COMMA) {
        if (at > start && column < this.#columnCount) {
          columns[count] = column
          starts[count] = start
          ends[count++] = at
        }
        column++
        start = at + 1
      } else if (byte === LF) {
        this.#line++
        if (column !== this.#columnCount - 1) {
          throw new CsvFault(this.#line, 'Too many or too few cells.')
        }
        const end = at > start && bytes[at - 1] === CR ? at - 1 : at
        if (end > start) {
          columns[count] = column
          starts[count] = start
          ends[count++] = end
        }
        this.#cells.count = count
        this.#take(this.#cells)
        return at + 1
      } else if (byte === QUOTE) {
        at = bytes.indexOf(QUOTE, at + 1)
        if (at === -1) break
      }
    }
    throw new CsvFault(this.#line + 1, 'The last row has no line end.')
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

/** What a quoted cell holds: without the quotes around it, doubled ones once. */
export function unquoted(bytes: Uint8Array, start: number, end: number): Uint8Array {
  const cell = new Uint8Array(end - start - 2)
  let length = 0
  for (let at = start + 1; at < end - 1; at++) {
    cell[length++] = bytes[at]!
    if (bytes[at] === QUOTE) at++
  }
  return cell.subarray(0, length)
}

export function isQuoted(bytes: Uint8Array, start: number): boolean {
  return bytes[start] === QUOTE
}
