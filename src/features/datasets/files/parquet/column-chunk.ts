import type { Column } from '../../tables/column.ts'
import { isQuoted, unquoted } from '../filled-cells.ts'
import { grown } from '../grown.ts'
import { ByteDictionary } from './byte-dictionary.ts'
import { decimalOf } from './decimal.ts'

/** Rows that are held and written at once; bounds the memory. */
export const ROWS_PER_GROUP = 32_768

/** After so many values it is clear whether they repeat: more than half of them do. */
const SAMPLE = 2048

const encoder = new TextEncoder()
const TRUE = encoder.encode('true')[0]

/** From the first to before the end. */
export interface RowRange {
  readonly first: number
  readonly end: number
}

/** One column of a row group while its cells come in: the values that are there, and which rows have one. */
export class ColumnChunk {
  readonly column: Column
  readonly isNumber: boolean
  /** Values that are there. */
  count = 0
  /** 1 for every row with a value. */
  readonly defined = new Uint8Array(ROWS_PER_GROUP)
  /** Numbers into the dictionary, or 0 and 1 of a boolean. */
  readonly indexes = new Int32Array(ROWS_PER_GROUP)
  readonly dictionary = new ByteDictionary()
  /** Values one after the other, where they hardly repeat: that stays so for the rows to come. */
  isPlain = false
  numbers = new Float64Array(0)
  /** Texts, each after its length. */
  texts = new Uint8Array(0)
  textBytes = 0
  readonly #isBoolean: boolean

  constructor(column: Column) {
    this.column = column
    this.#isBoolean = column.type === 'boolean'
    this.isNumber = column.type === 'number' || column.type === 'integer'
  }

  /** Takes a cell in which something stands; rows that are left out have no value. */
  add(row: number, bytes: Uint8Array, start: number, end: number): void {
    if (isQuoted(bytes, start)) {
      const cell = unquoted(bytes, start, end)
      if (cell.length > 0) this.#addValue(row, cell, 0, cell.length)
    } else this.#addValue(row, bytes, start, end)
  }

  /** Takes the same cell for some rows, one behind the other. */
  addToEach(rows: RowRange, bytes: Uint8Array, start: number, end: number): void {
    const { count } = this
    this.add(rows.first, bytes, start, end)
    const hasValue = this.count > count
    for (let row = rows.first + 1; row < rows.end && hasValue; row++) {
      if (this.isPlain) this.add(row, bytes, start, end)
      else this.#addAgain(row)
    }
  }

  /** Begins the next row group. */
  clear(): void {
    if (this.count > 0) this.defined.fill(0)
    this.count = 0
    this.textBytes = 0
    this.dictionary.clear()
  }

  /** What the row before has. */
  #addAgain(row: number): void {
    this.defined[row] = 1
    this.indexes[this.count] = this.indexes[this.count - 1]!
    this.count++
  }

  #addValue(row: number, bytes: Uint8Array, start: number, end: number): void {
    this.defined[row] = 1
    if (this.isPlain) this.#addPlain(bytes, start, end)
    else if (this.#isBoolean) this.indexes[this.count++] = bytes[start] === TRUE ? 1 : 0
    else this.#addRepeated(bytes, start, end)
  }

  #addRepeated(bytes: Uint8Array, start: number, end: number): void {
    const { dictionary } = this
    const index = dictionary.indexOf(bytes, start, end)
    this.indexes[this.count++] = index
    if (2 * dictionary.size > Math.max(SAMPLE, this.count)) this.#makePlain()
  }

  #makePlain(): void {
    const { dictionary, indexes, count } = this
    this.isPlain = true
    this.count = 0
    if (this.isNumber) this.numbers = new Float64Array(ROWS_PER_GROUP)
    for (let i = 0; i < count; i++) {
      const value = dictionary.at(indexes[i]!)
      this.#addPlain(value, 0, value.length)
    }
    dictionary.clear()
  }

  #addPlain(bytes: Uint8Array, start: number, end: number): void {
    if (this.isNumber) {
      this.numbers[this.count++] = decimalOf(bytes, start, end)
      return
    }
    const length = end - start
    const from = this.textBytes
    this.textBytes += 4 + length
    if (this.textBytes > this.texts.length) this.texts = grown(this.texts, this.textBytes)
    const { texts } = this
    for (let i = 0; i < 4; i++) texts[from + i] = (length >> (8 * i)) & 0xff
    for (let i = 0; i < length; i++) texts[from + 4 + i] = bytes[start + i]!
    this.count++
  }
}
