import { readFile } from 'node:fs/promises'

import { csvRecords } from '../../../src/features/datasets/files/csv-records.ts'

/** A CSV file as rows by column name. */
export async function readCsv(path: string): Promise<Record<string, string>[]> {
  const bytes = await readFile(path)
  const rows: (readonly string[])[] = []
  for await (const batch of csvRecords(
    (async function* () {
      yield bytes
    })(),
  )) {
    for (const { cells } of batch) rows.push(cells)
  }
  const [names = [], ...records] = rows
  return records.map((cells) => Object.fromEntries(names.map((name, c) => [name, cells[c] ?? ''])))
}
