import { setTimeout as sleep } from 'node:timers/promises'

import pg from 'pg'

import { errorCode } from '../start-fault.ts'

/** Held by the one service process that uses an embedded database, for as long as it lives. */
const LEASE_KEY = 7_246_612

/** Of a killed process, the server needs a moment to notice that its connection is gone [ms]. */
const NOTICE_MS = 2000

/** How long a server that repairs itself after a crash of one of its processes may refuse us [ms]. */
const REPAIR_MS = 60_000

/** How long nobody may listen on its port before it counts as gone [ms]. */
const ABSENCE_MS = 1500

/** The right of this process to use an embedded database alone. */
export interface Lease {
  /** Its connection, for setting up the database. */
  readonly client: pg.Client
  /** The connection may end from now on. */
  expectEnd(): void
}

/**
 * Takes the lease of a server: an advisory lock, which ends with the process however that ends.
 *
 * @param onLost called at most once, when the server went away and did not come back
 * @returns null where another living process has it
 */
export async function takeLease(
  adminUrl: string,
  onLost: (reason: string) => void,
): Promise<Lease | null> {
  let ending = false
  const watch = (client: pg.Client) => {
    client.once('end', () => {
      if (!ending) void renew()
    })
  }
  const renew = async () => {
    const endedMs = Date.now()
    let patienceMs = REPAIR_MS
    while (!ending && Date.now() < endedMs + patienceMs) {
      await sleep(250)
      try {
        const client = await lock(adminUrl, 0)
        if (client === null) return onLost('another process took it over')
        return watch(client)
      } catch (error) {
        patienceMs = errorCode(error) === 'ECONNREFUSED' ? ABSENCE_MS : REPAIR_MS
      }
    }
    if (!ending) onLost('it stopped and did not come back')
  }
  const client = await lock(adminUrl, NOTICE_MS)
  if (client === null) return null
  watch(client)
  return {
    client,
    expectEnd() {
      ending = true
    },
  }
}

/** A connection that holds the lock; null where another has it for longer than the patience. */
async function lock(connectionString: string, patienceMs: number): Promise<pg.Client | null> {
  const client = new pg.Client({ connectionString, connectionTimeoutMillis: 5000, keepAlive: true })
  client.on('error', () => {}) // followed by 'end'
  const deadlineMs = Date.now() + patienceMs
  try {
    await client.connect()
    for (;;) {
      const { rows } = await client.query('SELECT pg_try_advisory_lock($1) AS locked', [LEASE_KEY])
      if (rows[0].locked === true) return client
      if (Date.now() >= deadlineMs) break
      await sleep(100)
    }
  } catch (error) {
    await client.end().catch(() => {})
    throw error
  }
  await client.end()
  return null
}
