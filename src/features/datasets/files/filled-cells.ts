const QUOTE = 0x22

/** Cells in which something stands, in the order of their columns, and where in the bytes. */
export interface FilledCells {
  readonly bytes: Uint8Array
  /** How many there are; only so many entries below are of these cells. */
  readonly count: number
  readonly columns: Int32Array
  readonly starts: Int32Array
  readonly ends: Int32Array
}

/** The same while it is found out. */
export class CellPlaces implements FilledCells {
  bytes: Uint8Array = new Uint8Array(0)
  count = 0
  readonly columns: Int32Array
  readonly starts: Int32Array
  readonly ends: Int32Array

  constructor(columnCount: number) {
    this.columns = new Int32Array(columnCount)
    this.starts = new Int32Array(columnCount)
    this.ends = new Int32Array(columnCount)
  }

  put(column: number, start: number, end: number): void {
    const { count } = this
    this.columns[count] = column
    this.starts[count] = start
    this.ends[count] = end
    this.count = count + 1
  }
}

/** What a quoted cell holds: without the quotes around it, doubled ones once. */
export function unquoted(bytes: Uint8Array, start: number, end: number): Uint8Array {
  const cell = new Uint8Array(end - start - 2)
  let length = 0
  for (let at = start + 1; at < end - 1; at++) {
    cell[length++] = bytes[at]!
    if (bytes[at] === QUOTE) at++
  }
  return cell.subarray(0, length)
}

export function isQuoted(bytes: Uint8Array, start: number): boolean {
  return bytes[start] === QUOTE
}
