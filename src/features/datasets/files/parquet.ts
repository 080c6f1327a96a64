import { ByteWriter, ParquetWriter, type SchemaElement } from 'hyparquet-writer'

import type { Column } from '../tables/column.ts'
import type { GroupEntry, RowGroups, TablePart } from './parquet/row-groups.ts'
import type { RowGroupsAndBlocks } from './parquet/thread.ts'

/** Rows that are held and made into row groups at once; two of them bound the memory of a file. */
const PART_BYTES = 6 << 20

/** Makes row groups of a part, here or in another thread, and gives the memory of its blocks back. */
export type MakeRowGroups = (part: TablePart) => Promise<RowGroupsAndBlocks>

/**
 * A Parquet file of blocks of rows. While row groups are made of some of them, the next are gathered.
 *
 * @param pieces each some whole blocks
 */
export async function* parquetFromBlocks(
  columns: readonly Column[],
  pieces: AsyncIterable<Uint8Array>,
  makeGroups: MakeRowGroups,
): AsyncGenerator<Uint8Array> {
  const file = new ParquetFile(columns)
  yield file.begin()
  const free: ArrayBuffer[] = []
  let making: Promise<RowGroupsAndBlocks> | null = null
  for await (const blocks of gathered(pieces, free)) {
    const made: RowGroupsAndBlocks | null = await making
    making = makeGroups({ columns, blocks })
    making.catch(() => {}) // told where it is waited for, which a failing piece may come before
    if (made === null) continue
    free.push(made.blocks.buffer)
    yield file.add(made)
  }
  if (making !== null) yield file.add(await making)
  yield file.end()
}

/**
 * Pieces, one behind the other, a part of the file at a time.
 *
 * @param free memory of parts before, taken first
 */
async function* gathered(
  pieces: AsyncIterable<Uint8Array>,
  free: ArrayBuffer[],
): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  let part: Uint8Array<ArrayBuffer> | null = null
  let length = 0
  for await (const piece of pieces) {
    if (part !== null && length + piece.length > part.length) {
      yield part.subarray(0, length)
      part = null
    }
    if (part === null) {
      part = new Uint8Array(free.pop() ?? new ArrayBuffer(PART_BYTES))
      length = 0
    }
    if (piece.length > part.length) part = new Uint8Array(piece.length)
    part.set(piece, length)
    length += piece.length
  }
  if (part !== null) yield part.subarray(0, length)
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
