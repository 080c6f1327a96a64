import { setImmediate as nextTurn } from 'node:timers/promises'

import { CsvError, parse } from 'csv-parse'

import { faultyFile } from './faults.ts'
import { decodeText } from './text.ts'

/** A file as it came. */
export interface Upload {
  /** Part of the request; absent where the file is the whole body. */
  readonly part?: string | undefined
  readonly bytes: Buffer
}

/** One row with at least one cell that is not empty. */
export interface SheetRow {
  /** As a spreadsheet counts: the header is row 1. */
  readonly number: number
  /** One per column, without blanks around them; empty: nothing was written. */
  readonly cells: readonly string[]
}

/** A CSV file taken apart. */
export interface Sheet {
  readonly part?: string | undefined
  readonly columns: readonly string[]
  readonly rows: readonly SheetRow[]
  /** True in a file whose cells are separated by semicolons. */
  readonly decimalComma: boolean
}

/** Characters of one row; the longest note and every column fit many times over. */
const MAX_ROW_LENGTH = 100_000

/** Rows between two turns of the event loop. */
const ROWS_PER_TURN = 2000

/** A first line that tells spreadsheets the delimiter; they do not count it as a row. */
const TOLD_DELIMITER = /^sep=([,;])\r?\n/i

/** What a spreadsheet would run as a formula is written with an apostrophe in front; here it goes again. */
const GUARDED = /^'(?=[=+\-@\t\r\uFF0B\uFF0D\uFF1D\uFF20])/

/**
 * Reads CSV (RFC 4180; UTF-8, with or without a byte order mark; CR LF or LF; commas, or semicolons as
 * spreadsheets of countries with a decimal comma write them, told by a first line sep=; or found out).
 * Long files are read in turns, so that other requests go on.
 *
 * @throws {ApiProblem} faulty-file, with every row that cannot be read
 */
export async function readSheet({ part, bytes }: Upload): Promise<Sheet> {
  const whole = decodeText({ part, bytes })
  const told = TOLD_DELIMITER.exec(whole)
  const text = whole.slice(told?.[0].length ?? 0)
  const delimiter = told?.[1] ?? delimiterOf(text)
  const [header, ...records] = await recordsOf(text, delimiter, part)
  const columns = (header ?? []).map((name) => cleaned(name).toLowerCase())
  if (columns.every((name) => name === '')) {
    throw faultyFile([
      { file: part, detail: 'The file is empty; its first row names the columns.' },
    ])
  }
  const rows = records
    .map((cells, index) => ({ number: index + 2, cells: cells.map(cleaned) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''))
  const width = columns.length
  const faults = rows
    .filter(({ cells }) => cells.length > width && cells.slice(width).some((cell) => cell !== ''))
    .map(({ number, cells }) => ({
      file: part,
      row: number,
      detail: `Has ${cells.length} cells, the header ${width}; a cell that holds the delimiter needs quotes.`,
    }))
  if (faults.length > 0) throw faultyFile(faults)
  return { part, ...withoutBlank(columns, rows), decimalComma: delimiter === ';' }
}

/** Spreadsheets write columns out that were only ever touched: those without a name and a cell go. */
function withoutBlank(columns: readonly string[], rows: readonly SheetRow[]) {
  const isKept = columns.map(
    (name, index) => name !== '' || rows.some(({ cells }) => (cells[index] ?? '') !== ''),
  )
  const kept = <T>(items: readonly T[]) => items.filter((_, index) => isKept[index] ?? true)
  return {
    columns: kept(columns),
    rows: rows.map(({ number, cells }) => ({ number, cells: kept(cells) })),
  }
}

function cleaned(cell: string): string {
  return cell.trim().replace(GUARDED, '')
}

/** The delimiter of which the header has more. */
function delimiterOf(text: string): ',' | ';' {
  const header = text.slice(0, text.search(/[\r\n]|$/)).replaceAll(/"[^"]*"/g, '')
  return header.split(';').length > header.split(',').length ? ';' : ','
}

async function recordsOf(text: string, delimiter: string, part?: string): Promise<string[][]> {
  const records: string[][] = []
  const parser = parse(text, {
    delimiter,
    record_delimiter: ['\r\n', '\n'],
    relax_column_count: true,
    max_record_size: MAX_ROW_LENGTH,
  })
  try {
    for await (const record of parser) {
      records.push(record)
      if (records.length % ROWS_PER_TURN === 0) await nextTurn()
    }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    throw faultyFile([{ file: part, row: rowOf(error), detail: wordsFor(error) }])
  }
  return records
}

/** The parser counts records; a blank line is one too, as in a spreadsheet. */
function rowOf(error: CsvError): number {
  return Number(error.records ?? 0) + 1
}

function wordsFor({ code }: CsvError): string {
  switch (code) {
    case 'CSV_QUOTE_NOT_CLOSED':
      return 'A quoted cell that begins here or later is not closed.'
    case 'CSV_MAX_RECORD_SIZE':
      return `Longer than ${MAX_ROW_LENGTH} characters; perhaps a quote is not closed.`
    default:
      return 'A quote stands where none may: a cell that holds quotes is quoted, and its quotes are doubled.'
  }
}
