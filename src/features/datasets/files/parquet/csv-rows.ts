import { CsvFault } from '../csv-records.ts'

const COMMA = 0x2c
const QUOTE = 0x22
const LF = 0x0a
const CR = 0x0d

/** Takes the cells of a row: where each begins and ends in the bytes; an empty one is missing. */
export type TakeRow = (bytes: Uint8Array, starts: Int32Array, ends: Int32Array) => void

/**
 * Splits CSV (RFC 4180, a line end after every row) into rows of cells that stay bytes: nothing is
 * allocated for a cell. Rows may go over the ends of the pieces given.
 *
 * @throws {CsvFault} where a row has another number of cells than columns
 */
export class CsvRows {
  readonly #take: TakeRow
  readonly #starts: Int32Array
  readonly #ends: Int32Array
  #rest: Uint8Array = new Uint8Array(0)
  #line = 0

  constructor(columns: number, take: TakeRow) {
    this.#take = take
    this.#starts = new Int32Array(columns)
    this.#ends = new Int32Array(columns)
  }

  push(piece: Uint8Array): void {
    const bytes = this.#rest.length === 0 ? piece : Buffer.concat([this.#rest, piece])
    let at = 0
    for (;;) {
      const next = this.#row(bytes, at)
      if (next === -1) break
      at = next
    }
    this.#rest = bytes.slice(at)
  }

  /** @throws {CsvFault} where a row is not ended */
  end(): void {
    if (this.#rest.length > 0) throw new CsvFault(this.#line + 1, 'The last row has no line end.')
  }

  /** Hands over the row that begins there; gives where the next one begins, or −1: it is not whole. */
  #row(bytes: Uint8Array, from: number): number {
    const columns = this.#starts.length
    const { length } = bytes
    let column = 0
    let start = from
    for (let at = from; at < length; at++) {
      const byte = bytes[at]!
      if (byte === COMMA) {
        if (column < columns) {
          this.#starts[column] = start
          this.#ends[column] = at
        }
        column++
        start = at + 1
      } else if (byte === LF) {
        this.#line++
        if (column !== columns - 1) throw new CsvFault(this.#line, 'Too many or too few cells.')
        this.#starts[column] = start
        this.#ends[column] = at > start && bytes[at - 1] === CR ? at - 1 : at
        this.#take(bytes, this.#starts, this.#ends)
        return at + 1
      } else if (byte === QUOTE) {
        at = bytes.indexOf(QUOTE, at + 1)
        if (at === -1) return -1
      }
    }
    return -1
  }
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
