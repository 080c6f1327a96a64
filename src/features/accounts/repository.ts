import type { PoolClient } from 'pg'

import type { Role } from '../../contract/caller.ts'
import type { Database } from '../../db/client.ts'
import type { Account } from './schema.ts'

const ACCOUNT_FIELDS = {
  id: true,
  email: true,
  displayName: true,
  role: true,
  createdAt: true,
} as const

interface AccountRow {
  readonly id: string
  readonly email: string
  readonly displayName: string
  readonly role: string
  readonly createdAt: Date
}

/** The account, unless it does not exist or was closed. */
export async function findAccount(db: Database, id: string): Promise<Account | null> {
  const row = await db.prisma.account.findFirst({
    where: { id, closedAt: null },
    select: ACCOUNT_FIELDS,
  })
  return row === null ? null : toAccount(row)
}

/** What signing in needs; the hash leaves the feature's memory nowhere else. */
export function findCredentials(
  db: Database,
  email: string,
): Promise<{ id: string; passwordHash: string } | null> {
  return db.prisma.account.findFirst({
    where: { email, closedAt: null },
    select: { id: true, passwordHash: true },
  })
}

export async function isEmailTaken(db: Database, email: string): Promise<boolean> {
  return (await db.prisma.account.count({ where: { email } })) > 0
}

/**
 * Adds an account, or gives null where the e-mail is taken.
 *
 * Raw SQL because two sign-ups at once must not both pass: the unique index decides.
 */
export async function insertAccount(
  db: Database,
  account: { email: string; passwordHash: string; displayName: string; role: Role },
): Promise<Account | null> {
  const { rows } = await db.pool.query<AccountRow>(
    `INSERT INTO account (email, password_hash, display_name, role)
     VALUES ($1, $2, $3, $4)
         ON CONFLICT (email) DO NOTHING
  RETURNING id, email, display_name AS "displayName", role, created_at AS "createdAt"`,
    [account.email, account.passwordHash, account.displayName, account.role],
  )
  return rows[0] === undefined ? null : toAccount(rows[0])
}

/** Ids of the open administrators; the rows stay locked, so that none of them stops being one meanwhile. */
export async function lockAdministrators(client: PoolClient): Promise<string[]> {
  const { rows } = await client.query<{ id: string }>(
    `SELECT id FROM account WHERE role = 'admin' AND closed_at IS NULL
      ORDER BY id FOR NO KEY UPDATE`,
  )
  return rows.map((row) => row.id)
}

/** Gives an open account another role, and says which it had; null where there is none. */
export async function updateRole(
  client: PoolClient,
  id: string,
  role: Role,
): Promise<{ readonly account: Account; readonly before: Role } | null> {
  const { rows } = await client.query<AccountRow & { before: Role }>(
    `UPDATE account SET role = $2
       FROM (SELECT id, role FROM account WHERE id = $1 AND closed_at IS NULL FOR NO KEY UPDATE) AS old
      WHERE account.id = old.id
  RETURNING account.id, email, display_name AS "displayName", account.role,
            created_at AS "createdAt", old.role AS before`,
    [id, role],
  )
  if (rows[0] === undefined) return null
  const { before, ...account } = rows[0]
  return { account: toAccount(account), before }
}

/**
 * Takes the person out of an account: e-mail, name and password are overwritten, and sessions, API
 * keys and remembered answers are deleted, what was refused of files, and what leads from the labels of
 * a notebook to its pilots.
 * Submissions keep pointing at the row that remains.
 */
export async function eraseAccount(client: PoolClient, id: string): Promise<void> {
  await client.query(
    `UPDATE account
        SET email = 'closed-' || id || '@closed.invalid', display_name = 'Closed account',
            password_hash = 'none', role = 'pilot', closed_at = now()
      WHERE id = $1 AND closed_at IS NULL`,
    [id],
  )
  await client.query('DELETE FROM refresh_token WHERE account_id = $1', [id])
  await client.query('DELETE FROM api_key WHERE account_id = $1', [id])
  await client.query('DELETE FROM idempotency_record WHERE account_id = $1', [id])
  await client.query('DELETE FROM import_request WHERE account_id = $1', [id])
  await client.query('UPDATE guest_pilot SET label_hash = NULL WHERE account_id = $1', [id])
}

function toAccount(row: AccountRow): Account {
  return { ...row, role: row.role as Role, createdAt: row.createdAt.toISOString() }
}
