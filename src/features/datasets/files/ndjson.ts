import type { Column } from '../tables/column.ts'
import type { CsvRecord } from './csv-records.ts'

/** One JSON object per line for each record of a CSV file, header already taken off; empty cells are null. */
export async function* ndjsonFromCsv(
  columns: readonly Column[],
  records: AsyncIterable<readonly CsvRecord[]>,
): AsyncGenerator<Buffer> {
  const names = columns.map(({ name }) => `${JSON.stringify(name)}:`)
  for await (const batch of records) {
    const lines = batch.map(({ cells }) => {
      const members = columns.map(({ type }, c) => names[c] + jsonOf(type, cells[c]!))
      return `{${members.join(',')}}\n`
    })
    yield Buffer.from(lines.join(''))
  }
}

function jsonOf(type: Column['type'], cell: string): string {
  if (cell === '') return 'null'
  switch (type) {
    case 'number':
    case 'integer':
    case 'boolean':
    case 'json':
      return cell
    default:
      return JSON.stringify(cell)
  }
}
