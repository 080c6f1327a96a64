import type { PoolClient } from 'pg'

import type { StoredSession } from './store.ts'

interface KnownSession {
  readonly submissionId: string
  readonly contentHash: Buffer
}

/** Sessions that notebooks of the account brought in and that still count, by the hash of their label. */
export async function findKnownSessions(
  client: PoolClient,
  accountId: string,
): Promise<Map<string, KnownSession>> {
  const { rows } = await client.query<KnownSession & { labelHash: Buffer }>(
    `SELECT session.label_hash AS "labelHash", session.content_hash AS "contentHash",
            submission.id AS "submissionId"
       FROM submission JOIN imported_session session ON session.submission_id = submission.id
      WHERE submission.account_id = $1 AND submission.withdrawn_at IS NULL`,
    [accountId],
  )
  return new Map(rows.map((row) => [row.labelHash.toString('hex'), row]))
}

/** The guest pilots of an account behind these hashes of labels, new ones with a new pseudonym. */
export async function guestPilots(
  client: PoolClient,
  accountId: string,
  labelHashes: readonly Buffer[],
): Promise<Map<string, string>> {
  if (labelHashes.length === 0) return new Map()
  await client.query(
    `INSERT INTO guest_pilot (account_id, label_hash)
     SELECT DISTINCT $1::uuid, hash FROM unnest($2::bytea[]) AS label(hash)
         ON CONFLICT DO NOTHING`,
    [accountId, labelHashes],
  )
  const { rows } = await client.query<{ hash: string; id: string }>(
    `SELECT encode(label_hash, 'hex') AS hash, id FROM guest_pilot
      WHERE account_id = $1 AND label_hash = ANY ($2::bytea[])`,
    [accountId, labelHashes],
  )
  return new Map(rows.map(({ hash, id }) => [hash, id]))
}

/** Marks submissions as out of an import, and by which pilot. */
export async function linkSessions(
  client: PoolClient,
  importId: string,
  sessions: readonly StoredSession[],
): Promise<void> {
  const ids = sessions.map(({ submissionId }) => submissionId)
  await client.query(
    `INSERT INTO imported_session (submission_id, import_id, label_hash, content_hash)
     SELECT id, $2, label, content FROM unnest($1::uuid[], $3::bytea[], $4::bytea[]) AS s(id, label, content)`,
    [ids, importId, sessions.map((s) => s.labelHash), sessions.map((s) => s.contentHash)],
  )
  await client.query(
    `UPDATE submission SET guest_pilot_id = flown.pilot
       FROM unnest($1::uuid[], $2::uuid[]) AS flown(id, pilot)
      WHERE submission.id = flown.id AND flown.pilot IS NOT NULL`,
    [ids, sessions.map((s) => s.guestPilotId)],
  )
}

/** Withdraws what an import brought in. */
export async function withdrawSessions(client: PoolClient, importId: string): Promise<void> {
  await client.query(
    `UPDATE submission SET withdrawn_at = now()
       FROM imported_session session
      WHERE session.submission_id = submission.id AND session.import_id = $1
        AND submission.withdrawn_at IS NULL`,
    [importId],
  )
}
