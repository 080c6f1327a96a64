import type { PoolClient } from 'pg'

import type { Caller } from '../../../contract/caller.ts'
import { ApiProblem } from '../../../contract/problems.ts'
import { recordAudit } from '../../../db/audit.ts'
import type { Database } from '../../../db/client.ts'
import { type WriteAnswer, writeOnce } from '../../../db/idempotency.ts'
import { inheritFindings } from '../../../db/setups.ts'
import {
  findSetupsWith,
  findTwins,
  lockBoth,
  type MergedTable,
  type MergeRow,
  pointTo,
} from './repository.ts'
import type { Merge, MergedPair, NewMerge } from './schema.ts'

/** Who merges which record of which table into which other one. */
export interface MergeOrder {
  readonly caller: Caller
  readonly idempotencyKey: string | undefined
  readonly table: MergedTable
  readonly id: string
  readonly body: NewMerge
}

/**
 * Makes two records of one thing one: the first id stands for the second from now on, with its flights
 * and its reports. Nothing is erased.
 *
 * @throws {ApiProblem} not-found; conflict where the record is merged already; unknown-reference for a
 *   record to merge into that does not exist, is the same, or is of another kind
 */
export function merge(db: Database, order: MergeOrder): Promise<WriteAnswer<Merge>> {
  const { caller, idempotencyKey, table, id, body } = order
  const target = `POST /v1/${table}s/${id}/merges`
  const request = { accountId: caller.accountId, idempotencyKey, target, body }
  return writeOnce(db, request, async (client) => {
    const pair = await pairOf(client, order)
    await pointTo(client, table, pair)
    const setups = table === 'component' ? await followInSetups(client, pair.intoId) : []
    await recordAudit(client, [
      eventOf(table, pair, order),
      ...setups.map((one) => eventOf('setup', one, order)),
    ])
    return { status: 201, body: { ...pair, setups } }
  })
}

async function pairOf(
  client: PoolClient,
  { table, id, body }: Pick<MergeOrder, 'table' | 'id' | 'body'>,
): Promise<MergedPair> {
  const rows = await lockBoth(client, table, [id, body.intoId])
  const found = (wanted: string) => rows.find((row) => row.id === wanted.toLowerCase())
  const [merged, into] = [found(id), found(body.intoId)]
  if (merged === undefined) {
    throw new ApiProblem('not-found', { detail: `There is no ${table} ${id}.` })
  }
  if (merged.mergedIntoId !== null) {
    throw new ApiProblem('conflict', {
      detail: `It is merged into ${merged.mergedIntoId} already.`,
      existingId: merged.mergedIntoId,
    })
  }
  const fault = faultOf(table, merged, into)
  if (fault !== null) {
    throw new ApiProblem('unknown-reference', { errors: [{ pointer: '/intoId', detail: fault }] })
  }
  return { mergedId: merged.id, intoId: into!.id }
}

function faultOf(table: MergedTable, merged: MergeRow, into: MergeRow | undefined): string | null {
  if (into === undefined) return `There is no such ${table}.`
  if (into.id === merged.id) return 'That is the record itself.'
  if (into.mergedIntoId !== null) return `It is merged itself; name ${into.mergedIntoId}.`
  return into.kind === merged.kind ? null : `It is a ${into.kind}, not a ${merged.kind}.`
}

/** Setups that are one combination now become one, and all heed what was decided on the component. */
async function followInSetups(client: PoolClient, componentId: string): Promise<MergedPair[]> {
  const twins = await findTwins(client, componentId)
  for (const twin of twins) await pointTo(client, 'setup', twin)
  await inheritFindings(client, await findSetupsWith(client, componentId))
  return twins
}

function eventOf(
  table: MergedTable,
  { mergedId, intoId }: MergedPair,
  { caller, body }: MergeOrder,
) {
  return {
    actorId: caller.accountId,
    action: 'catalogue.merged',
    subjectKind: table,
    subjectId: mergedId,
    detail: { intoId, reason: body.reason },
  } as const
}
