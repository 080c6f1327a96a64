import type { FastifyBaseLogger } from 'fastify'
import type { PoolClient } from 'pg'

import { type FitVariant, PLAIN } from '../../core/comparison/fit-about.ts'
import { QUANTITIES, type Quantity } from '../../core/comparison/metric.ts'
import { METHOD_VERSION, MODEL_VERSION } from '../../core/version.ts'
import { LOCKS, withAdvisoryLock } from '../../db/advisory-lock.ts'
import type { Database } from '../../db/client.ts'
import type { StoredFit } from '../../db/fit-store.ts'
import { Turns } from '../../threads/turns.ts'
import { CompanionQueue } from './companions.ts'
import { EvidenceCache } from './evidence-cache.ts'
import type { EvidenceRows } from './evidence-rows.ts'
import { fitId } from './identity.ts'
import { type Bench, makeFit } from './make.ts'
import type { FittedModel } from './model.ts'
import { findCurrentFit, setCurrentFit } from './repository.ts'
import { selectRows } from './variants.ts'
import { selectForRefresh } from './warm-start.ts'
import { FitWorkers } from './workers.ts'

/** A fit that belongs to a snapshot of the evidence. */
export type SnapshotFit = FittedModel & { readonly id: string }

/** Makes the fits of some variants of one quantity, in their order. */
export type MakeFits = (
  quantity: Quantity,
  variants: readonly FitVariant[],
) => Promise<(SnapshotFit | null)[]>

type Log = Pick<FastifyBaseLogger, 'info' | 'error'>

/** Told of each fit as it is stored. */
export type OnStored = (fit: StoredFit) => void

/**
 * Keeps the current fits in step with the evidence.
 *
 * `request()` after each change; arrivals during a refresh are folded into one more. A fit answers as
 * soon as it is stored; other fits of its evidence and its report follow in a queue of their own. All
 * of them are made in worker threads, so requests go on meanwhile. Several processes on one database
 * take turns (advisory locks), and who reads later writes later. Of the evidence only what changed is read.
 */
export class FitRefresher {
  readonly #db: Database
  readonly #log: Log
  readonly #onStored: OnStored
  readonly #workers = new FitWorkers()
  readonly #evidence = new EvidenceCache(QUANTITIES, METHOD_VERSION)
  readonly #companions: CompanionQueue
  readonly #turns = new Turns(() => this.#publishAll())
  #closed = false

  constructor(db: Database, log: Log, onStored: OnStored = () => {}) {
    this.#db = db
    this.#log = log
    this.#onStored = onStored
    const benchOn = (client: PoolClient, quantity: Quantity) => ({
      ...this.#bench(client, quantity),
      workers: this.#workers.behind,
    })
    this.#companions = new CompanionQueue({ db, log, benchOn })
  }

  /** Says that the evidence changed; returns at once. */
  request(): void {
    if (this.#closed) return
    this.publish().catch((error: unknown) =>
      this.#log.error({ err: error }, 'refresh of the fits failed'),
    )
  }

  /** Brings the fits up to the evidence of this moment; resolves when they answer. */
  publish(): Promise<void> {
    return this.#turns.take()
  }

  /** The same, and what stands beside the fits is made too. */
  async refresh(): Promise<void> {
    await this.publish()
    await this.#companions.settled()
  }

  /**
   * Makes fits of what this transaction sees, whatever the current fit is: for a release, which must
   * hold the fits of exactly its own evidence, searched from the data to the end, and of nothing that
   * other servers publish. Null where a variant has no evidence, or cannot be made. The evidence is
   * read here, once for all fits. Nothing is stored.
   */
  async fitsIn(client: PoolClient): Promise<MakeFits> {
    const evidence = new EvidenceCache(QUANTITIES, METHOD_VERSION, { mirrored: false })
    await evidence.update(client)
    return async (quantity, variants) => {
      const { rows: all } = evidence.evidence(quantity)
      const versions = { quantity, modelVersion: MODEL_VERSION, methodVersion: METHOD_VERSION }
      const fits: (SnapshotFit | null)[] = []
      for (const variant of variants) {
        const rows = selectRows(all, variant)
        const id = fitId(versions, rows, variant)
        const made = rows.y.length === 0 ? null : await this.#fitAs(variant, rows)
        fits.push(made === null ? null : { id, ...made })
      }
      return fits
    }
  }

  /** Behind what answers wait for, and all in one thread: each one that works holds memory of its own. */
  #fitAs(variant: FitVariant, rows: EvidenceRows): Promise<FittedModel | null> {
    const task = { ...rows, variant }
    const { behind } = this.#workers
    return variant.robust ? behind.robust(task) : behind.fit(task)
  }

  /**
   * The fit of a part of the evidence of this moment, made and stored when it is first asked for;
   * what stands beside it follows.
   */
  async partFit(quantity: Quantity, variant: FitVariant): Promise<string> {
    const client = await this.#db.pool.connect()
    try {
      await this.#evidence.update(client)
      const { rows: all } = this.#evidence.evidence(quantity)
      const rows = selectRows(all, variant)
      const nobodyLeftOut = rows === all && variant.massClass === null
      const selected = { rows, variant: nobodyLeftOut ? PLAIN : variant, start: null }
      const id = await makeFit(this.#bench(client, quantity), selected)
      this.#companions.add({ id, quantity, ...selected })
      return id
    } finally {
      client.release()
    }
  }

  async close(): Promise<void> {
    this.#closed = true
    await this.#turns.settled()
    await this.#companions.close()
    await this.#workers.close()
  }

  async #publishAll(): Promise<void> {
    if (this.#closed) return
    await withAdvisoryLock(this.#db, LOCKS.refresh, async (client) => {
      await this.#evidence.update(client)
      for (const quantity of QUANTITIES) await this.#publish(client, quantity)
    })
  }

  async #publish(client: PoolClient, quantity: Quantity): Promise<void> {
    const { rows, revisions } = this.#evidence.evidence(quantity)
    const current = await findCurrentFit(client, quantity)
    const selected = selectForRefresh(quantity, rows, current)
    const id = await makeFit(this.#bench(client, quantity), selected)
    await setCurrentFit(client, quantity, id)
    this.#companions.add({ id, quantity, revisions, ...selected })
  }

  #bench(client: PoolClient, quantity: Quantity): Bench {
    return {
      client,
      quantity,
      workers: this.#workers,
      stored: ({ id, model }) => {
        const { runs, converged, header, numbers } = model
        this.#onStored({ id, quantity, header, numbers })
        this.#log.info({ fit: id, quantity, runs, converged }, 'fit stored')
      },
    }
  }
}
