import { RowBlocks } from './row-blocks.ts'

/** Signature, flags and the length of an extension that is not there. */
const HEADER_BYTES = 19

/**
 * The blocks of rows that COPY (two columns of text: heads and rows) TO STDOUT (FORMAT binary)
 * gives, as they come. Each piece holds some whole blocks.
 *
 * @source PostgreSQL documentation, COPY, Binary Format
 */
export async function* copiedBlocks(copied: AsyncIterable<Uint8Array>): AsyncGenerator<Buffer> {
  let rest: Uint8Array = new Uint8Array(0)
  let headerBytes = HEADER_BYTES
  for await (const piece of copied) {
    const bytes = rest.length === 0 ? piece : Buffer.concat([rest, piece])
    if (bytes.length < headerBytes) {
      rest = bytes
      continue
    }
    const blocks = new RowBlocks(bytes.subarray(headerBytes))
    headerBytes = 0
    while (blocks.next());
    rest = blocks.bytes.subarray(blocks.rowsEnd)
    if (blocks.rowsEnd > 0) yield blocks.bytes.subarray(0, blocks.rowsEnd)
  }
}
