import type { Pool, PoolClient } from 'pg'

import type { StoredFile } from '../files/store.ts'
import type { Anonymity } from '../privacy/anonymity.ts'

type Queryable = Pick<Pool | PoolClient, 'query'>

/** What a list tells of a release. */
export interface ReleaseSummary {
  readonly methodVersion: string
  readonly modelVersion: string
  readonly fits: readonly {
    readonly metric: string
    readonly fitId: string
    readonly runs: number
  }[]
  readonly setups: number
  readonly anonymity: Anonymity
  readonly changes: readonly string[]
}

export interface Release {
  readonly id: string
  readonly number: number
  /** SHA-256 of SHA256SUMS, hexadecimal. */
  readonly digest: string
  readonly evidenceId: string
  readonly snapshotAt: Date
  readonly createdAt: Date
  readonly summary: ReleaseSummary
}

const COLUMNS = `id, number, digest, evidence_id AS "evidenceId", snapshot_at AS "snapshotAt",
  created_at AS "createdAt", summary`

/** Releases, newest first, from before that number on. */
export async function listReleases(
  source: Queryable,
  { before, limit }: { readonly before: number | null; readonly limit: number },
): Promise<Release[]> {
  const { rows } = await source.query<Release>(
    `SELECT ${COLUMNS} FROM dataset_release WHERE number < COALESCE($1, number + 1)
      ORDER BY number DESC LIMIT $2`,
    [before, limit],
  )
  return rows
}

export async function findRelease(source: Queryable, id: string): Promise<Release | null> {
  const { rows } = await source.query<Release>(
    `SELECT ${COLUMNS} FROM dataset_release WHERE id = $1`,
    [id],
  )
  return rows[0] ?? null
}

export async function findLatestRelease(source: Queryable): Promise<Release | null> {
  const [latest] = await listReleases(source, { before: null, limit: 1 })
  return latest ?? null
}

/** How many releases a day has already; for the name of the next. */
export async function countReleasesOf(source: Queryable, day: string): Promise<number> {
  const { rows } = await source.query<{ count: number }>(
    'SELECT count(*)::int AS count FROM dataset_release WHERE starts_with(id, $1)',
    [`${day}.`],
  )
  return rows[0]!.count
}

export type NewRelease = Omit<Release, 'createdAt'>

export async function insertRelease(
  client: PoolClient,
  release: NewRelease,
  files: readonly StoredFile[],
): Promise<void> {
  const { id, number, digest, evidenceId, snapshotAt, summary } = release
  await client.query(
    `INSERT INTO dataset_release (id, number, digest, evidence_id, snapshot_at, summary)
     VALUES ($1, $2, $3, $4, $5, $6)`,
    [id, number, digest, evidenceId, snapshotAt, summary],
  )
  for (const [position, file] of files.entries()) {
    await client.query(
      `INSERT INTO dataset_file (release_id, name, position, media_type, size_bytes, sha256, chunk_hashes)
       VALUES ($1, $2, $3, $4, $5, $6, $7)`,
      [id, file.name, position, file.mediaType, file.sizeBytes, file.sha256, file.chunkHashes],
    )
  }
}

interface FileRow extends Omit<StoredFile, 'sizeBytes'> {
  readonly sizeBytes: string
}

/** The files of a release in their order, or one of them by name. */
export async function findFiles(
  source: Queryable,
  releaseId: string,
  name?: string,
): Promise<StoredFile[]> {
  const { rows } = await source.query<FileRow>(
    `SELECT name, media_type AS "mediaType", size_bytes AS "sizeBytes", sha256,
            chunk_hashes AS "chunkHashes"
       FROM dataset_file WHERE release_id = $1 AND name = COALESCE($2, name) ORDER BY position`,
    [releaseId, name ?? null],
  )
  return rows.map((row) => ({ ...row, sizeBytes: Number(row.sizeBytes) }))
}
