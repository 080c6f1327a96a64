import type { Pool, PoolClient } from 'pg'

import type { Import, ImportedFile, ImportSummary } from './schema.ts'

type Queryable = Pick<Pool | PoolClient, 'query'>

export interface StoredImport {
  readonly id: string
  readonly accountId: string
  readonly kind: Import['kind']
  readonly files: ImportedFile[]
  readonly summary: ImportSummary
  readonly createdAt: Date
  readonly withdrawnAt: Date | null
}

const COLUMNS = `id, account_id AS "accountId", kind, files, summary, created_at AS "createdAt",
  withdrawn_at AS "withdrawnAt"`

export type NewImport = Pick<StoredImport, 'accountId' | 'kind' | 'files' | 'summary'> & {
  /** Of the notebook, or of the runs of a release. */
  readonly fileSha256: Buffer
}

export async function insertImport(
  client: PoolClient,
  { accountId, kind, files, summary, fileSha256 }: NewImport,
): Promise<StoredImport> {
  const { rows } = await client.query<StoredImport>(
    `INSERT INTO data_import (account_id, kind, file_sha256, files, summary)
     VALUES ($1, $2, $3, $4, $5) RETURNING ${COLUMNS}`,
    [accountId, kind, fileSha256, JSON.stringify(files), JSON.stringify(summary)],
  )
  return rows[0]!
}

/** The import of that very file that still counts: of the account, or of anybody for a release. */
export async function findSameFile(
  client: PoolClient,
  { accountId, kind, fileSha256 }: Pick<NewImport, 'accountId' | 'kind' | 'fileSha256'>,
): Promise<StoredImport | null> {
  const { rows } = await client.query<StoredImport>(
    `SELECT ${COLUMNS} FROM data_import
      WHERE kind = $2 AND file_sha256 = $3 AND withdrawn_at IS NULL
        AND (kind = 'release' OR account_id = $1)`,
    [accountId, kind, fileSha256],
  )
  return rows[0] ?? null
}

export async function findImport(source: Queryable, id: string): Promise<StoredImport | null> {
  const { rows } = await source.query<StoredImport>(
    `SELECT ${COLUMNS} FROM data_import WHERE id = $1`,
    [id],
  )
  return rows[0] ?? null
}

/** The import, locked until the transaction ends, or null. */
export async function lockImport(client: PoolClient, id: string): Promise<StoredImport | null> {
  const { rows } = await client.query<StoredImport>(
    `SELECT ${COLUMNS} FROM data_import WHERE id = $1 FOR UPDATE`,
    [id],
  )
  return rows[0] ?? null
}

export async function markWithdrawn(client: PoolClient, id: string): Promise<void> {
  await client.query('UPDATE data_import SET withdrawn_at = now() WHERE id = $1', [id])
}

/** Imports of an account and all releases, newest first, those after a mark. */
export async function listImports(
  source: Queryable,
  accountId: string,
  { after, limit }: { readonly after: { at: string; id: string } | null; readonly limit: number },
): Promise<StoredImport[]> {
  const { rows } = await source.query<StoredImport>(
    `SELECT ${COLUMNS} FROM data_import
      WHERE (account_id = $1 OR kind = 'release')
        AND ($2::timestamptz IS NULL OR (created_at, id) < ($2::timestamptz, $3::uuid))
      ORDER BY created_at DESC, id DESC LIMIT $4`,
    [accountId, after?.at ?? null, after?.id ?? null, limit],
  )
  return rows
}

/** Imports that could touch one another take turns; the lock holds until the transaction ends. */
export async function takeTurn(client: PoolClient, scope: string): Promise<void> {
  await client.query('SELECT pg_advisory_xact_lock(hashtextextended($1, 7310005))', [scope])
}
