import type { Caller, Role } from '../../../contract/caller.ts'
import type { Database } from '../../../db/client.ts'
import type { ApiKey } from './schema.ts'

const API_KEY_FIELDS = {
  id: true,
  name: true,
  prefix: true,
  createdAt: true,
  lastUsedAt: true,
} as const

interface ApiKeyRow {
  readonly id: string
  readonly name: string
  readonly prefix: string
  readonly createdAt: Date
  readonly lastUsedAt: Date | null
}

export async function insertApiKey(
  db: Database,
  key: { accountId: string; name: string; prefix: string; keyHash: Uint8Array<ArrayBuffer> },
): Promise<ApiKey> {
  return toApiKey(await db.prisma.apiKey.create({ data: key, select: API_KEY_FIELDS }))
}

/** Keys of an account that work, newest first, from below the given place in that order. */
export async function findApiKeys(
  db: Database,
  accountId: string,
  page: { limit: number; below: { createdAt: Date; id: string } | null },
): Promise<ApiKey[]> {
  const { below } = page
  const rows = await db.prisma.apiKey.findMany({
    where: {
      accountId,
      revokedAt: null,
      ...(below !== null && {
        OR: [
          { createdAt: { lt: below.createdAt } },
          { createdAt: below.createdAt, id: { lt: below.id } },
        ],
      }),
    },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    take: page.limit,
    select: API_KEY_FIELDS,
  })
  return rows.map(toApiKey)
}

/** Revokes a key of this account; false where it has none of that id that works. */
export async function revokeApiKey(db: Database, accountId: string, id: string): Promise<boolean> {
  const { count } = await db.prisma.apiKey.updateMany({
    where: { id, accountId, revokedAt: null },
    data: { revokedAt: new Date() },
  })
  return count > 0
}

/**
 * Whose key this is; null where it does not exist, was revoked or its account is closed.
 * Notes the use, but at most once a minute: reading with a key must not mean a write each time.
 *
 * Raw SQL because it runs before every request made with a key.
 */
export async function findCallerByApiKey(db: Database, keyHash: Buffer): Promise<Caller | null> {
  const { rows } = await db.pool.query<{
    id: string
    accountId: string
    role: Role
    note: boolean
  }>(
    `SELECT k.id, a.id AS "accountId", a.role,
            k.last_used_at IS NULL OR k.last_used_at <= now() - interval '1 minute' AS note
       FROM api_key k JOIN account a ON a.id = k.account_id
      WHERE k.key_hash = $1 AND k.revoked_at IS NULL AND a.closed_at IS NULL`,
    [keyHash],
  )
  const found = rows[0]
  if (found === undefined) return null
  if (found.note) {
    await db.pool.query('UPDATE api_key SET last_used_at = now() WHERE id = $1', [found.id])
  }
  return { accountId: found.accountId, role: found.role }
}

function toApiKey(row: ApiKeyRow): ApiKey {
  return {
    ...row,
    createdAt: row.createdAt.toISOString(),
    lastUsedAt: row.lastUsedAt?.toISOString() ?? null,
  }
}
