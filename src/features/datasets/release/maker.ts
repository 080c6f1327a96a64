import type { FastifyBaseLogger } from 'fastify'
import type { PoolClient } from 'pg'

import { LOCKS, withAdvisoryLock } from '../../../db/advisory-lock.ts'
import { Turns } from '../../../threads/turns.ts'
import { makeRelease, type Workshop } from './make.ts'
import {
  beginRequest,
  findNextRequest,
  finishRequest,
  insertScheduledRequest,
  type ReleaseRequest,
  saveProgress,
} from './requests-repository.ts'

/** How often the schedule is looked at [ms]. */
export const LOOK_MS = 3_600_000

/** How long after the database went away the requests are looked at again [ms]. */
const RETRY_MS = 60_000

/** After so many beginnings that did not come to an end, a request is given up. */
export const ATTEMPTS = 5

const GIVEN_UP = `given up: the service ended ${ATTEMPTS} times while this release was made`

type Log = Pick<FastifyBaseLogger, 'info' | 'error'>

/**
 * Makes releases in the background, one request after the other. What was asked for stands in the
 * database, so a process that ends in the middle leaves it to the next one that starts.
 */
export class ReleaseMaker {
  readonly #workshop: Workshop
  readonly #log: Log
  readonly #turns = new Turns(() => this.#work())
  #closed = false
  #timer: NodeJS.Timeout | null = null
  #retry: NodeJS.Timeout | null = null

  constructor(workshop: Workshop, log: Log) {
    this.#workshop = workshop
    this.#log = log
  }

  /** Takes up what an earlier process left, and looks after the schedule; null: there is none. */
  start(everyDays: number | null): void {
    this.wake()
    if (everyDays === null) return
    const look = () => {
      insertScheduledRequest(this.#workshop.db.pool, everyDays)
        .then((isDue) => isDue && this.wake())
        .catch((error: unknown) => this.#log.error({ err: error }, 'schedule of releases failed'))
    }
    look()
    this.#timer = setInterval(look, LOOK_MS).unref()
  }

  /** Says that there is a request; returns at once. What fails without the database is tried again. */
  wake(): void {
    this.workOff().catch((error: unknown) => {
      this.#log.error({ err: error }, 'requests for releases could not be worked off')
      if (this.#closed) return
      if (this.#retry !== null) clearTimeout(this.#retry)
      this.#retry = setTimeout(() => this.wake(), RETRY_MS).unref()
    })
  }

  /** Resolves when no request of this moment is left. */
  workOff(): Promise<void> {
    return this.#turns.take()
  }

  /** Waits for the release in hand; the requests after it are left to the next start. */
  async close(): Promise<void> {
    this.#closed = true
    if (this.#timer !== null) clearInterval(this.#timer)
    if (this.#retry !== null) clearTimeout(this.#retry)
    await this.#turns.settled()
  }

  async #work(): Promise<void> {
    if (this.#closed) return
    const { db } = this.#workshop
    await withAdvisoryLock(db, LOCKS.releaseRequests, (client) => this.#workQueue(client))
  }

  async #workQueue(client: PoolClient): Promise<void> {
    for (;;) {
      const request = this.#closed ? null : await findNextRequest(client)
      if (request === null) return
      await this.#fulfil(client, request)
    }
  }

  async #fulfil(client: PoolClient, { id, attempts }: ReleaseRequest): Promise<void> {
    if (attempts >= ATTEMPTS) {
      this.#log.error({ request: id }, 'release given up')
      await finishRequest(client, id, { state: 'failed', releaseId: null, step: GIVEN_UP })
      return
    }
    try {
      await beginRequest(client, id)
      const outcome = await makeRelease(this.#workshop, (progress, step) =>
        saveProgress(client, id, { progress, step }),
      )
      await finishRequest(client, id, outcome)
      this.#log.info({ request: id, ...outcome }, 'release made')
    } catch (error) {
      this.#log.error({ err: error, request: id }, 'release failed')
      await finishRequest(client, id, { state: 'failed', releaseId: null })
    }
  }
}
