import type { FastifyBaseLogger } from 'fastify'
import type { PoolClient } from 'pg'
import { Piscina } from 'piscina'

import { QUANTITIES, type Quantity } from '../../core/comparison/metric.ts'
import { METHOD_VERSION, MODEL_VERSION } from '../../core/version.ts'
import type { Database } from '../../db/client.ts'
import { fitId } from './identity.ts'
import type { EvidenceRows, FittedModel } from './model.ts'
import { findEvidence, fitExists, insertFit, setCurrentFit } from './repository.ts'

/** Key of the advisory lock under which evidence is read and the current fit is set. */
const REFRESH_LOCK = 7_310_001

type Log = Pick<FastifyBaseLogger, 'info' | 'error'>

/**
 * Keeps the current fits in step with the evidence.
 *
 * `request()` after each change; arrivals during a refresh are folded into one more. The model is
 * fitted in a worker thread, so requests go on meanwhile. Several processes on one database take
 * turns (an advisory lock), and who reads later writes later.
 */
export class FitRefresher {
  readonly #db: Database
  readonly #log: Log
  /** Started at the first fit. */
  #worker: Piscina<EvidenceRows, FittedModel> | null = null
  #running: Promise<void> | null = null
  #again = false
  #closed = false

  constructor(db: Database, log: Log) {
    this.#db = db
    this.#log = log
  }

  /** Says that the evidence changed; returns at once. */
  request(): void {
    if (this.#closed) return
    this.refresh().catch((error: unknown) =>
      this.#log.error({ err: error }, 'refresh of the fits failed'),
    )
  }

  /** Brings the fits up to the evidence of this moment; resolves when they are stored. */
  refresh(): Promise<void> {
    if (this.#running !== null) {
      this.#again = true
      return this.#running
    }
    this.#running = this.#refreshUntilQuiet()
    return this.#running
  }

  async close(): Promise<void> {
    this.#closed = true
    this.#again = false
    await this.#running?.catch(() => {})
    await this.#worker?.destroy()
  }

  async #refreshUntilQuiet(): Promise<void> {
    try {
      do {
        this.#again = false
        for (const quantity of QUANTITIES) await this.#refreshOne(quantity)
      } while (this.#again)
    } finally {
      this.#running = null // in the same step as the last look at #again, so no request falls between
    }
  }

  async #refreshOne(quantity: Quantity): Promise<void> {
    const client = await this.#db.pool.connect()
    let broken: unknown
    try {
      await client.query('SELECT pg_advisory_lock($1)', [REFRESH_LOCK])
      try {
        await this.#fitAndStore(client, quantity)
      } finally {
        await client.query('SELECT pg_advisory_unlock($1)', [REFRESH_LOCK])
      }
    } catch (error) {
      broken = error
      throw error
    } finally {
      client.release(broken !== undefined) // a connection that may still hold the lock is not reused
    }
  }

  async #fitAndStore(client: PoolClient, quantity: Quantity): Promise<void> {
    const rows = await findEvidence(client, quantity, METHOD_VERSION)
    const versions = { quantity, modelVersion: MODEL_VERSION, methodVersion: METHOD_VERSION }
    const id = fitId(versions, rows)
    if (!(await fitExists(client, id))) {
      this.#worker ??= fitWorker()
      const model = await this.#worker.run(rows)
      await insertFit(client, { id, ...versions }, model)
      this.#log.info(
        { fit: id, quantity, runs: model.runs, converged: model.converged },
        'fit stored',
      )
    }
    await setCurrentFit(client, quantity, id)
  }
}

/** One thread; started from the TypeScript source (development, tests) it loads through tsx. */
function fitWorker(): Piscina<EvidenceRows, FittedModel> {
  const fromSource = import.meta.url.endsWith('.ts')
  return new Piscina<EvidenceRows, FittedModel>({
    filename: new URL(fromSource ? './worker.ts' : './worker.js', import.meta.url).href,
    minThreads: 1,
    maxThreads: 1,
    ...(fromSource ? { execArgv: ['--import', 'tsx'] } : {}),
  })
}
