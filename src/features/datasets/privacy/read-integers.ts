const TAB = 0x09
const LF = 0x0a
const ZERO = 0x30

/** Columns of numbers from 0 on that COPY … TO STDOUT (text) gives, without an object per row. */
export async function readIntegers(
  copied: AsyncIterable<Uint8Array>,
  columns: number,
): Promise<Int32Array[]> {
  let table = Array.from({ length: columns }, () => new Int32Array(1024))
  let row = 0
  let column = 0
  let value = 0
  for await (const piece of copied) {
    for (const byte of piece) {
      if (byte !== TAB && byte !== LF) {
        value = 10 * value + byte - ZERO
        continue
      }
      table[column]![row] = value
      value = 0
      column = byte === LF ? 0 : column + 1
      if (byte !== LF || ++row < table[0]!.length) continue
      table = table.map((numbers) => {
        const longer = new Int32Array(2 * row)
        longer.set(numbers)
        return longer
      })
    }
  }
  return table.map((numbers) => numbers.subarray(0, row))
}
