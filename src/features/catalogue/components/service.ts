import type { Caller } from '../../../contract/caller.ts'
import { ApiProblem } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { type WriteAnswer, writeOnce } from '../../../db/idempotency.ts'
import { pageFrom, positionOf } from '../list-query.ts'
import { searchWords } from '../search-words.ts'
import { DISTINGUISHING_FIELDS, isDuplicate } from './duplicates.ts'
import {
  type ComponentRow,
  findComponent,
  findComponents,
  findNamesakes,
  insertComponent,
  lockAdditions,
} from './repository.ts'
import type { Component, ComponentQuery, NewComponent } from './schema.ts'

/** A page of the catalogue: by name, or the best matches of a search first. */
export async function listComponents(db: Database, query: ComponentQuery) {
  const { q, kind, cursor, limit } = query
  const words = q === undefined ? null : searchWords(q)
  const rows = await findComponents(db, { words, kind, after: positionOf(cursor), limit })
  return pageFrom(rows, limit, toComponent)
}

/** The component with that id. A merged duplicate's id gives the component that remains. */
export async function getComponent(db: Database, id: string): Promise<Component> {
  const row = await findComponent(db.pool, id)
  if (row === null) throw new ApiProblem('not-found', { detail: `There is no component ${id}.` })
  return row.id === id ? toComponent(row) : { ...toComponent(row), mergedIntoId: row.id }
}

/**
 * Adds a component that is not in the catalogue yet.
 *
 * @throws {ApiProblem} conflict naming the component that it is already
 */
export async function addComponent(
  db: Database,
  caller: Caller,
  idempotencyKey: string | undefined,
  added: NewComponent,
): Promise<WriteAnswer<Component>> {
  const request = {
    accountId: caller.accountId,
    idempotencyKey,
    target: 'POST /v1/components',
    body: added,
  }
  return writeOnce(db, request, async (client) => {
    await lockAdditions(client, added.kind)
    const namesakes = await findNamesakes(client, added)
    const known = namesakes.find((namesake) => isDuplicate(added, namesake))
    if (known !== undefined) throw alreadyThere(added, known.id)
    const row = await insertComponent(client, caller.accountId, added)
    return { status: 201, body: toComponent(row) }
  })
}

function alreadyThere(added: NewComponent, id: string): ApiProblem {
  const fields = DISTINGUISHING_FIELDS[added.kind].join(', ')
  return new ApiProblem('conflict', {
    detail: `Component ${id} is this ${added.kind} already. Use it, or state in which of these yours differs: ${fields}.`,
    existingId: id,
  })
}

/** What is not stated is left out. */
function toComponent(row: ComponentRow): Component {
  const { priceAmount, priceCurrency, priceAsOf, createdAt, score, name, size, ...fields } = row
  const stated = Object.entries(fields).filter(([, value]) => value !== null)
  const price =
    priceAmount === null
      ? {}
      : { price: { amount: priceAmount, currency: priceCurrency, asOf: priceAsOf } }
  return {
    ...Object.fromEntries(stated),
    ...price,
    createdAt: (createdAt as Date).toISOString(),
  } as Component
}
