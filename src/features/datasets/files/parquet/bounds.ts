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
  if (!isNumber) return isPlain ? ofPlainTexts(chunk) : ofEntries(chunk)
  return ofNumbers(isPlain ? chunk.numbers.subarray(0, count) : entryNumbers(chunk))
}

function ofBooleans({ indexes, count }: ColumnChunk): Bounds {
  const values = indexes.subarray(0, count)
  return { min: !values.includes(0), max: values.includes(1) }
}

/** The least zero is −0, the greatest +0, as the format wants it. */
function ofNumbers(values: Float64Array): Bounds {
  let min = Number.POSITIVE_INFINITY
  let max = Number.NEGATIVE_INFINITY
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!
    if (value < min) min = value
    if (value > max) max = value
  }
  return { min: min === 0 ? -0 : min, max: max === 0 ? 0 : max }
}

function entryNumbers({ dictionary }: ColumnChunk): Float64Array {
  return Float64Array.from({ length: dictionary.size }, (_, index) => {
    const bytes = dictionary.at(index)
    return decimalOf(bytes, 0, bytes.length)
  })
}

function ofEntries({ dictionary }: ColumnChunk): Bounds {
  let min = dictionary.at(0)
  let max = min
  for (let index = 1; index < dictionary.size; index++) {
    const text = dictionary.at(index)
    if (Buffer.compare(text, min) < 0) min = text
    if (Buffer.compare(text, max) > 0) max = text
  }
  return { min: Uint8Array.from(min), max: Uint8Array.from(max) }
}

function ofPlainTexts({ texts, textBytes }: ColumnChunk): Bounds {
  let min = 0 // where each begins
  let max = 0
  for (let at = 0; at < textBytes; at += LENGTH_BYTES + lengthAt(texts, at)) {
    if (compareAt(texts, at, min) < 0) min = at
    if (compareAt(texts, at, max) > 0) max = at
  }
  return { min: textAt(texts, min), max: textAt(texts, max) }
}

/** Bytes of the length in front of each text. */
const LENGTH_BYTES = 4

function lengthAt(texts: Uint8Array, at: number): number {
  return texts[at]! | (texts[at + 1]! << 8) | (texts[at + 2]! << 16) | (texts[at + 3]! << 24)
}

function textAt(texts: Uint8Array, at: number): Uint8Array {
  return texts.slice(at + LENGTH_BYTES, at + LENGTH_BYTES + lengthAt(texts, at))
}

/** Below 0 where the text that begins at a comes before that at b; no object is made. */
function compareAt(texts: Uint8Array, a: number, b: number): number {
  const lengths = lengthAt(texts, a) - lengthAt(texts, b)
  const common = Math.min(lengthAt(texts, a), lengthAt(texts, b))
  for (let i = LENGTH_BYTES; i < LENGTH_BYTES + common; i++) {
    const difference = texts[a + i]! - texts[b + i]!
    if (difference !== 0) return difference
  }
  return lengths
}
