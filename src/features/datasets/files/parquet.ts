import { ByteWriter, ParquetWriter, type SchemaElement } from 'hyparquet-writer'

import { sharedArray } from '../../../threads/shared-arrays.ts'
import type { Column } from '../tables/column.ts'
import type { CsvPart, GroupEntry, RowGroups } from './parquet/row-groups.ts'

/** CSV that is held and made into row groups at once; two of them bound the memory of a file. */
const PART_BYTES = 1 << 24

/** Makes row groups of a part, here or in another thread; the memory of the CSV may be shared. */
export type MakeRowGroups = (part: CsvPart) => Promise<RowGroups>

/**
 * A Parquet file of the rows of a CSV file, header already taken off. While row groups are made of
 * one part of it, the next is gathered.
 *
 * @param pieces each some whole rows
 */
export async function* parquetFromCsv(
  columns: readonly Column[],
  pieces: AsyncIterable<Uint8Array>,
  makeGroups: MakeRowGroups,
): AsyncGenerator<Uint8Array> {
  const file = new ParquetFile(columns)
  yield file.begin()
  let made: Promise<RowGroups> | null = null
  for await (const csv of gathered(pieces)) {
    const before: RowGroups | null = await made
    made = makeGroups({ columns, csv })
    made.catch(() => {}) // told where it is waited for, which a failing piece may come before
    if (before !== null) yield file.add(before)
  }
  if (made !== null) yield file.add(await made)
  yield file.end()
}

/**
 * Pieces, one behind the other, in memory that threads share: two areas in turn. What was given
 * stays as it is until the next but one is asked for.
 */
async function* gathered(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let [area, other] = [sharedArray.uint8(PART_BYTES), sharedArray.uint8(PART_BYTES)]
  let length = 0
  for await (const piece of pieces) {
    if (length > 0 && length + piece.length > area.length) {
      yield area.subarray(0, length)
      ;[area, other] = [other, area]
      length = 0
    }
    if (piece.length > area.length) area = sharedArray.uint8(piece.length)
    area.set(piece, length)
    length += piece.length
  }
  if (length > 0) yield area.subarray(0, length)
}

/** The bytes around row groups. */
class ParquetFile {
  readonly #writer = new ByteWriter()
  readonly #file: ParquetWriter
  /** How long the file is so far. */
  #length = 0

  constructor(columns: readonly Column[]) {
    const schema = [{ name: 'root', num_children: columns.length }, ...columns.map(schemaOf)]
    this.#file = new ParquetWriter({ writer: this.#writer, schema, createdBy: 'fairclimb' })
  }

  begin(): Uint8Array {
    this.#length = this.#writer.offset
    return this.#writer.getBytes()
  }

  add({ bytes, entries }: RowGroups): Uint8Array {
    for (const entry of entries) {
      this.#file.row_groups.push(moved(entry, BigInt(this.#length)))
      this.#file.num_rows += entry.num_rows
    }
    this.#length += bytes.length
    return bytes
  }

  end(): Uint8Array {
    const begun = this.#writer.offset
    this.#file.finish()
    return this.#writer.getBytes().subarray(begun)
  }
}

/** What the footer says of a row group that stands so many bytes further on. */
function moved(group: GroupEntry, by: bigint): GroupEntry {
  const columns = group.columns.map(({ file_offset, meta_data, ...column }) => {
    const { data_page_offset, dictionary_page_offset } = meta_data!
    const pages = {
      data_page_offset: data_page_offset + by,
      ...(dictionary_page_offset === undefined
        ? {}
        : { dictionary_page_offset: dictionary_page_offset + by }),
    }
    return { ...column, file_offset: file_offset + by, meta_data: { ...meta_data!, ...pages } }
  })
  return { ...group, columns }
}

function schemaOf({ name, type, nullable }: Column): SchemaElement {
  const repetition_type = nullable ? 'OPTIONAL' : 'REQUIRED'
  switch (type) {
    case 'number':
      return { name, repetition_type, type: 'DOUBLE' }
    case 'integer':
      return { name, repetition_type, type: 'INT32' }
    case 'boolean':
      return { name, repetition_type, type: 'BOOLEAN' }
    default:
      return { name, repetition_type, type: 'BYTE_ARRAY', converted_type: 'UTF8' }
  }
}
