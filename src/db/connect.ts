import pg from 'pg'

import { type Database, openDatabase } from './client.ts'
import { errorCode, messageOf, StartFault } from './start-fault.ts'

/** How long a server may take to answer when the service starts [ms]. */
const PATIENCE_MS = 10_000

/**
 * Opens a database after making sure that it can be used, so that a mistake in its address is
 * known at once and not at the first request.
 *
 * @throws {StartFault} saying what is wrong, without the password
 */
export async function connectDatabase(connectionString: string): Promise<Database> {
  const client = new pg.Client({ connectionString, connectionTimeoutMillis: PATIENCE_MS })
  client.on('error', () => {})
  try {
    await client.connect()
  } catch (error) {
    throw new StartFault(explain(error, client))
  } finally {
    await client.end().catch(() => {})
  }
  return openDatabase(connectionString)
}

function explain(error: unknown, client: pg.Client): string {
  const server = `${client.host}:${client.port}`
  switch (errorCode(error)) {
    case '28P01':
    case '28000':
      return `The database server at ${server} does not let the user "${client.user}" in: check the name and password in DATABASE_URL.`
    case '3D000':
      return `The database server at ${server} has no database "${client.database}": create it, or correct DATABASE_URL.`
    case '42501':
      return `The user "${client.user}" may not use the database "${client.database}" on ${server}: grant CONNECT and CREATE, or correct DATABASE_URL.`
    default:
      return `The database server at ${server}, named by DATABASE_URL, cannot be used: ${reasonOf(error)}.`
  }
}

/** A name that stands for several addresses fails with one error for each; they say the same. */
function reasonOf(error: unknown): string {
  return error instanceof AggregateError && error.errors.length > 0
    ? messageOf(error.errors[0])
    : messageOf(error)
}
