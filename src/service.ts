import { setTimeout as sleep } from 'node:timers/promises'

import type { FastifyInstance } from 'fastify'
import type { Logger } from 'pino'

import { buildApp } from './app.ts'
import type { Config } from './config.ts'
import type { Database } from './db/client.ts'
import { connectDatabase } from './db/connect.ts'
import { startEmbedded } from './db/embedded.ts'
import { migrate } from './db/migrate.ts'
import { StartFault } from './db/start-fault.ts'
import { loadDemo } from './demo/load.ts'
import { ensureAdministrator } from './features/accounts/service.ts'
import { renormalise } from './features/submissions/renormalise.ts'
import { closeApp, listen, requireFreePort } from './http/listen.ts'
import { loggerOptions } from './logging.ts'

/** How long requests may take to finish, and then each connection to close [ms]. */
const CLOSING_MS = 10_000

/** The running service. */
export interface Service {
  /** Where it listens, such as http://127.0.0.1:8080. */
  readonly url: string
  /** Finishes what was begun and stops everything that was started. */
  close(): Promise<void>
}

export interface Surroundings {
  readonly log: Logger
  /** Called when the service cannot go on. */
  readonly onLost: (reason: string) => void
}

/**
 * Starts everything in order; what was started is stopped again where a later step fails.
 *
 * @throws {StartFault} in one sentence, why it cannot start
 */
export async function startService(config: Config, surroundings: Surroundings): Promise<Service> {
  const opened: (() => Promise<void>)[] = []
  const close = () => closeAll(opened, surroundings.log)
  try {
    const databaseUrl = await provideDatabase(config, surroundings, opened)
    await requireFreePort(config)
    const db = await connectDatabase(databaseUrl)
    opened.push(() => db.close())
    const applied = await migrate(db)
    if (applied.length > 0)
      surroundings.log.info({ migrations: applied }, 'schema brought up to date')

    const app = await buildApp({
      db,
      logger: loggerOptions(config),
      rateLimit: config.rateLimit,
      trustProxy: config.trustProxy,
      datasetEveryDays: config.datasetEveryDays,
    })
    opened.push(() => closeApp(app))
    await prepare(db, config, surroundings.log)
    await app.fits.refresh() // answers rest on a fit from the first request on
    const url = await listen(app, config)
    prepareExports(app, surroundings.log)
    return { url, close }
  } catch (error) {
    await close()
    throw error
  }
}

/** Address of the configured database, or of the embedded one once it runs. */
async function provideDatabase(
  { databaseUrl, dataDir }: Config,
  { log, onLost }: Surroundings,
  opened: (() => Promise<void>)[],
): Promise<string> {
  if (databaseUrl !== undefined) return databaseUrl
  const embedded = await startEmbedded({ dataDir, onLost })
  opened.push(() => embedded.stop())
  log.info(
    { dataDir },
    embedded.adopted ? 'embedded database adopted' : 'embedded database started',
  )
  return embedded.url
}

/** What a new database needs before the first request, and one of an earlier version. */
async function prepare(db: Database, config: Config, log: Logger): Promise<void> {
  if (config.admin !== undefined) {
    const isNew = await ensureAdministrator(db, config.admin).catch((error: Error) => {
      throw new StartFault(`ADMIN_EMAIL and ADMIN_PASSWORD cannot be used: ${error.message}.`)
    })
    if (isNew) log.info('first administrator created')
  }
  if (config.demoData) {
    const evenings = await loadDemo(db)
    if (evenings > 0) log.info({ submissions: evenings }, 'demo data loaded')
  }
  await renormalise(db.pool, log)
}

/** In the background: an update of the service may have put everything into another layout. */
function prepareExports(app: FastifyInstance, log: Logger): void {
  app.exports
    .prepare()
    .then(() => log.info('live exports are prepared'))
    .catch((error: unknown) => log.error({ err: error }, 'live exports could not be prepared'))
}

/** In the reverse order of opening; one that fails or hangs does not keep the others open. */
async function closeAll(opened: (() => Promise<void>)[], log: Logger): Promise<void> {
  for (const close of opened.splice(0).reverse()) {
    const patience = new AbortController()
    const tooLong = sleep(CLOSING_MS, undefined, { signal: patience.signal }).then(() => {
      throw new Error(`not closed within ${CLOSING_MS} ms`)
    })
    await Promise.race([close(), tooLong])
      .catch((error: unknown) => log.error({ err: error }, 'something did not close'))
      .finally(() => patience.abort())
    await tooLong.catch(() => {})
  }
}
