import { createHash } from 'node:crypto'

import type { PoolClient } from 'pg'

import type { Caller } from '../../contract/caller.ts'
import { decodeCursor, encodeCursor, type PageQuery } from '../../contract/pagination.ts'
import { ApiProblem } from '../../contract/problems.ts'
import { type Progress, unfollowed } from '../../contract/progress.ts'
import { recordAudit } from '../../db/audit.ts'
import type { Database } from '../../db/client.ts'
import { writeOnce } from '../../db/idempotency.ts'
import { inTransaction } from '../../db/transaction.ts'
import { readSheet, type Sheet, type Upload } from './csv/sheet.ts'
import type { ImportQueue } from './followed/queue.ts'
import { type FollowedImport, failIfAbandoned, findFollowed } from './followed/repository.ts'
import type { NotebookColumn } from './notebook/columns.ts'
import { importNotebook } from './notebook/import.ts'
import { withdrawSessions } from './notebook/repository.ts'
import type { CataloguePort, ReleaseTables, SubmissionPort } from './ports.ts'
import { importRelease } from './release/import.ts'
import {
  findImport,
  findSameFile,
  listImports,
  lockImport,
  markWithdrawn,
  type StoredImport,
  takeTurn,
} from './repository.ts'
import type { Import, ImportedFile, ImportRequest } from './schema.ts'

/** What the use cases work with. */
export interface ImportDesk {
  readonly db: Database
  readonly columns: readonly NotebookColumn[]
  readonly submissions: SubmissionPort
  readonly catalogue: CataloguePort
  readonly tables: ReleaseTables
  readonly queue: ImportQueue
  /** Called after the commit of each write that changes what comparisons rest on. */
  readonly onEvidenceChanged: () => void
}

/** Who sends what. */
export interface ImportWrite {
  readonly caller: Caller
  readonly idempotencyKey: string | undefined
  readonly uploads: readonly Upload[]
  /** Import of a release that gives way to this one. */
  readonly replaces: string | undefined
}

/** What one file, or the files of a release, are to be taken for. */
export interface Arrival {
  readonly accountId: string
  readonly kind: Import['kind']
  readonly sheets: ReadonlyMap<string, Sheet>
  readonly files: ImportedFile[]
  readonly fileSha256: Buffer
  readonly replaces: string | null
}

/**
 * Takes files in, all of them or nothing: checked and stored in one transaction.
 *
 * @returns status 201 with the new import, or 200 with the one that the same file made before
 */
export async function importFiles(
  desk: ImportDesk,
  write: ImportWrite,
  progress: Progress = unfollowed,
) {
  await progress(0, 'reading')
  const { caller, idempotencyKey, replaces } = write
  const arrival = await arrivalOf(write)
  if (arrival.kind === 'release') requireModerator(caller)
  const request = {
    accountId: caller.accountId,
    idempotencyKey,
    target: 'POST /v1/imports',
    body: { files: arrival.files, replaces: replaces ?? null },
  }
  const answer = await writeOnce(desk.db, request, async (client) =>
    takeIn({ ...desk, progress }, client, arrival),
  )
  if (!answer.replayed && answer.status === 201) desk.onEvidenceChanged()
  return answer
}

/** The same, without waiting: the answer says where to follow it. */
export async function followImport(desk: ImportDesk, write: ImportWrite): Promise<ImportRequest> {
  const work = async (progress: Progress) => (await importFiles(desk, write, progress)).body
  return toRequest(await desk.queue.add(write.caller.accountId, work))
}

type Taking = ImportDesk & { readonly progress: Progress }

async function takeIn(desk: Taking, client: PoolClient, arrival: Arrival) {
  const { kind, accountId } = arrival
  await takeTurn(client, kind === 'release' ? 'releases' : accountId)
  const before = await findSameFile(client, arrival)
  if (before !== null) return { status: 200, body: toImport(before) }
  const stored =
    kind === 'release'
      ? await importRelease(client, desk, arrival)
      : await importNotebook(client, desk, arrival)
  const { id } = stored
  await recordAudit(client, [
    {
      actorId: accountId,
      action: 'import.made',
      subjectKind: 'import',
      subjectId: id,
      detail: { kind },
    },
  ])
  return { status: 201, body: toImport(stored) }
}

/** A file that is the whole body is known by its header. */
async function arrivalOf({ uploads, caller, replaces }: ImportWrite): Promise<Arrival> {
  const read = await Promise.all(
    uploads.map(async (upload) => ({ upload, sheet: await readSheet(upload) })),
  )
  const parts = read.map(({ upload, sheet }) => ({
    sheet,
    bytes: upload.bytes,
    part: (upload.part ?? partOf(sheet)) as ImportedFile['part'],
  }))
  const main = parts.find(({ part }) => part === 'notebook' || part === 'runs')
  if (main === undefined) throw refused('', 'A part notebook, or a part runs, is needed.')
  const alone = main.part === 'notebook' && parts.length > 1
  if (alone) throw refused('/notebook', 'A notebook comes alone.')
  return {
    accountId: caller.accountId,
    kind: main.part === 'notebook' ? 'notebook' : 'release',
    sheets: new Map(parts.map(({ part, sheet }) => [part, sheet])),
    files: parts.map(({ part, bytes }) => ({
      part,
      sha256: hashOf(bytes).toString('hex'),
      sizeBytes: bytes.length,
    })),
    fileSha256: hashOf(main.bytes),
    replaces: replaces ?? null,
  }
}

