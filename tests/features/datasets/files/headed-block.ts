import { csvRows, type Row } from '../../../../src/features/datasets/files/csv.ts'
import { rowBlock } from '../../../../src/features/datasets/files/row-blocks.ts'
import type { Column } from '../../../../src/features/datasets/tables/column.ts'

/** Rows as one block whose head is what they have alike in their first columns and begin the next one with. */
export function headedBlock(
  columns: readonly Column[],
  rows: readonly Row[],
  { headColumns, begun }: { readonly headColumns: number; readonly begun: string },
): Buffer {
  const alike = csvRows(columns.slice(0, headColumns), rows.slice(0, 1)).toString().trimEnd()
  const head = headColumns === 0 ? begun : `${alike},${begun}`
  const rest = rows.map((row) => {
    const text = csvRows(columns, [row]).toString()
    if (!text.startsWith(head)) throw new Error(`${text} does not begin with ${head}`)
    return text.slice(head.length)
  })
  return rowBlock(head, Buffer.from(rest.join('')))
}
