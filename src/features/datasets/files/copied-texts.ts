/** Signature, flags and the length of an extension that is not there. */
const HEADER_BYTES = 19

/** Number of fields of a row and length of its one field. */
const ROW_BYTES = 6

/**
 * The texts that COPY (one column of text) TO STDOUT (FORMAT binary) gives, one after the other
 * without anything between them: ready lines leave the database as they are, unquoted and unescaped.
 * Each piece holds some whole texts.
 *
 * @source PostgreSQL documentation, COPY, Binary Format
 */
export async function* copiedTexts(copied: AsyncIterable<Uint8Array>): AsyncGenerator<Buffer> {
  let rest: Uint8Array = new Uint8Array(0) // of what stands before a text
  let begun: Uint8Array = new Uint8Array(0) // a text that goes on in the next piece
  let left = 0 // how much of it
  let skip = HEADER_BYTES
  for await (const piece of copied) {
    const bytes =
      rest.length === 0
        ? Buffer.from(piece.buffer, piece.byteOffset, piece.length)
        : Buffer.concat([rest, piece])
    const texts = Buffer.allocUnsafe(begun.length + bytes.length)
    texts.set(begun)
    let length = begun.length
    let whole = 0
    let at = 0
    for (;;) {
      const some = Math.min(left, bytes.length - at)
      length += bytes.copy(texts, length, at, at + some)
      at += some
      left -= some
      if (left > 0) break
      whole = length
      const next = at + skip
      if (next + ROW_BYTES > bytes.length) break
      left = Math.max(0, bytes.readInt32BE(next + 2)) // −1 is a null
      at = next + ROW_BYTES
      skip = 0
    }
    rest = bytes.subarray(at)
    begun = texts.subarray(whole, length)
    if (whole > 0) yield texts.subarray(0, whole)
  }
}
