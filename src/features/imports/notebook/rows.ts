import { type Read, readBoolean, readDay, readNumber } from '../csv/cells.ts'
import type { Fault } from '../csv/faults.ts'
import type { Sheet } from '../csv/sheet.ts'
import type { NotebookColumn } from './columns.ts'

/** One row, its cells read. */
export interface NotebookRow {
  readonly number: number
  /** What was written, by column; cells that are empty or could not be read are not here. */
  readonly values: ReadonlyMap<NotebookColumn, unknown>
  /** Names of columns whose cell could not be read. */
  readonly broken: ReadonlySet<string>
}

/** Takes every cell for what its column says; what cannot be read is a fault. */
export function readRows(
  { rows, decimalComma, part }: Sheet,
  columns: readonly NotebookColumn[],
  faults: Fault[],
): NotebookRow[] {
  return rows.map(({ number, cells }) => {
    const values = new Map<NotebookColumn, unknown>()
    const broken = new Set<string>()
    columns.forEach((column, index) => {
      const text = cells[index] ?? ''
      if (text === '') return
      const read = readCell(text, column, decimalComma)
      if ('value' in read) values.set(column, read.value)
      else {
        broken.add(column.name)
        faults.push({ file: part, row: number, column: column.name, detail: read.fault })
      }
    })
    return { number, values, broken }
  })
}

function readCell(text: string, { type, unit }: NotebookColumn, comma: boolean): Read<unknown> {
  switch (type) {
    case 'number':
      return readNumber(text, { decimalComma: comma, unit })
    case 'boolean':
      return readBoolean(text)
    case 'day':
      return readDay(text)
    case 'text':
      return { value: text }
  }
}
