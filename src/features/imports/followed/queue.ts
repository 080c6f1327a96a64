import { randomUUID } from 'node:crypto'

import type { PoolClient } from 'pg'

import { ApiProblem } from '../../../contract/problems.ts'
import type { Progress } from '../../../contract/progress.ts'
import type { Database } from '../../../db/client.ts'
import type { Import } from '../schema.ts'
import {
  type FollowedImport,
  finishFollowed,
  insertFollowed,
  releaseFollowed,
  saveFollowed,
} from './repository.ts'

/** Files that wait in memory at most; each may have 32 MiB. */
const MAX_WAITING = 4

/** Time between two notes of how far an import is [ms]. */
const NOTE_MS = 200

/** Takes an import in; the queue says where how far it is goes. */
export type Work = (progress: Progress) => Promise<Import>

/** Where what cannot be told to anybody is noted. */
interface Log {
  error(details: object, message: string): void
}

/**
 * Takes imports in behind the back of who sent them, one after the other: each holds a connection for
 * its notes and its lock, and the one in hand a second for its work.
 */
export class ImportQueue {
  readonly #db: Database
  readonly #log: Log
  #waiting = 0
  #last: Promise<void> = Promise.resolve()

  constructor(db: Database, log: Log) {
    this.#db = db
    this.#log = log
  }

  /**
   * Begins soon; what it says is stored already, and a process that ends in the middle is noticed by
   * the lock that ends with it.
   *
   * @throws {ApiProblem} not-ready where too many wait
   */
  async add(accountId: string, work: Work): Promise<FollowedImport> {
    if (this.#waiting >= MAX_WAITING) {
      throw new ApiProblem('not-ready', {
        detail: 'Other imports are being taken in; send it again in a while.',
      })
    }
    this.#waiting += 1
    try {
      const client = await this.#db.pool.connect()
      const request = await insertFollowed(client, { id: randomUUID(), accountId }).catch(
        (error: unknown) => {
          client.release(true)
          throw error
        },
      )
      this.#last = this.#last.then(() => this.#fulfil(client, request, work))
      return request
    } catch (error) {
      this.#waiting -= 1
      throw error
    }
  }

  /** Resolves when none waits. */
  settled(): Promise<void> {
    return this.#last
  }

  async #fulfil(client: PoolClient, { id }: FollowedImport, work: Work): Promise<void> {
    let broken = true
    try {
      await finishFollowed(client, { id, ...(await this.#outcomeOf(client, id, work)) })
      await releaseFollowed(client, id)
      broken = false
    } catch (error) {
      this.#log.error({ err: error, request: id }, 'the end of an import could not be noted')
    } finally {
      this.#waiting -= 1
      client.release(broken) // its lock goes with it
    }
  }

  async #outcomeOf(client: PoolClient, id: string, work: Work) {
    try {
      const { id: importId } = await work(notesOf(client, id))
      return { state: 'done', step: 'done', importId } as const
    } catch (error) {
      if (error instanceof ApiProblem) {
        return { state: 'refused', step: 'refused', problem: error.toBody(id) } as const
      }
      this.#log.error({ err: error, request: id }, 'import failed')
      return { state: 'failed', step: 'failed; nothing was imported' } as const
    }
  }
}

/** Notes how far an import is, but not every row. */
function notesOf(client: PoolClient, id: string): Progress {
  let noted = 0
  return async (progress, step) => {
    const now = Date.now()
    if (now - noted < NOTE_MS) return
    noted = now
    await saveFollowed(client, { id, progress, step })
  }
}
