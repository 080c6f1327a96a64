import type { ByteWriter } from 'hyparquet-writer'

/**
 * Numbers of a fixed width in the hybrid of runs and bit-packing: one run where all are the same,
 * else packed, least significant bit first.
 *
 * @param bitWidth bits of a number, 1 to 24
 * @source Apache Parquet, Encodings, "Run Length Encoding / Bit-Packing Hybrid"
 */
export function writeHybrid(
  writer: ByteWriter,
  values: ArrayLike<number>,
  { count, bitWidth }: { readonly count: number; readonly bitWidth: number },
): void {
  if (isConstant(values, count)) {
    writer.appendVarInt(count << 1)
    for (let bit = 0; bit < bitWidth; bit += 8) writer.appendUint8((values[0]! >> bit) & 0xff)
    return
  }
  const groups = (count + 7) >> 3
  writer.appendVarInt((groups << 1) | 1)
  writer.appendBytes(packed(values, count, { bitWidth, byteLength: groups * bitWidth }))
}

function isConstant(values: ArrayLike<number>, count: number): boolean {
  for (let i = 1; i < count; i++) if (values[i] !== values[0]) return false
  return true
}

function packed(
  values: ArrayLike<number>,
  count: number,
  { bitWidth, byteLength }: { readonly bitWidth: number; readonly byteLength: number },
): Uint8Array {
  const bytes = new Uint8Array(byteLength)
  let held = 0
  let bits = 0
  let at = 0
  for (let i = 0; i < count; i++) {
    held |= values[i]! << bits
    bits += bitWidth
    while (bits >= 8) {
      bytes[at++] = held & 0xff
      held >>>= 8
      bits -= 8
    }
  }
  if (bits > 0) bytes[at] = held
  return bytes
}

/** Bits that the numbers below a count take. */
export function bitWidthOf(count: number): number {
  return Math.max(1, 32 - Math.clz32(count - 1))
}
