import type { Caller } from '../../contract/caller.ts'
import { decodeCursor, encodeCursor, type PageQuery } from '../../contract/pagination.ts'
import { ApiProblem } from '../../contract/problems.ts'
import type { Database } from '../../db/client.ts'
import { writeOnce } from '../../db/idempotency.ts'
import { readFile, type StoredFile } from './files/store.ts'
import { citationOf, LICENCE } from './release/facts.ts'
import type { ReleaseMaker } from './release/maker.ts'
import { findFiles, findRelease, listReleases, type Release } from './release/repository.ts'
import { findRequest, insertRequest, type ReleaseRequest } from './release/requests-repository.ts'
import type { DatasetRequest, ReleaseEntry } from './schema.ts'

/** A page of the releases, newest first. */
export async function listEntries(db: Database, { limit, cursor }: PageQuery) {
  const [before = null] = cursor === undefined ? [] : cursorKey(cursor)
  const found = await listReleases(db.pool, { before, limit: limit + 1 })
  const items = found.slice(0, limit)
  const last = items.at(-1)
  const nextCursor = found.length > limit && last !== undefined ? encodeCursor([last.number]) : null
  return { items: items.map(toEntry), nextCursor }
}

function cursorKey(cursor: string): number[] {
  const key = decodeCursor(cursor)
  if (key?.length === 1 && Number.isSafeInteger(key[0])) return key as number[]
  throw new ApiProblem('invalid-request', {
    errors: [{ pointer: '/cursor', detail: 'is not a cursor of this list' }],
  })
}

function toEntry(release: Release): ReleaseEntry {
  const { id, number, digest, snapshotAt, createdAt, summary } = release
  return {
    id,
    version: number,
    url: urlOf(id),
    digest,
    createdAt: createdAt.toISOString(),
    snapshotAt: snapshotAt.toISOString(),
    methodVersion: summary.methodVersion,
    modelVersion: summary.modelVersion,
    fits: [...summary.fits],
    setups: summary.setups,
    anonymity: summary.anonymity,
    changes: [...summary.changes],
    licence: LICENCE.name,
    citation: citationOf({ id, snapshotAt }),
  }
}

function urlOf(releaseId: string): string {
  return `/v1/datasets/${releaseId}`
}

/** Resources of a data package, as far as they are read here. */
interface Package {
  readonly resources: readonly { readonly path: string }[]
}

/**
 * The data package of a release as it reads at the address of the release, one step above the
 * files: paths lead from there.
 */
export async function readPackage(db: Database, releaseId: string): Promise<Package> {
  const file = await findDatasetFile(db, releaseId, 'datapackage.json')
  const parts: Buffer[] = []
  for await (const part of readFile(db.pool, file)) parts.push(part)
  const descriptor = JSON.parse(Buffer.concat(parts).toString('utf8')) as Package
  const resources = descriptor.resources.map((resource) => ({
    ...resource,
    path: `${releaseId}/${resource.path}`,
  }))
  return { ...descriptor, resources }
}

/** @throws {ApiProblem} not-found for a release or file that does not exist */
export async function findDatasetFile(
  db: Database,
  releaseId: string,
  name: string,
): Promise<StoredFile> {
  const [file] = await findFiles(db.pool, releaseId, name)
  if (file !== undefined) return file
  const isRelease = (await findRelease(db.pool, releaseId)) !== null
  throw new ApiProblem('not-found', {
    detail: isRelease
      ? `Release ${releaseId} has no file ${name}.`
      : `There is no release ${releaseId}.`,
  })
}

/** Queues a release and wakes the maker; the answer says where to follow it. */
export async function askForRelease(
  { db, maker }: { readonly db: Database; readonly maker: ReleaseMaker },
  caller: Caller,
  idempotencyKey: string | undefined,
): Promise<DatasetRequest> {
  const request = {
    accountId: caller.accountId,
    idempotencyKey,
    target: 'POST /v1/datasets',
    body: null,
  }
  const { body } = await writeOnce(db, request, async (client) => ({
    status: 202,
    body: toRequest(await insertRequest(client, caller.accountId)),
  }))
  maker.wake()
  return body
}

/** @throws {ApiProblem} not-found */
export async function readRequest(db: Database, id: string): Promise<DatasetRequest> {
  const found = await findRequest(db.pool, id)
  if (found === null) {
    throw new ApiProblem('not-found', { detail: `There is no request ${id} for a release.` })
  }
  return toRequest(found)
}

function toRequest(request: ReleaseRequest): DatasetRequest {
  const { id, state, progress, step, releaseId, createdAt, finishedAt } = request
  return {
    ...{ id, state, progress, step },
    release: releaseId,
    url: releaseId === null ? null : urlOf(releaseId),
    createdAt: createdAt.toISOString(),
    finishedAt: finishedAt?.toISOString() ?? null,
  }
}
