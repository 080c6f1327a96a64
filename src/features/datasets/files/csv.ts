import { stringify } from 'csv-stringify/sync'

import type { Column } from '../tables/column.ts'

/** What stands in a cell; null is empty. */
export type Cell = string | number | boolean | null

export type Row = Readonly<Record<string, Cell>>

export const CRLF = '\r\n'

/** First characters that a spreadsheet takes for a formula. */
const FORMULA = /^[=+\-@\t\r\uFF0B\uFF0D\uFF1D\uFF20]/

/** Rows as CSV (RFC 4180, UTF-8, with a header). */
export function csvOf(columns: readonly Column[], rows: readonly Row[]): Buffer {
  return Buffer.concat([Buffer.from(csvHeader(columns)), csvRows(columns, rows)])
}

/**
 * The rows without a header. Text that a spreadsheet would run as a formula gets
 * an apostrophe in front; numbers are written with as many digits as give them back exactly.
 */
export function csvRows(columns: readonly Column[], rows: readonly Row[]): Buffer {
  const text = stringify(
    rows.map((row) => columns.map(({ name }) => row[name] ?? null)),
    {
      record_delimiter: CRLF,
      quoted_match: /[\r\n]/,
      cast: { string: formulaSafe, boolean: String, number: String },
    },
  )
  return Buffer.from(text)
}

export function formulaSafe(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text
}

/** The header line; column names are plain words, so nothing needs quotes. */
export function csvHeader(columns: readonly { readonly name: string }[]): string {
  return columns.map(({ name }) => name).join(',') + CRLF
}
