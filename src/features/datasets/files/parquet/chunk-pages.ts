import type { ByteWriter, ParquetWriter } from 'hyparquet-writer'
import { writePageHeader } from 'hyparquet-writer/src/datapage.js'
import { type Bounds, boundsOf } from './bounds.ts'
import type { ColumnChunk } from './column-chunk.ts'
import { decimalOf } from './decimal.ts'
import { bitWidthOf, writeHybrid } from './encode.ts'
import type { ReusedWriter } from './reused-writer.ts'

/** What the footer of a file says of a column of a row group. */
type ChunkEntry = ParquetWriter['row_groups'][number]['columns'][number]

type Encoding = 'PLAIN' | 'RLE_DICTIONARY'

/** Where pages go, and where the one in hand is written. */
export interface PageWriters {
  readonly file: ByteWriter
  readonly page: ReusedWriter
}

/** Writes one column of a row group: its dictionary, where it has one, and one page of values. */
export function writeChunk(writers: PageWriters, chunk: ColumnChunk, rows: number): ChunkEntry {
  const { column, count, isPlain } = chunk
  if (!column.nullable && count < rows) throw new Error(`${column.name} must not be empty`)
  const { file } = writers
  const start = file.offset
  const hasDictionary = !isPlain && column.type !== 'boolean' && count > 0
  if (hasDictionary) writeDictionary(writers, chunk)
  const pageStart = file.offset
  const encoding = hasDictionary ? 'RLE_DICTIONARY' : 'PLAIN'
  writePage(writers, chunk, { rows, encoding })
  const bytes = BigInt(file.offset - start)
  return {
    file_offset: BigInt(start),
    meta_data: {
      type: physicalType(chunk),
      encodings: hasDictionary ? ['PLAIN', 'RLE', encoding] : ['PLAIN', 'RLE'],
      path_in_schema: [column.name],
      codec: 'UNCOMPRESSED',
      num_values: BigInt(rows),
      total_uncompressed_size: bytes,
      total_compressed_size: bytes,
      data_page_offset: BigInt(pageStart),
      ...(hasDictionary ? { dictionary_page_offset: BigInt(start) } : {}),
      statistics: { ...statistics(boundsOf(chunk)), null_count: BigInt(rows - count) },
    },
  }
}

function statistics(bounds: Bounds | null) {
  return bounds === null ? {} : { min_value: bounds.min, max_value: bounds.max }
}

function physicalType({ column: { type } }: Pick<ColumnChunk, 'column'>) {
  switch (type) {
    case 'number':
      return 'DOUBLE'
    case 'integer':
      return 'INT32'
    case 'boolean':
      return 'BOOLEAN'
    default:
      return 'BYTE_ARRAY'
  }
}

function writeDictionary({ file, page }: PageWriters, chunk: ColumnChunk): void {
  const { dictionary } = chunk
  page.clear()
  for (let index = 0; index < dictionary.size; index++) {
    writePlain(page, chunk, dictionary.at(index))
  }
  const bytes = page.getBytes()
  writePageHeader(file, {
    type: 'DICTIONARY_PAGE',
    uncompressed_page_size: bytes.length,
    compressed_page_size: bytes.length,
    dictionary_page_header: { num_values: dictionary.size, encoding: 'PLAIN' },
  })
  file.appendBytes(bytes)
}

function writePlain(page: ByteWriter, { column: { type } }: ColumnChunk, value: Uint8Array): void {
  if (type === 'number') page.appendFloat64(decimalOf(value, 0, value.length))
  else if (type === 'integer') page.appendInt32(decimalOf(value, 0, value.length))
  else {
    page.appendUint32(value.length)
    page.appendBytes(value)
  }
}

/** A data page of version 2: which rows have a value, then the values. */
function writePage(
  { file, page }: PageWriters,
  chunk: ColumnChunk,
  { rows, encoding }: { readonly rows: number; readonly encoding: Encoding },
): void {
  const { column, defined, count } = chunk
  page.clear()
  if (column.nullable) writeHybrid(page, defined, { count: rows, bitWidth: 1 })
  const levelBytes = page.index
  if (encoding === 'RLE_DICTIONARY') {
    const bitWidth = bitWidthOf(chunk.dictionary.size)
    page.appendUint8(bitWidth)
    writeHybrid(page, chunk.indexes, { count, bitWidth })
  } else writeValues(page, chunk)
  const bytes = page.getBytes()
  writePageHeader(file, {
    type: 'DATA_PAGE_V2',
    uncompressed_page_size: bytes.length,
    compressed_page_size: bytes.length,
    data_page_header_v2: {
      num_values: rows,
      num_nulls: rows - count,
      num_rows: rows,
      encoding,
      definition_levels_byte_length: levelBytes,
      repetition_levels_byte_length: 0,
      is_compressed: false,
    },
  })
  file.appendBytes(bytes)
}

function writeValues(page: ByteWriter, chunk: ColumnChunk): void {
  const { column, count, indexes, numbers, texts, textBytes } = chunk
  if (column.type === 'boolean') {
    const bits = new Uint8Array((count + 7) >> 3)
    for (let i = 0; i < count; i++) bits[i >> 3]! |= indexes[i]! << (i & 7)
    page.appendBytes(bits)
  } else if (column.type === 'integer') {
    page.appendBytes(bytesOf(Int32Array.from(numbers.subarray(0, count))))
  } else if (chunk.isNumber) page.appendBytes(bytesOf(numbers.subarray(0, count)))
  else page.appendBytes(texts.subarray(0, textBytes))
}

/** As they lie in memory: little-endian, like the file, on every machine that Node runs on. */
function bytesOf({ buffer, byteOffset, byteLength }: Float64Array | Int32Array): Uint8Array {
  return new Uint8Array(buffer, byteOffset, byteLength)
}
