import { z } from 'zod'

import { decodeCursor, encodeCursor, type PageQuery } from '../../../contract/pagination.ts'
import { ApiProblem } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { newSecret, secretHash } from '../secret.ts'
import { findApiKeys, insertApiKey, revokeApiKey } from './repository.ts'
import type { ApiKeyPage, CreatedApiKey } from './schema.ts'

/** Start of every API key: tells it from an access token, and lets scanners find leaked ones. */
export const API_KEY_MARK = 'fck_'

/** Characters of a key that are stored readable; enough to tell keys apart, too few to guess one. */
const PREFIX_LENGTH = API_KEY_MARK.length + 6

/** Last instant of the year 9999, in milliseconds since 1970; PostgreSQL takes everything from there back to 1970. */
const LATEST_MS = Date.UTC(9999, 11, 31, 23, 59, 59, 999)

const CursorKey = z.tuple([z.int().min(0).max(LATEST_MS), z.uuid()])

/** Makes an API key. Only its hash is stored: this answer is the one place where the key stands. */
export async function createApiKey(
  db: Database,
  accountId: string,
  name: string,
): Promise<CreatedApiKey> {
  const key = `${API_KEY_MARK}${newSecret()}`
  const prefix = key.slice(0, PREFIX_LENGTH)
  const keyHash = new Uint8Array(secretHash(key))
  return { ...(await insertApiKey(db, { accountId, name, prefix, keyHash })), key }
}

/** API keys of an account that work, newest first. */
export async function listApiKeys(
  db: Database,
  accountId: string,
  { limit, cursor }: PageQuery,
): Promise<ApiKeyPage> {
  const below = cursor === undefined ? null : placeOf(cursor)
  const found = await findApiKeys(db, accountId, { limit: limit + 1, below })
  const items = found.slice(0, limit)
  const last = items.at(-1)
  const more = found.length > limit && last !== undefined
  return { items, nextCursor: more ? encodeCursor([Date.parse(last.createdAt), last.id]) : null }
}

/** Revokes an API key; the next request with it is refused. */
export async function deleteApiKey(db: Database, accountId: string, id: string): Promise<void> {
  if (!(await revokeApiKey(db, accountId, id))) {
    throw new ApiProblem('not-found', { detail: `There is no API key ${id} of this account.` })
  }
}

function placeOf(cursor: string): { createdAt: Date; id: string } {
  const key = CursorKey.safeParse(decodeCursor(cursor))
  if (!key.success) {
    const detail = 'must be the nextCursor of a page of this list'
    throw new ApiProblem('invalid-request', { errors: [{ pointer: '/cursor', detail }] })
  }
  const [createdAtMs, id] = key.data
  return { createdAt: new Date(createdAtMs), id }
}