function partOf({ columns }: Sheet): ImportedFile['part'] {
  return columns.includes('run_key') ? 'runs' : 'notebook'
}

function hashOf(bytes: Buffer): Buffer {
  return createHash('sha256').update(bytes).digest()
}

function refused(pointer: string, detail: string): ApiProblem {
  return new ApiProblem('invalid-request', { errors: [{ pointer, detail }] })
}

function requireModerator({ role }: Caller): void {
  if (role === 'moderator' || role === 'admin') return
  throw new ApiProblem('not-permitted', {
    detail: 'Taking in a release needs the role moderator or admin.',
  })
}

/** Takes out of the evidence what an import brought in. Doing it again changes nothing. */
export async function withdrawImport(
  { db, onEvidenceChanged }: Pick<ImportDesk, 'db' | 'onEvidenceChanged'>,
  caller: Caller,
  id: string,
): Promise<void> {
  const changed = await inTransaction(db, async (client) => {
    const found = await lockImport(client, id)
    if (found === null) throw unknownImport(id)
    if (found.kind === 'release') requireModerator(caller)
    else if (found.accountId !== caller.accountId) throw unknownImport(id)
    if (found.withdrawnAt !== null) return false
    await markWithdrawn(client, id)
    await withdrawSessions(client, id)
    const subject = { subjectKind: 'import', subjectId: id } as const
    await recordAudit(client, [
      { actorId: caller.accountId, action: 'import.withdrawn', ...subject, detail: {} },
    ])
    return true
  })
  if (changed) onEvidenceChanged()
}

/** Reads an import: a notebook for its owner and moderators, a release for everybody with an account. */
export async function readImport(db: Database, caller: Caller, id: string): Promise<Import> {
  const found = await findImport(db.pool, id)
  const isForCaller =
    found?.kind === 'release' ||
    found?.accountId === caller.accountId ||
    ['moderator', 'admin'].includes(caller.role)
  if (found === null || !isForCaller) throw unknownImport(id)
  return toImport(found)
}

/**
 * How far an import is that its account sent.
 *
 * @throws {ApiProblem} not-found
 */
export async function readRequest(
  { pool }: Database,
  { accountId }: Caller,
  id: string,
): Promise<ImportRequest> {
  await failIfAbandoned(pool, id)
  const found = await findFollowed(pool, id)
  if (found?.accountId === accountId) return toRequest(found)
  throw new ApiProblem('not-found', { detail: `There is no request ${id} of yours to import.` })
}

/** A page of the imports of an account and of the releases taken in here, newest first. */
export async function pageOfImports(db: Database, caller: Caller, { limit, cursor }: PageQuery) {
  const after = cursor === undefined ? null : markOf(cursor)
  const found = await listImports(db.pool, caller.accountId, { after, limit: limit + 1 })
  const items = found.slice(0, limit)
  const last = items.at(-1)
  const nextCursor =
    found.length > limit && last !== undefined
      ? encodeCursor([last.createdAt.toISOString(), last.id])
      : null
  return { items: items.map(toImport), nextCursor }
}

const DAY_AND_TIME = /^\d{4}-\d\d-\d\dT[\d:.]+Z$/
const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/

function markOf(cursor: string): { at: string; id: string } {
  const [at, id, ...rest] = decodeCursor(cursor) ?? []
  const isMark = DAY_AND_TIME.test(String(at)) && UUID.test(String(id)) && rest.length === 0
  if (isMark) return { at: String(at), id: String(id) }
  throw refused('/cursor', 'is not a cursor of this list')
}

function unknownImport(id: string): ApiProblem {
  return new ApiProblem('not-found', { detail: `There is no import ${id}.` })
}

function toRequest({ accountId: _, importId, ...request }: FollowedImport): ImportRequest {
  return {
    ...request,
    import: importId,
    url: importId === null ? null : `/v1/imports/${importId}`,
    createdAt: request.createdAt.toISOString(),
    finishedAt: request.finishedAt?.toISOString() ?? null,
  }
}

function toImport({ id, kind, createdAt, withdrawnAt, files, summary }: StoredImport): Import {
  return {
    ...{ id, kind, files },
    createdAt: createdAt.toISOString(),
    withdrawnAt: withdrawnAt?.toISOString() ?? null,
    ...summary,
  }
}
