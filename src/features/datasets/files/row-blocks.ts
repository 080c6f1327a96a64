/** How many texts a block has. */
const TEXTS = 2
const COUNT_BYTES = 2
const LENGTH_BYTES = 4

/**
 * Rows of a CSV file (RFC 4180, a line end after each) without what they begin with alike: the head,
 * which goes before each of them and may end in the middle of a cell.
 */
export function rowBlock(head: string, rows: Uint8Array): Buffer {
  const headBytes = Buffer.byteLength(head)
  const block = Buffer.alloc(COUNT_BYTES + TEXTS * LENGTH_BYTES + headBytes + rows.length)
  block.writeInt16BE(TEXTS)
  block.writeInt32BE(headBytes, COUNT_BYTES)
  const at = COUNT_BYTES + LENGTH_BYTES + block.write(head, COUNT_BYTES + LENGTH_BYTES)
  block.writeInt32BE(rows.length, at)
  block.set(rows, at + LENGTH_BYTES)
  return block
}

/**
 * Goes from block to block through bytes in which they lie one behind the other, each as COPY writes
 * a row of two texts: the number of texts, then the length and the bytes of each.
 *
 * @source PostgreSQL documentation, COPY, Binary Format
 */
export class RowBlocks {
  readonly bytes: Buffer
  headStart = 0
  headEnd = 0
  rowsStart = 0
  /** Where the block ends, too. */
  rowsEnd = 0

  constructor(bytes: Uint8Array) {
    this.bytes = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length)
  }

  /** Goes to the next block; false where none follows that is whole. */
  next(): boolean {
    const { bytes } = this
    const headStart = this.rowsEnd + COUNT_BYTES + LENGTH_BYTES
    if (headStart > bytes.length) return false
    const headEnd = headStart + this.#lengthBefore(headStart)
    const rowsStart = headEnd + LENGTH_BYTES
    if (rowsStart > bytes.length) return false
    const rowsEnd = rowsStart + this.#lengthBefore(rowsStart)
    if (rowsEnd > bytes.length) return false
    this.headStart = headStart
    this.headEnd = headEnd
    this.rowsStart = rowsStart
    this.rowsEnd = rowsEnd
    return true
  }

  #lengthBefore(at: number): number {
    const length = this.bytes.readInt32BE(at - LENGTH_BYTES)
    if (length < 0) throw new Error('a block of rows has no head or no rows')
    return length
  }
}
