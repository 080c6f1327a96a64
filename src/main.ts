import closeWithGrace from 'close-with-grace'
import { pino } from 'pino'

import { ConfigError, loadConfig } from './config.ts'
import { messageOf, StartFault } from './db/start-fault.ts'
import { loggerOptions } from './logging.ts'
import { startService } from './service.ts'

/** How long everything may take to finish after a signal [ms]. */
const GRACE_MS = 30_000

/** Ends the process with what went wrong, for people. */
function fail(reason: string): never {
  process.stderr.write(`${reason}\n`)
  process.exit(1)
}

async function main(): Promise<void> {
  const config = loadConfig(process.env)
  const log = pino(loggerOptions(config))
  const onLost = (reason: string) => {
    process.stderr.write(`The embedded database went away: ${reason}.\n`)
    void stop().finally(() => process.exit(1))
  }
  const starting = startService(config, { log, onLost })
  // A signal may come while the service starts: let it come up, then stop in order.
  const stop = async () => (await starting.catch(() => null))?.close()
  closeWithGrace(
    { delay: GRACE_MS, logger: log, skip: ['beforeExit'] },
    async ({ signal, err }) => {
      if (err) log.fatal({ err }, 'unexpected error')
      else log.info({ signal }, 'stopping')
      await stop()
    },
  )
  const service = await starting
  process.stdout.write(`Fairclimb listens on ${service.url}\n`)
}

main().catch((error: unknown) => {
  const isExpected = error instanceof StartFault || error instanceof ConfigError
  fail(isExpected ? error.message : `The service could not start: ${messageOf(error)}.`)
})
