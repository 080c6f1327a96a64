import { setImmediate as nextTurn } from 'node:timers/promises'

import { type Read, readBoolean, readNumber } from '../csv/cells.ts'
import { type Fault, refuseFaults } from '../csv/faults.ts'
import type { Sheet } from '../csv/sheet.ts'
import type { ReleaseColumn } from '../ports.ts'

/** A row of a table of a release, by column; null: empty. */
export interface ReleaseRow {
  readonly number: number
  readonly cells: Readonly<Record<string, ReleaseCell>>
}

export type ReleaseCell = string | number | boolean | null

const ROWS_PER_TURN = 1000

/**
 * The rows of a table of a release, every cell checked by what the table says of its column.
 *
 * @param columns those of the table
 * @param optional names of columns that may be missing
 */
export async function readTable(
  sheet: Sheet,
  columns: readonly ReleaseColumn[],
  { faults, optional }: { readonly faults: Fault[]; readonly optional: ReadonlySet<string> },
): Promise<ReleaseRow[]> {
  const inOrder = headerOf(sheet, columns, optional)
  const rows: ReleaseRow[] = []
  for (const { number, cells: texts } of sheet.rows) {
    const cells: Record<string, ReleaseCell> = {}
    inOrder.forEach((column, index) => {
      const read = readCell(texts[index] ?? '', column, sheet.decimalComma)
      if ('value' in read) cells[column.name] = read.value
      else faults.push({ file: sheet.part, row: number, column: column.name, detail: read.fault })
    })
    rows.push({ number, cells })
    if (rows.length % ROWS_PER_TURN === 0) await nextTurn()
  }
  return rows
}

function headerOf(
  { columns: names, part }: Sheet,
  columns: readonly ReleaseColumn[],
  optional: ReadonlySet<string>,
): ReleaseColumn[] {
  const byName = new Map(columns.map((column) => [column.name, column]))
  const fault = (column: string, detail: string): Fault => ({ file: part, row: 1, column, detail })
  refuseFaults([
    ...names
      .filter((name) => !byName.has(name))
      .map((name) => fault(name, `The table ${part} of a release has no such column.`)),
    ...names
      .filter((name, index) => names.indexOf(name) !== index)
      .map((name) => fault(name, 'There are two columns of that name.')),
    ...columns
      .filter(({ name }) => !names.includes(name) && !optional.has(name))
      .map(({ name }) => fault(name, 'This column is needed and missing.')),
  ])
  return names.map((name) => byName.get(name)!)
}

function readCell(text: string, column: ReleaseColumn, decimalComma: boolean): Read<ReleaseCell> {
  if (text === '') return column.nullable ? { value: null } : { fault: 'Is needed.' }
  switch (column.type) {
    case 'number':
    case 'integer':
      return inBounds(readNumber(text, { decimalComma, unit: column.unit }), column)
    case 'boolean':
      return readBoolean(text)
    case 'json':
      return isJson(text) ? { value: text } : { fault: 'Is not JSON.' }
    default:
      return inWords(text, column)
  }
}

function inBounds(read: Read<number>, { type, minimum, maximum }: ReleaseColumn): Read<number> {
  if ('fault' in read) return read
  const { value } = read
  if (type === 'integer' && !Number.isInteger(value)) return { fault: 'Is not a whole number.' }
  if (minimum !== null && value < minimum) return { fault: `Is less than ${minimum}.` }
  if (maximum !== null && value > maximum) return { fault: `Is more than ${maximum}.` }
  return read
}

function inWords(text: string, { values, pattern }: ReleaseColumn): Read<string> {
  if (values !== null && !values.includes(text)) return { fault: `Takes ${values.join(', ')}.` }
  if (pattern !== null && !new RegExp(pattern).test(text)) {
    return { fault: 'Has not the form that the table says.' }
  }
  return { value: text }
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text)
    return true
  } catch {
    return false
  }
}
