import type { Pool, PoolClient } from 'pg'

import type { Role } from '../../../contract/caller.ts'
import type { Database } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'

/** Life of a refresh token [days]; each use of a session starts it anew. */
const REFRESH_TOKEN_LIFE_DAYS = 30

export interface StoredSigningKey {
  readonly kid: string
  readonly publicJwk: { readonly kty: 'OKP'; readonly crv: 'Ed25519'; readonly x: string }
  readonly privateJwk: StoredSigningKey['publicJwk'] & { readonly d: string }
}

/** A refresh token as it stands now. */
export interface RefreshToken {
  readonly id: string
  readonly familyId: string
  readonly accountId: string
  /** Used or revoked: nobody but a thief or a confused client shows it again. */
  readonly spent: boolean
  readonly expired: boolean
}

/**
 * Keys that are not retired, newest first; where there is none, one from `makeKey` is stored.
 * The advisory lock makes processes that start together agree on one key.
 */
export async function findOrInsertSigningKeys(
  db: Database,
  makeKey: () => Promise<StoredSigningKey>,
): Promise<StoredSigningKey[]> {
  const stored = await findSigningKeys(db.pool)
  if (stored.length > 0) return stored
  return inTransaction(db, async (client) => {
    await client.query(`SELECT pg_advisory_xact_lock(hashtextextended('signing_key', 0))`)
    const meanwhile = await findSigningKeys(client)
    if (meanwhile.length > 0) return meanwhile
    const key = await makeKey()
    await client.query(
      'INSERT INTO signing_key (id, private_jwk, public_jwk) VALUES ($1, $2, $3)',
      [key.kid, key.privateJwk, key.publicJwk],
    )
    return [key]
  })
}

async function findSigningKeys(client: Pool | PoolClient): Promise<StoredSigningKey[]> {
  const sql = `SELECT id AS kid, public_jwk AS "publicJwk", private_jwk AS "privateJwk"
                 FROM signing_key WHERE retired_at IS NULL ORDER BY created_at DESC, id`
  return (await (client as PoolClient).query<StoredSigningKey>(sql)).rows
}

/**
 * Locks an open account until the transaction ends and gives its role; null where it is closed.
 * Whatever changes the sessions of an account holds this lock, so those changes come one after another.
 */
export async function lockAccount(client: PoolClient, accountId: string): Promise<Role | null> {
  const { rows } = await client.query<{ role: Role }>(
    'SELECT role FROM account WHERE id = $1 AND closed_at IS NULL FOR NO KEY UPDATE',
    [accountId],
  )
  return rows[0]?.role ?? null
}

export async function findRefreshToken(
  client: Pool | PoolClient,
  tokenHash: Buffer,
): Promise<RefreshToken | null> {
  const { rows } = await (client as PoolClient).query<RefreshToken>(
    `SELECT id, family_id AS "familyId", account_id AS "accountId",
            used_at IS NOT NULL OR revoked_at IS NOT NULL AS spent, expires_at <= now() AS expired
       FROM refresh_token WHERE token_hash = $1`,
    [tokenHash],
  )
  return rows[0] ?? null
}

/** Adds a refresh token and clears away those of the account that are too old to mean anything. */
export async function insertRefreshToken(
  client: PoolClient,
  token: { readonly familyId: string; readonly accountId: string; readonly tokenHash: Buffer },
): Promise<void> {
  await client.query('DELETE FROM refresh_token WHERE account_id = $1 AND expires_at <= now()', [
    token.accountId,
  ])
  await client.query(
    `INSERT INTO refresh_token (family_id, account_id, token_hash, expires_at)
     VALUES ($1, $2, $3, now() + make_interval(days => $4))`,
    [token.familyId, token.accountId, token.tokenHash, REFRESH_TOKEN_LIFE_DAYS],
  )
}

export async function markUsed(client: PoolClient, id: string): Promise<void> {
  await client.query('UPDATE refresh_token SET used_at = now() WHERE id = $1', [id])
}

/** Ends a session. The caller holds the lock of the account, so no token of the family is being added. */
export async function revokeFamily(client: PoolClient, familyId: string): Promise<void> {
  await client.query(
    'UPDATE refresh_token SET revoked_at = now() WHERE family_id = $1 AND revoked_at IS NULL',
    [familyId],
  )
}

/** Present role of the owner of a session that has not ended; null where it has, or the account is closed. */
export async function findSessionRole(
  db: Database,
  session: { readonly accountId: string; readonly sessionId: string },
): Promise<Role | null> {
  const { rows } = await db.pool.query<{ role: Role }>(
    `SELECT role FROM account
      WHERE id = $1 AND closed_at IS NULL
        AND EXISTS (SELECT FROM refresh_token
                     WHERE family_id = $2 AND account_id = $1 AND revoked_at IS NULL)`,
    [session.accountId, session.sessionId],
  )
  return rows[0]?.role ?? null
}
