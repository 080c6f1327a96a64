import type { Column } from '../tables/column.ts'
import { BlockCells, type RowTaker } from './block-cells.ts'
import { type FilledCells, isQuoted, unquoted } from './filled-cells.ts'

const QUOTE = 0x22
const COMMA = 0x2c
const BACKSLASH = 0x5c
const OPEN = 0x7b
const CLOSE = 0x7d
const LF = 0x0a
const SPACE = 0x20

/** Bytes that a byte of a cell may become: \u0000. */
const LONGEST_ESCAPE = 6

/**
 * One JSON object per line for each row of some blocks; empty cells are null.
 *
 * @param pieces each some whole blocks
 */
export async function* ndjsonFromBlocks(
  columns: readonly Column[],
  pieces: AsyncIterable<Uint8Array>,
): AsyncGenerator<Buffer> {
  const lines = new JsonLines(columns)
  const cells = new BlockCells(columns.length, lines)
  for await (const piece of pieces) {
    lines.begin(2 * piece.length)
    cells.push(piece)
    yield lines.take()
  }
}

/**
 * Writes JSON as bytes. A row without values is ready from the start; a row is what lies between its
 * values there, name of the next one included, and the values.
 */
class JsonLines implements RowTaker {
  readonly #isText: readonly boolean[]
  /** Every member as null, each with a comma behind it. */
  readonly #nulls: Buffer
  /** Where each member begins there, and where the last one ends. */
  readonly #members: readonly number[]
  /** Where the value of each member begins. */
  readonly #values: readonly number[]
  #bytes = Buffer.alloc(0)
  #at = 0
  /** Where the last whole row ends. */
  #rowEnd = 0
  /** From this member on nothing is written of the row in hand. */
  #member = 0
  /** What each row of the block begins with, and the member behind it. */
  #head = Buffer.alloc(0)
  #headMember = 0

  constructor(columns: readonly Column[]) {
    this.#isText = columns.map(({ type }) => type === 'string' || type === 'yearmonth')
    const members = columns.map(({ name }) => `${JSON.stringify(name)}:null,`)
    const ends = members.map((_, c) => Buffer.byteLength(members.slice(0, c + 1).join('')))
    this.#nulls = Buffer.from(members.join(''))
    this.#members = [0, ...ends]
    this.#values = ends.map((end) => end - 'null,'.length)
  }

  /** Starts a piece of output of about that size. */
  begin(sizeBytes: number): void {
    this.#bytes = Buffer.allocUnsafeSlow(sizeBytes)
    this.#at = 0
    this.#rowEnd = 0
  }

  /** What was written since. */
  take(): Buffer {
    return this.#bytes.subarray(0, this.#at)
  }

  /** Writes once what each row of the block begins with. */
  beginBlock(shared: FilledCells): void {
    const from = this.#at
    this.#member = 0
    this.#reserve(1)
    this.#bytes[this.#at++] = OPEN
    this.add(shared)
    this.#head = Buffer.from(this.#bytes.subarray(from, this.#at))
    this.#headMember = this.#member
    this.#at = from
    this.#beginRow()
  }

  add({ bytes, count, columns, starts, ends }: FilledCells): void {
    const cellBytes = count === 0 ? 0 : ends[count - 1]! - starts[0]!
    this.#reserve(this.#nulls.length + LONGEST_ESCAPE * (cellBytes + 1))
    for (let i = 0; i < count; i++) {
      const column = columns[i]!
      this.#copyNulls(this.#members[this.#member]!, this.#values[column]!)
      this.#addValue(bytes, starts[i]!, ends[i]!, this.#isText[column]!)
      this.#bytes[this.#at++] = COMMA
      this.#member = column + 1
    }
  }

  endRow(): void {
    this.#reserve(this.#nulls.length + 1)
    this.#copyNulls(this.#members[this.#member]!, this.#nulls.length)
    this.#bytes[this.#at - 1] = CLOSE // in place of the last comma
    this.#bytes[this.#at++] = LF
    this.#rowEnd = this.#at
    this.#beginRow()
  }

  /** No other row follows. */
  endBlock(): void {
    this.#at = this.#rowEnd
  }

  #beginRow(): void {
    this.#reserve(this.#head.length)
    this.#at += this.#head.copy(this.#bytes, this.#at)
    this.#member = this.#headMember
  }

  #reserve(bytes: number): void {
    if (this.#at + bytes <= this.#bytes.length) return
    const longer = Buffer.allocUnsafeSlow(2 * (this.#at + bytes))
    this.#bytes.copy(longer, 0, 0, this.#at)
    this.#bytes = longer
  }

  #copyNulls(from: number, to: number): void {
    this.#at += this.#nulls.copy(this.#bytes, this.#at, from, to)
  }

  #addValue(bytes: Uint8Array, start: number, end: number, isText: boolean): void {
    if (isQuoted(bytes, start)) this.#addUnquoted(unquoted(bytes, start, end), isText)
    else if (!isText) this.#copyPlain(bytes, start, end)
    else {
      const from = this.#at
      this.#bytes[this.#at++] = QUOTE
      const isPlain = this.#copyPlain(bytes, start, end)
      this.#bytes[this.#at++] = QUOTE
      if (isPlain) return
      this.#at = from
      this.#addUnquoted(bytes.subarray(start, end), isText)
    }
  }

  #addUnquoted(cell: Uint8Array, isText: boolean): void {
    const text = Buffer.from(cell).toString('utf8')
    const json = text === '' ? 'null' : isText ? JSON.stringify(text) : text
    this.#at += this.#bytes.write(json, this.#at)
  }

  /** Says whether nothing among the bytes needs to be escaped in JSON. */
  #copyPlain(bytes: Uint8Array, start: number, end: number): boolean {
    const to = this.#bytes
    let isPlain = true
    for (let at = start; at < end; at++) {
      const byte = bytes[at]!
      if (byte < SPACE || byte === QUOTE || byte === BACKSLASH) isPlain = false
      to[this.#at++] = byte
    }
    return isPlain
  }
}
