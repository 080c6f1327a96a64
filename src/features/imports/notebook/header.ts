import { type Fault, refuseFaults } from '../csv/faults.ts'
import type { Sheet } from '../csv/sheet.ts'
import { type NotebookColumn, PART_COLUMNS } from './columns.ts'

/**
 * What the cells of a row mean, in their order.
 *
 * @throws {ApiProblem} faulty-file for a column that is unknown, there twice, or missing
 */
export function columnsInOrder(
  { columns, part }: Sheet,
  known: readonly NotebookColumn[],
): NotebookColumn[] {
  const byName = new Map(known.map((column) => [column.name, column]))
  const fault = (column: string, detail: string): Fault => ({ file: part, row: 1, column, detail })
  const unknown = columns
    .filter((name) => !byName.has(name))
    .map((name) => fault(name, unknownColumn(name, known)))
  const repeated = columns
    .filter((name, index) => columns.indexOf(name) !== index)
    .map((name) => fault(name, 'There are two columns of that name.'))
  const missing = missingIn(columns, known).map((name) =>
    fault(name, 'This column is needed and missing.'),
  )
  refuseFaults([...unknown, ...repeated, ...missing])
  return columns.map((name) => byName.get(name)!)
}

function missingIn(columns: readonly string[], known: readonly NotebookColumn[]): string[] {
  const needed = known.filter(({ needed }) => needed).map(({ name }) => name)
  const missing = needed.filter((name) => !columns.includes(name))
  const namesParts = PART_COLUMNS.every((name) => columns.includes(name))
  return columns.includes('setup_id') || namesParts ? missing : [...missing, 'setup_id']
}

function unknownColumn(name: string, known: readonly NotebookColumn[]): string {
  if (name === '') return 'This column has cells but no name.'
  const near = known.find((column) => column.name.endsWith(`_${name}`) || isNear(column.name, name))
  return near === undefined
    ? 'There is no such column; GET /v1/imports/columns lists them.'
    : `There is no such column; perhaps ${near.name}.`
}

/** Equal but for blanks, hyphens and the case of letters, as in heightGainM. */
function isNear(name: string, written: string): boolean {
  const bare = (text: string) => text.replaceAll(/[^a-z0-9]/g, '')
  return bare(name) === bare(written)
}
