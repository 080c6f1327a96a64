import { CsvFault } from './csv-fault.ts'
import { grown } from './grown.ts'
import { RowBlocks } from './row-blocks.ts'

const QUOTE = 0x22
const LF = 0x0a

/** The rows of some blocks as CSV, each with its head before it. */
export function csvOfBlocks(bytes: Uint8Array): Uint8Array {
  const lines = new HeadedLines(2 * bytes.length)
  const blocks = new RowBlocks(bytes)
  while (blocks.next()) lines.add(blocks)
  return lines.bytes()
}

class HeadedLines {
  #to: Uint8Array
  #at = 0
  /** The first quote at or after the row in hand. */
  #quote = -1

  constructor(sizeBytes: number) {
    this.#to = new Uint8Array(sizeBytes)
  }

  bytes(): Uint8Array {
    return this.#to.subarray(0, this.#at)
  }

  add({ bytes, headStart, headEnd, rowsStart, rowsEnd }: RowBlocks): void {
    const head = bytes.subarray(headStart, headEnd)
    if (head.length === 0) {
      this.#append(head, bytes.subarray(rowsStart, rowsEnd))
      return
    }
    for (let from = rowsStart; from < rowsEnd; ) {
      const end = this.#endOfRow(bytes, from)
      if (end > rowsEnd) throw new CsvFault('The last row has no line end.')
      this.#append(head, bytes.subarray(from, end))
      from = end
    }
  }

  #append(head: Uint8Array, row: Uint8Array): void {
    const end = this.#at + head.length + row.length
    if (end > this.#to.length) this.#to = grown(this.#to, end)
    this.#to.set(head, this.#at)
    this.#to.set(row, this.#at + head.length)
    this.#at = end
  }

  /** Behind the first line end that is not inside quotes. */
  #endOfRow(bytes: Buffer, from: number): number {
    let end = placeOf(bytes, LF, from)
    if (this.#quote < from) this.#quote = placeOf(bytes, QUOTE, from)
    while (this.#quote < end) {
      const close = placeOf(bytes, QUOTE, this.#quote + 1)
      if (end < close) end = placeOf(bytes, LF, close)
      this.#quote = placeOf(bytes, QUOTE, close + 1)
    }
    return end + 1
  }
}

/** What is nowhere is behind everything. */
function placeOf(bytes: Buffer, byte: number, from: number): number {
  const place = bytes.indexOf(byte, from)
  return place === -1 ? Number.POSITIVE_INFINITY : place
}
