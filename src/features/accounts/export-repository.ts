import type { Database } from '../../db/client.ts'
import type { AccountExport } from './schema.ts'

type Stored = Omit<AccountExport, 'exportedAt' | 'account'>

/** What is stored about a person beside the account itself; hashes of secrets are left out. */
export async function findStoredAbout(db: Database, accountId: string): Promise<Stored> {
  const createdByCaller = { where: { createdById: accountId }, select: { id: true } } as const
  const apiKeys = await findApiKeys(db, accountId)
  const sessions = await findSessions(db, accountId)
  const submissions = await findSubmissions(db, accountId)
  const imports = await findImports(db, accountId)
  const reports = await findReports(db, accountId)
  const actions = await findActions(db, accountId)
  const components = await db.prisma.component.findMany(createdByCaller)
  const setups = await db.prisma.setup.findMany(createdByCaller)
  return {
    apiKeys,
    sessions,
    submissions,
    imports,
    reports,
    actions,
    componentsAdded: components.map((component) => component.id),
    setupsAdded: setups.map((setup) => setup.id),
  }
}

async function findImports(db: Database, accountId: string): Promise<Stored['imports']> {
  const found = await db.prisma.dataImport.findMany({
    where: { accountId },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    select: { id: true, kind: true, createdAt: true, withdrawnAt: true, files: true },
  })
  return found.map((one) => ({
    ...one,
    createdAt: one.createdAt.toISOString(),
    withdrawnAt: one.withdrawnAt?.toISOString() ?? null,
  }))
}

async function findReports(db: Database, accountId: string): Promise<Stored['reports']> {
  const { rows } = await db.pool.query<
    Omit<Stored['reports'][number], 'createdAt'> & { createdAt: Date }
  >(
    `SELECT id, origin, kind, text, setup_id AS "setupId", component_id AS "componentId",
            submission_id AS "submissionId", created_at AS "createdAt"
       FROM report WHERE account_id = $1 ORDER BY created_at, id`,
    [accountId],
  )
  return rows.map((row) => ({ ...row, createdAt: row.createdAt.toISOString() }))
}

async function findActions(db: Database, accountId: string): Promise<Stored['actions']> {
  const { rows } = await db.pool.query<Omit<Stored['actions'][number], 'at'> & { at: Date }>(
    `SELECT at, action, subject_kind AS "subjectKind", subject_id AS "subjectId", detail
       FROM audit_event WHERE actor_id = $1 ORDER BY id`,
    [accountId],
  )
  return rows.map((row) => ({ ...row, at: row.at.toISOString() }))
}

async function findApiKeys(db: Database, accountId: string): Promise<Stored['apiKeys']> {
  const keys = await db.prisma.apiKey.findMany({
    where: { accountId },
    orderBy: { createdAt: 'asc' },
    omit: { keyHash: true, accountId: true },
  })
  return keys.map((key) => ({
    ...key,
    createdAt: key.createdAt.toISOString(),
    lastUsedAt: key.lastUsedAt?.toISOString() ?? null,
    revokedAt: key.revokedAt?.toISOString() ?? null,
  }))
}

/** Raw SQL because a session is an aggregate of its chain of refresh tokens. */
async function findSessions(db: Database, accountId: string): Promise<Stored['sessions']> {
  const { rows } = await db.pool.query<{
    id: string
    startedAt: Date
    lastRefreshedAt: Date
    revoked: boolean
  }>(
    `SELECT family_id AS id, min(issued_at) AS "startedAt", max(issued_at) AS "lastRefreshedAt",
            bool_or(revoked_at IS NOT NULL) AS revoked
       FROM refresh_token WHERE account_id = $1
      GROUP BY family_id ORDER BY min(issued_at), family_id`,
    [accountId],
  )
  return rows.map((row) => ({
    ...row,
    startedAt: row.startedAt.toISOString(),
    lastRefreshedAt: row.lastRefreshedAt.toISOString(),
  }))
}

async function findSubmissions(db: Database, accountId: string): Promise<Stored['submissions']> {
  const submissions = await db.prisma.submission.findMany({
    where: { accountId },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    include: { revisions: { orderBy: { number: 'asc' } } },
  })
  return submissions.map((submission) => ({
    id: submission.id,
    createdAt: submission.createdAt.toISOString(),
    withdrawnAt: submission.withdrawnAt?.toISOString() ?? null,
    currentRevision: submission.currentRevision,
    revisions: submission.revisions.map(({ number, createdAt, body }) => ({
      number,
      createdAt: createdAt.toISOString(),
      body,
    })),
  }))
}
