import { stringify } from 'csv-stringify/sync'

import type { NotebookColumn } from './columns.ts'

/** A blank notebook: the columns that are commonly filled in, and no row. A byte order mark tells spreadsheets that it is UTF-8. */
export function blankNotebook(
  columns: readonly NotebookColumn[],
  delimiter: 'comma' | 'semicolon',
): string {
  const names = columns.filter(({ rare }) => !rare).map(({ name }) => name)
  const sign = delimiter === 'semicolon' ? ';' : ','
  return stringify([names], { delimiter: sign, record_delimiter: '\r\n', bom: true })
}

/** The columns as they are told. */
export function describeColumns(columns: readonly NotebookColumn[]) {
  return columns.map(({ name, level, type, unit, description, values, kinds, needed, rare }) => ({
    ...{ name, level, type, unit, description, needed, common: !rare },
    values: values === null ? null : [...values],
    kinds: [...kinds],
  }))
}
