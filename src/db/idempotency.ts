import { createHash } from 'node:crypto'

import type { PoolClient } from 'pg'

import { ApiProblem } from '../contract/problems.ts'
import type { Database } from './client.ts'
import { inTransaction } from './transaction.ts'

/** What identifies a write that may be sent twice. */
export interface WriteRequest {
  readonly accountId: string
  /** The Idempotency-Key header; undefined: the write is simply done. */
  readonly idempotencyKey: string | undefined
  /** Method and path. */
  readonly target: string
  readonly body: unknown
}

export interface WriteAnswer<T> {
  readonly status: number
  readonly body: T
}

/**
 * Does a write in one transaction, at most once per account and Idempotency-Key.
 *
 * The first answer is stored in the same transaction as the write, so neither exists without the
 * other. The same key with the same request replays it; with another request it is refused; while
 * the first is being worked on (an advisory lock of its transaction) a second is told so.
 *
 * @throws {ApiProblem} idempotency-key-reused, request-in-flight, or what `work` throws
 */
export async function writeOnce<T>(
  db: Database,
  request: WriteRequest,
  work: (client: PoolClient) => Promise<WriteAnswer<T>>,
): Promise<WriteAnswer<T> & { readonly replayed: boolean }> {
  const { accountId, idempotencyKey } = request
  if (idempotencyKey === undefined) {
    return { ...(await inTransaction(db, work)), replayed: false }
  }
  const hash = requestHash(request)
  return inTransaction(db, async (client) => {
    const lock = await client.query<{ locked: boolean }>(
      'SELECT pg_try_advisory_xact_lock(hashtextextended($1, 0)) AS locked',
      [`${accountId} ${idempotencyKey}`],
    )
    if (!lock.rows[0]?.locked) throw new ApiProblem('request-in-flight')
    const known = await client.query<{ request_hash: Buffer; status: number; body: T }>(
      'SELECT request_hash, status, body FROM idempotency_record WHERE account_id = $1 AND key = $2',
      [accountId, idempotencyKey],
    )
    const first = known.rows[0]
    if (first !== undefined) {
      if (!first.request_hash.equals(hash)) throw new ApiProblem('idempotency-key-reused')
      return { status: first.status, body: first.body, replayed: true }
    }
    const answer = await work(client)
    await client.query(
      'INSERT INTO idempotency_record (account_id, key, request_hash, status, body) VALUES ($1, $2, $3, $4, $5)',
      [accountId, idempotencyKey, hash, answer.status, JSON.stringify(answer.body)],
    )
    return { ...answer, replayed: false }
  })
}

function requestHash({ target, body }: WriteRequest): Buffer {
  return createHash('sha256')
    .update(`${target}\n${JSON.stringify(body)}`)
    .digest()
}
