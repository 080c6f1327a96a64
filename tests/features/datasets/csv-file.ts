import { readFile } from 'node:fs/promises'

import { parse } from 'csv-parse/sync'

/** A CSV file as rows by column name. */
export async function readCsv(path: string): Promise<Record<string, string>[]> {
  return parse(await readFile(path), { columns: true })
}
