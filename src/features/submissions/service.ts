import { randomUUID } from 'node:crypto'

import type { PoolClient } from 'pg'

import type { Caller } from '../../contract/caller.ts'
import { ApiProblem } from '../../contract/problems.ts'
import { REFERENCE } from '../../core/normalise/reference.ts'
import type { Warning } from '../../core/normalise/types.ts'
import { METHOD_VERSION } from '../../core/version.ts'
import type { Database } from '../../db/client.ts'
import { writeOnce } from '../../db/idempotency.ts'
import { inTransaction } from '../../db/transaction.ts'
import { countedBefore } from './alike/warnings.ts'
import type { FullSubmission, Submission } from './answer.ts'
import { type NormalisedSubmission, normalise } from './normalizations/normalise.ts'
import {
  findRevisions,
  insertRevision,
  lockSubmission,
  markWithdrawn,
  type NewStoredRun,
  type StoredRevision,
  type SubmissionHead,
  toShown,
} from './repository.ts'
import { reportFindings, type SetupFinding, worstFinding } from './safety/findings.ts'
import { findGrounded } from './safety/repository.ts'
import type { NewSubmission } from './schema.ts'
import { fullView, publicView } from './views.ts'

/** What the use cases work with. */
export interface SubmissionDesk {
  readonly db: Database
  /** Called after the commit of each write that changes what comparisons rest on. */
  readonly onEvidenceChanged: () => void
}

/** Who wants to store what. */
export interface SubmissionWrite {
  readonly caller: Caller
  readonly idempotencyKey: string | undefined
  readonly body: NewSubmission
}

/** Takes a validated session of flying to a stored submission with the result of every run. */
export async function submit(desk: SubmissionDesk, write: SubmissionWrite) {
  const target = 'POST /v1/submissions'
  const { accountId } = write.caller
  return store(desk, write, target, async (client) =>
    storeRevision(
      client,
      { ...write, doubts: await countedBefore(client, accountId, write.body) },
      { id: randomUUID(), accountId },
    ),
  )
}

/** Corrects a submission: the new body counts from now on, the old ones are kept. */
export async function revise(desk: SubmissionDesk, write: SubmissionWrite, id: string) {
  const target = `POST /v1/submissions/${id}/revisions`
  return store(desk, write, target, async (client) => {
    const head = await lockOwn(client, write.caller, id)
    if (head.withdrawnAt !== null) {
      throw new ApiProblem('conflict', { detail: 'A withdrawn submission cannot be revised.' })
    }
    return storeRevision(client, { ...write, doubts: [] }, head)
  })
}

/** Takes a submission out of the evidence. Doing it again changes nothing. */
export async function withdraw(desk: SubmissionDesk, caller: Caller, id: string): Promise<void> {
  const changed = await inTransaction(desk.db, async (client) => {
    const head = await lockOwn(client, caller, id)
    if (head.withdrawnAt !== null) return false
    await markWithdrawn(client, id)
    return true
  })
  if (changed) desk.onEvidenceChanged()
}

/** Reads a submission: all of it for its owner and moderators, else what everybody may see. */
export async function readSubmission(
  db: Database,
  caller: Caller | null,
  id: string,
): Promise<Submission> {
  const [stored] = await findRevisions(db.pool, [{ id }])
  if (stored === undefined) throw unknownSubmission(id)
  if (seesAll(caller, stored)) return fullView(stored)
  if (stored.withdrawnAt !== null) throw new ApiProblem('gone')
  return publicView(stored)
}

/** Whether the private fields of a submission are for this caller. */
export function seesAll(caller: Caller | null, { accountId }: SubmissionHead): boolean {
  if (caller === null) return false
  return caller.accountId === accountId || caller.role === 'moderator' || caller.role === 'admin'
}

export function unknownSubmission(id: string): ApiProblem {
  return new ApiProblem('not-found', { detail: `There is no submission ${id}.` })
}

async function store(
  { db, onEvidenceChanged }: SubmissionDesk,
  { caller, idempotencyKey, body }: SubmissionWrite,
  target: string,
  work: (client: PoolClient) => Promise<FullSubmission>,
): Promise<FullSubmission> {
  const request = { accountId: caller.accountId, idempotencyKey, target, body }
  const answer = await writeOnce(db, request, async (client) => ({
    status: 201,
    body: await work(client),
  }))
  if (!answer.replayed) onEvidenceChanged()
  return answer.body
}

async function storeRevision(
  client: PoolClient,
  { body, doubts }: SubmissionWrite & { readonly doubts: readonly Warning[] },
  head: Pick<SubmissionHead, 'id' | 'accountId'>,
): Promise<FullSubmission> {
  const checked = await normalise(client, body)
  const normalised = { ...checked, warnings: [...checked.warnings, ...doubts] }
  const stored = await storeNormalised(client, head, { body, normalised })
  const setupIds = normalised.setupIds.filter((setupId) => setupId !== null)
  return fullView(toShown(stored, new Set(await findGrounded(client, setupIds))))
}

/** Stores a revision that was checked, with what it says against flying. */
export async function storeNormalised(
  client: PoolClient,
  { id, accountId }: Pick<SubmissionHead, 'id' | 'accountId'>,
  { body, normalised }: { readonly body: NewSubmission; readonly normalised: NormalisedSubmission },
): Promise<StoredRevision> {
  const runs = runsToStore(body, normalised)
  const { warnings } = normalised
  const revision = { submissionId: id, accountId, body, warnings, runs }
  const stored = await insertRevision(client, revision)
  await reportFindings(client, { submissionId: id, accountId }, findingsOf(body, normalised))
  return stored
}

/** What the measurements say against flying, per set-up. */
function findingsOf(body: NewSubmission, { setupIds }: NormalisedSubmission): SetupFinding[] {
  return body.entries.flatMap(({ runs }, index) => {
    const finding = worstFinding(runs)
    return finding === null ? [] : [{ ...finding, setupId: setupIds[index]! }]
  })
}

/** The runs of a body with what was worked out for them. */
export function runsToStore(
  body: NewSubmission,
  { setupIds, outcomes }: NormalisedSubmission,
): NewStoredRun[] {
  return body.entries.flatMap(({ runs }, entryIndex) =>
    runs.map(({ kind }, runIndex) => ({
      entryIndex,
      runIndex,
      kind,
      setupId: setupIds[entryIndex]!,
      methodVersion: METHOD_VERSION,
      referenceId: REFERENCE.id,
      ...outcomes[entryIndex]![runIndex]!,
    })),
  )
}

async function lockOwn(client: PoolClient, caller: Caller, id: string): Promise<SubmissionHead> {
  const head = await lockSubmission(client, id)
  if (head === null) throw unknownSubmission(id)
  if (head.accountId !== caller.accountId) {
    throw new ApiProblem('not-permitted', { detail: 'Only who submitted it may do that.' })
  }
  return head
}
