import type { FastifyBaseLogger } from 'fastify'

import type { FitVariant } from '../../core/comparison/fit-about.ts'
import type { Quantity } from '../../core/comparison/metric.ts'
import type { PerComponent } from '../../core/mixed/components.ts'
import { LOCKS, withAdvisoryLock } from '../../db/advisory-lock.ts'
import type { Database } from '../../db/client.ts'
import type { EvidenceRows } from './evidence-rows.ts'
import { openReviews } from './flagged.ts'
import { type CompanionBench, makeCompanions } from './make.ts'
import { findReport } from './repository.ts'

/** A stored fit that still lacks what stands beside it. */
export interface LoneFit {
  readonly id: string
  readonly quantity: Quantity
  readonly rows: EvidenceRows
  readonly variant: FitVariant
  /** Where the fit started. */
  readonly start: PerComponent<number> | null
  /** Of the sessions of a fit whose outliers go to the moderators. */
  readonly revisions?: ReadonlyMap<string, number>
}

/** What a queue of lone fits needs. */
export interface CompanionDesk {
  readonly db: Database
  readonly log: Pick<FastifyBaseLogger, 'error'>
  benchOn(client: CompanionBench['client'], quantity: Quantity): CompanionBench
}

/**
 * Makes the companions of fits one after the other, behind the answers. A fit that waits while a newer
 * one of its kind arrives gives way to it: its answers stay without, for they are answers of the past.
 */
export class CompanionQueue {
  readonly #desk: CompanionDesk
  readonly #waiting = new Map<string, LoneFit>()
  #running: Promise<void> | null = null

  constructor(desk: CompanionDesk) {
    this.#desk = desk
  }

  /** Asks for the companions of a fit; returns at once. */
  add(fit: LoneFit): void {
    const { excludeInterested, massClass } = fit.variant
    this.#waiting.set(`${fit.quantity} ${massClass} ${excludeInterested}`, fit)
    this.#running ??= this.#work()
  }

  /** Resolves when nothing waits. */
  async settled(): Promise<void> {
    while (this.#running !== null) await this.#running
  }

  /** Forgets what waits; resolves when the one at work is done. */
  async close(): Promise<void> {
    this.#waiting.clear()
    await this.settled()
  }

  async #work(): Promise<void> {
    for (let next = this.#take(); next !== null; next = this.#take()) {
      await this.#make(next).catch((error: unknown) =>
        this.#desk.log.error({ err: error }, 'what stands beside a fit could not be made'),
      )
    }
    this.#running = null // in the same step as the last look, so nothing added falls between
  }

  #take(): LoneFit | null {
    for (const [key, fit] of this.#waiting) {
      this.#waiting.delete(key)
      return fit
    }
    return null
  }

  async #make({ id, quantity, revisions, ...selected }: LoneFit): Promise<void> {
    const { db, benchOn } = this.#desk
    await withAdvisoryLock(db, LOCKS.companions, async (client) => {
      await makeCompanions(benchOn(client, quantity), id, selected)
      const report = revisions === undefined ? null : await findReport(client, id)
      // Also of a fit that was looked over before: a revision may have come back to the same figures.
      if (report !== null)
        await openReviews(db, { fitId: id, quantity, report, revisions: revisions! })
    })
  }
}
