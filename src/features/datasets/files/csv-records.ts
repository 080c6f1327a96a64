/** The text is no CSV; says where. */
export class CsvFault extends Error {
  override readonly name = 'CsvFault'
  readonly line: number

  constructor(line: number, message: string) {
    super(message)
    this.line = line
  }
}

/** Cells of one record, and the line it begins on (1 is the first). */
export interface CsvRecord {
  readonly cells: readonly string[]
  readonly line: number
}

const QUOTE = '"'

/**
 * Reads CSV (RFC 4180; LF alone is taken for a line end too) piece by piece: give it chunks, take
 * the records that are whole. A byte order mark at the start is skipped.
 *
 * @throws {CsvFault} where quotes are left open or the bytes are no UTF-8
 */
export class CsvReader {
  readonly #decoder = new TextDecoder('utf-8', { fatal: true })
  #rest = ''
  #line = 1

  /** The records that end within what was given so far. */
  push(chunk: Uint8Array): CsvRecord[] {
    return this.#take(this.#decode(chunk, true), false)
  }

  /** The last record, where no line end follows it. */
  end(): CsvRecord[] {
    return this.#take(this.#decode(new Uint8Array(), false), true)
  }

  #decode(chunk: Uint8Array, stream: boolean): string {
    try {
      return this.#decoder.decode(chunk, { stream })
    } catch {
      throw new CsvFault(this.#line, 'The text is not UTF-8.')
    }
  }

  #take(text: string, last: boolean): CsvRecord[] {
    const records: CsvRecord[] = []
    const all = this.#rest + text
    let start = 0
    let quote = all.indexOf(QUOTE)
    while (start < all.length) {
      if (quote !== -1 && quote < start) quote = all.indexOf(QUOTE, start)
      const end = endOfRecord(all, start, quote)
      if (end === null && !last) break
      if (end === null && hasOpenQuote(all, start)) {
        throw new CsvFault(this.#line, 'A quoted cell is not closed.')
      }
      const stop = end ?? all.length
      const text = all.slice(start, all[stop - 1] === '\r' && end !== null ? stop - 1 : stop)
      records.push({ cells: cellsOf(text, this.#line), line: this.#line })
      this.#line += lineEndsIn(all, start, stop) + 1
      start = stop + 1
    }
    this.#rest = all.slice(start)
    return records
  }
}

/** Where the line end is that is not inside quotes, or null; the first quote at or after the start is known. */
function endOfRecord(text: string, start: number, firstQuote: number): number | null {
  let end = text.indexOf('\n', start)
  let quote = firstQuote
  while (end !== -1 && quote !== -1 && quote < end) {
    const close = text.indexOf(QUOTE, quote + 1)
    if (close === -1) return null
    if (end < close) end = text.indexOf('\n', close)
    quote = text.indexOf(QUOTE, close + 1)
  }
  return end === -1 ? null : end
}

function hasOpenQuote(text: string, start: number): boolean {
  let quotes = 0
  for (let i = text.indexOf(QUOTE, start); i !== -1; i = text.indexOf(QUOTE, i + 1)) quotes++
  return quotes % 2 === 1
}

function lineEndsIn(text: string, start: number, stop: number): number {
  let count = 0
  for (let i = text.indexOf('\n', start); i !== -1 && i < stop; i = text.indexOf('\n', i + 1))
    count++
  return count
}

function cellsOf(record: string, line: number): string[] {
  if (!record.includes(QUOTE)) return record.split(',')
  const cells: string[] = []
  let place = 0
  for (;;) {
    const { cell, end } =
      record[place] === QUOTE ? quotedCell(record, place, line) : plainCell(record, place)
    cells.push(cell)
    if (end >= record.length) return cells
    if (record[end] !== ',') throw new CsvFault(line, 'Text follows a closing quote.')
    place = end + 1
    if (place === record.length) return [...cells, '']
  }
}

function plainCell(record: string, place: number) {
  const comma = record.indexOf(',', place)
  const end = comma === -1 ? record.length : comma
  return { cell: record.slice(place, end), end }
}

function quotedCell(record: string, place: number, line: number) {
  let from = place + 1
  for (;;) {
    const close = record.indexOf(QUOTE, from)
    if (close === -1) throw new CsvFault(line, 'A quoted cell is not closed.')
    if (record[close + 1] !== QUOTE) {
      return { cell: record.slice(place + 1, close).replaceAll('""', QUOTE), end: close + 1 }
    }
    from = close + 2
  }
}

/** The records of a stream of bytes, in batches as they come. */
export async function* csvRecords(bytes: AsyncIterable<Uint8Array>): AsyncGenerator<CsvRecord[]> {
  const reader = new CsvReader()
  for await (const chunk of bytes) {
    const records = reader.push(chunk)
    if (records.length > 0) yield records
  }
  const rest = reader.end()
  if (rest.length > 0) yield rest
}
