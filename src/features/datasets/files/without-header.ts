import type { CsvRecord } from './csv-records.ts'

/** The records after the first, which names the columns. */
export async function* withoutHeader(
  records: AsyncIterable<CsvRecord[]>,
): AsyncGenerator<CsvRecord[]> {
  let first = true
  for await (const batch of records) {
    const rest = first ? batch.slice(1) : batch
    first = false
    if (rest.length > 0) yield rest
  }
}
