/** Rows that are no CSV. */
export class CsvFault extends Error {
  override readonly name = 'CsvFault'
}
