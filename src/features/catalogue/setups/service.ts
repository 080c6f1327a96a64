import type { PoolClient } from 'pg'

import type { Caller } from '../../../contract/caller.ts'
import { ApiProblem, type FieldError } from '../../../contract/problems.ts'
import { setupName } from '../../../contract/setup-name.ts'
import type { Database } from '../../../db/client.ts'
import { type WriteAnswer, writeOnce } from '../../../db/idempotency.ts'
import { findSetupOf, insertSetup } from '../../../db/setups.ts'
import { pageFrom, positionOf } from '../list-query.ts'
import { searchWords } from '../search-words.ts'
import { findParts, findSetup, findSetups, type ReportRow, type SetupRow } from './repository.ts'
import type { NewSetup, Safety, Setup, SetupQuery } from './schema.ts'

/** A page of setups: by name, or the best matches of a search first. */
export async function listSetups(db: Database, query: SetupQuery) {
  const { q, cursor, limit, ...parts } = query
  const words = q === undefined ? null : searchWords(q)
  const rows = await findSetups(db, { words, parts, after: positionOf(cursor), limit })
  return pageFrom(rows, limit, toSetup)
}

/** The setup with that id. A merged duplicate's id gives the setup that remains. */
export async function getSetup(db: Database, id: string): Promise<Setup> {
  const row = await findSetup(db.pool, id)
  if (row === null) throw new ApiProblem('not-found', { detail: `There is no setup ${id}.` })
  return row.id === id ? toSetup(row) : { ...toSetup(row), mergedIntoId: row.id }
}

/**
 * Adds a combination of three components.
 *
 * @throws {ApiProblem} unknown-reference for an id that is no component of its kind, conflict
 *   naming the setup that has this combination already
 */
export async function addSetup(
  db: Database,
  caller: Caller,
  idempotencyKey: string | undefined,
  added: NewSetup,
): Promise<WriteAnswer<Setup>> {
  const request = {
    accountId: caller.accountId,
    idempotencyKey,
    target: 'POST /v1/setups',
    body: added,
  }
  return writeOnce(db, request, async (client) => {
    const setup = await withSurvivingParts(client, added)
    const known = await findSetupOf(client, setup)
    if (known !== null) throw alreadyThere(known)
    const id = await insertSetup(client, { ...setup, accountId: caller.accountId })
    if (id === null) throw alreadyThere((await findSetupOf(client, setup))!)
    return { status: 201, body: toSetup((await findSetup(client, id))!) }
  })
}

const KIND_OF_FIELD = {
  powerplantId: 'powerplant',
  propellerId: 'propeller',
  frameId: 'frame',
} as const

/** The setup with ids of merged duplicates replaced by what they were merged into. */
async function withSurvivingParts(client: PoolClient, added: NewSetup): Promise<NewSetup> {
  const fields = Object.keys(KIND_OF_FIELD) as (keyof typeof KIND_OF_FIELD)[]
  const parts = await findParts(
    client,
    fields.map((field) => added[field]),
  )
  const errors: FieldError[] = []
  const setup = { ...added }
  for (const field of fields) {
    const kind = KIND_OF_FIELD[field]
    const part = parts.find(({ askedId }) => askedId === added[field].toLowerCase())
    if (part?.kind === kind) setup[field] = part.id
    else {
      const detail =
        part === undefined
          ? `There is no ${kind} ${added[field]}.`
          : `${added[field]} is a ${part.kind}, not a ${kind}.`
      errors.push({ pointer: `/${field}`, detail })
    }
  }
  if (errors.length > 0) throw new ApiProblem('unknown-reference', { errors })
  return setup
}

function alreadyThere(id: string): ApiProblem {
  const detail = `Setup ${id} is this combination already.`
  return new ApiProblem('conflict', { detail, existingId: id })
}

function toSetup({ id, powerplant, propeller, frame, note, createdAt, reports }: SetupRow): Setup {
  return {
    id,
    name: setupName({ powerplant, propeller, frame }),
    powerplantId: powerplant.id,
    propellerId: propeller.id,
    frameId: frame.id,
    powerplant,
    propeller,
    frame,
    ...(note === null ? {} : { note }),
    safety: safetyOf(reports ?? []),
    createdAt: createdAt.toISOString(),
  }
}

/** The worst report that is not lifted gives the state. */
function safetyOf(reports: readonly ReportRow[]): Safety {
  const standing = new Set(reports.filter((r) => r.liftedAt === null).map((r) => r.state))
  const state = (['doNotFly', 'advisory'] as const).find((s) => standing.has(s)) ?? 'none'
  return {
    state,
    reports: reports.map(({ id, state, reason, createdAt, liftedAt, liftedReason }) => ({
      id,
      state,
      reason,
      createdAt: new Date(createdAt).toISOString(),
      ...(liftedAt === null ? {} : { liftedAt: new Date(liftedAt).toISOString() }),
      ...(liftedReason === null ? {} : { liftedReason }),
    })),
  }
}
