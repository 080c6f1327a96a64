import { csvHeader, csvOf, type Row } from '../../../../src/features/datasets/files/csv.ts'
import type { Column } from '../../../../src/features/datasets/tables/column.ts'

/** Rows as CSV without a header, so many of them in each piece. */
export function piecesOf(
  columns: readonly Column[],
  rows: readonly Row[],
  rowsAtATime: number,
): Buffer[] {
  const headerBytes = csvHeader(columns).length
  const pieces: Buffer[] = []
  for (let at = 0; at < rows.length; at += rowsAtATime) {
    pieces.push(csvOf(columns, rows.slice(at, at + rowsAtATime)).subarray(headerBytes))
  }
  return pieces
}
