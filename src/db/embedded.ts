import pg from 'pg'

import { type DataFolder, openDataFolder } from './embedded/data-folder.ts'
import { type Lease, takeLease } from './embedded/lease.ts'
import { adoptOrStart, type Server, serverUrl, stopServer } from './embedded/server.ts'
import { StartFault } from './start-fault.ts'

const NAME = 'fairclimb'

export interface EmbeddedOptions {
  /** Holds the database, its password and its log. */
  readonly dataDir: string
  /** Called when the database went away and did not come back. */
  readonly onLost?: (reason: string) => void
  /** false: rows need not survive a crash of the machine; for tests only. Default true. */
  readonly durable?: boolean
}

/** A PostgreSQL server that belongs to this process. */
export interface EmbeddedDatabase {
  /** The service's database, as a role that owns it and nothing else. */
  readonly url: string
  /** The server's `postgres` database, as superuser. */
  readonly adminUrl: string
  /** The server was left running by a process that had been killed. */
  readonly adopted: boolean
  /** Stops the server; what is committed is safe on disk. */
  stop(): Promise<void>
}

/**
 * Starts the embedded PostgreSQL in a data folder, or adopts the one that a killed process left
 * running there. Only this machine can reach it, and only one service process may use it.
 *
 * @throws {StartFault} in one sentence, why it cannot
 */
export async function startEmbedded(options: EmbeddedOptions): Promise<EmbeddedDatabase> {
  const folder = await openDataFolder(options.dataDir)
  const { server, lease } = await claim(folder, options)
  const stop = async () => {
    // The lease is kept until the server is down: nobody may adopt a server that is stopping.
    lease.expectEnd()
    await stopServer(folder)
  }
  try {
    await createDatabase(lease.client, folder.password)
  } catch (error) {
    await stop()
    throw error
  }
  return {
    url: serverUrl(folder, server.port, { user: NAME, database: NAME }),
    adminUrl: serverUrl(folder, server.port, { user: 'postgres', database: 'postgres' }),
    adopted: server.adopted,
    stop,
  }
}

async function claim(
  folder: DataFolder,
  { durable = true, onLost = () => {} }: EmbeddedOptions,
): Promise<{ server: Server; lease: Lease }> {
  let fault: unknown
  for (let attempt = 0; attempt < 3; attempt++) {
    const server = await adoptOrStart(folder, durable)
    const adminUrl = serverUrl(folder, server.port, { user: 'postgres', database: 'postgres' })
    try {
      const lease = await takeLease(adminUrl, onLost)
      if (lease !== null) return { server, lease }
    } catch (error) {
      fault = error // its owner was just stopping it; start it anew
      continue
    }
    throw new StartFault(
      `Another process of this service uses the database in ${folder.path}; stop it first, or set DATABASE_URL to a PostgreSQL server that several processes may share.`,
    )
  }
  throw fault
}

/** Each step is done only where it is missing, so that a process killed in between does no harm. */
async function createDatabase(admin: pg.Client, password: string): Promise<void> {
  const role = await admin.query('SELECT FROM pg_roles WHERE rolname = $1', [NAME])
  if (role.rowCount === 0) {
    await admin.query(`CREATE ROLE ${NAME} LOGIN PASSWORD ${pg.escapeLiteral(password)}`)
  }
  const database = await admin.query('SELECT FROM pg_database WHERE datname = $1', [NAME])
  if (database.rowCount === 0) await admin.query(`CREATE DATABASE ${NAME} OWNER ${NAME}`)
}
