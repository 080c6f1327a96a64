import type { ColumnChunk } from './column-chunk.ts'
import { decimalOf } from './decimal.ts'

/** Least and greatest value of a column of a row group; texts in the order of their bytes. */
export interface Bounds {
  readonly min: number | boolean | Uint8Array
  readonly max: number | boolean | Uint8Array
}

/** The bounds of what is there, for readers that skip row groups; null where nothing is. */
export function boundsOf(chunk: ColumnChunk): Bounds | null {
  const { column, count, isNumber, isPlain } = chunk
  if (count === 0) return null
  if (column.type === 'boolean') return ofBooleans(chunk)
  if (!isNumber) return ofTexts(isPlain ? plainTexts(chunk) : entries(chunk))
  return ofNumbers(isPlain ? chunk.numbers.subarray(0, count) : entryNumbers(chunk))
}

function ofBooleans({ indexes, count }: ColumnChunk): Bounds {
  const values = indexes.subarray(0, count)
  return { min: !values.includes(0), max: values.includes(1) }
}

/** The least zero is −0, the greatest +0, as the format wants it. */
function ofNumbers(values: Iterable<number>): Bounds {
  let min = Number.POSITIVE_INFINITY
  let max = Number.NEGATIVE_INFINITY
  for (const value of values) {
    if (value < min) min = value
    if (value > max) max = value
  }
  return { min: min === 0 ? -0 : min, max: max === 0 ? 0 : max }
}

function ofTexts(texts: Iterable<Uint8Array>): Bounds {
  let min: Uint8Array | null = null
  let max: Uint8Array | null = null
  for (const text of texts) {
    if (min === null || Buffer.compare(text, min) < 0) min = text
    if (max === null || Buffer.compare(text, max) > 0) max = text
  }
  return { min: Uint8Array.from(min!), max: Uint8Array.from(max!) }
}

function* entries({ dictionary }: ColumnChunk): Generator<Uint8Array> {
  for (let index = 0; index < dictionary.size; index++) yield dictionary.at(index)
}

function entryNumbers(chunk: ColumnChunk): number[] {
  return [...entries(chunk)].map((bytes) => decimalOf(bytes, 0, bytes.length))
}

function* plainTexts({ texts, textBytes }: ColumnChunk): Generator<Uint8Array> {
  const view = new DataView(texts.buffer, texts.byteOffset)
  for (let at = 0; at < textBytes; ) {
    const length = view.getUint32(at, true)
    yield texts.subarray(at + 4, at + 4 + length)
    at += 4 + length
  }
}
