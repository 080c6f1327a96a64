import type { FastifyBaseLogger } from 'fastify'
import type { PoolClient } from 'pg'
import { Piscina } from 'piscina'

import type { FitVariant } from '../../core/comparison/fit-about.ts'
import { QUANTITIES, type Quantity } from '../../core/comparison/metric.ts'
import { METHOD_VERSION, MODEL_VERSION } from '../../core/version.ts'
import type { Database } from '../../db/client.ts'
import { fitId } from './identity.ts'
import { type Bench, makeFit } from './make.ts'
import type { FitTask, FittedModel } from './model.ts'
import { findEvidence, setCurrentFit } from './repository.ts'
import { selectRows } from './variants.ts'

/** Key of the advisory lock under which evidence is read and the current fit is set. */
const REFRESH_LOCK = 7_310_001

/** A fit that belongs to a snapshot of the evidence. */
export type SnapshotFit = FittedModel & { readonly id: string }

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
  #worker: Piscina<FitTask, FittedModel> | null = null
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

  /**
   * The fit of what this transaction sees, whatever the current fit is: for a release, which must
   * hold the fit of exactly its own evidence. Nothing is stored.
   */
  async fitIn(client: PoolClient, quantity: Quantity): Promise<SnapshotFit> {
    const rows = await findEvidence(client, quantity, METHOD_VERSION)
    const versions = { quantity, modelVersion: MODEL_VERSION, methodVersion: METHOD_VERSION }
    this.#worker ??= fitWorker()
    return { id: fitId(versions, rows), ...(await this.#worker.run(rows)) }
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
    await setCurrentFit(client, quantity, await makeFit(this.#bench(client, quantity), rows))
  }

  #bench(client: PoolClient, quantity: Quantity): Bench {
    return {
      client,
      quantity,
      run: (task) => {
        this.#worker ??= fitWorker()
        return this.#worker.run(task)
      },
      stored: ({ id, model }) => {
        const { runs, converged } = model
        this.#log.info({ fit: id, quantity, runs, converged }, 'fit stored')
      },
    }
  }

  /**
   * The fit of one mass class from the evidence of this moment, made and stored when it is first asked
   * for.
   */
  async classFit(quantity: Quantity, variant: FitVariant): Promise<string> {
    const client = await this.#db.pool.connect()
    try {
      const rows = await findEvidence(client, quantity, METHOD_VERSION)
      return await makeFit(this.#bench(client, quantity), selectRows(rows, variant), variant)
    } finally {
      client.release()
    }
  }
}

/** One thread; started from the TypeScript source (development, tests) it loads through tsx. */
function fitWorker(): Piscina<FitTask, FittedModel> {
  const fromSource = import.meta.url.endsWith('.ts')
  return new Piscina<FitTask, FittedModel>({
    filename: new URL(fromSource ? './worker.ts' : './worker.js', import.meta.url).href,
    minThreads: 1,
    maxThreads: 1,
    ...(fromSource ? { execArgv: ['--import', 'tsx'] } : {}),
  })
}
