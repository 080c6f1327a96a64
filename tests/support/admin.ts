import pg from 'pg'

/** One statement on a connection of its own, for what a pool of the database in question cannot do. */
export async function queryOnce<Row extends pg.QueryResultRow>(
  url: string,
  sql: string,
  values: readonly unknown[] = [],
): Promise<Row[]> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    return (await client.query<Row>(sql, [...values])).rows
  } finally {
    await client.end()
  }
}

/** The same server, another database. */
export function withDatabase(url: string, name: string): string {
  const other = new URL(url)
  other.pathname = `/${name}`
  return other.href
}
