import { z } from 'zod'

import type { Caller } from '../../../contract/caller.ts'
import { decodeCursor, encodeCursor, type PageQuery } from '../../../contract/pagination.ts'
import { ApiProblem } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import type { FullSubmission, Submission } from '../answer.ts'
import { findRevisions } from '../repository.ts'
import { seesAll, unknownSubmission } from '../service.ts'
import { fullView, publicView } from '../views.ts'
import { findBySetup, findOwn, findRevisionNumbers, type Mark } from './repository.ts'
import type { SubmissionQuery } from './schema.ts'

interface Page<T> {
  readonly items: T[]
  readonly nextCursor: string | null
}

const OwnCursor = z.tuple([z.iso.datetime(), z.uuid()])
const SetupCursor = z.tuple([z.string().regex(/^\d{4}-\d{2}$/), z.uuid()])
const RevisionCursor = z.tuple([
  z
    .int()
    .min(1)
    .max(2 ** 31 - 1),
])

/** The caller's own submissions, or what everybody sees of those that flew a set-up. */
export async function listSubmissions(
  db: Database,
  caller: Caller | null,
  { mine, setupId, limit, cursor }: SubmissionQuery,
): Promise<Page<Submission>> {
  if (mine === undefined) {
    const after = markOf(cursor, SetupCursor)
    const marks = await findBySetup(db, setupId!, { after, limit: limit + 1 })
    return page(db, marks, limit, publicView)
  }
  if (caller === null) throw new ApiProblem('not-authenticated')
  const after = markOf(cursor, OwnCursor)
  const marks = await findOwn(db, caller.accountId, { after, limit: limit + 1 })
  return page(db, marks, limit, fullView)
}

/** Every revision of a submission, the last first, for those who may see all of it. */
export async function listRevisions(
  db: Database,
  caller: Caller,
  id: string,
  { limit, cursor }: PageQuery,
): Promise<Page<FullSubmission>> {
  const [current] = await findRevisions(db.pool, [{ id }])
  if (current === undefined) throw unknownSubmission(id)
  if (!seesAll(caller, current)) {
    throw new ApiProblem('not-permitted', { detail: 'Only who submitted it may read its history.' })
  }
  const after = keyOf(cursor, RevisionCursor)?.[0] ?? null
  const numbers = await findRevisionNumbers(db, id, { after, limit: limit + 1 })
  const shown = numbers.slice(0, limit)
  const stored = await findRevisions(
    db.pool,
    shown.map((revision) => ({ id, revision })),
  )
  const more = numbers.length > limit
  return { items: stored.map(fullView), nextCursor: more ? encodeCursor([shown.at(-1)!]) : null }
}

type Stored = Awaited<ReturnType<typeof findRevisions>>[number]

/** One mark more than the page holds was asked for: it tells whether another page follows. */
async function page<T>(
  db: Database,
  marks: readonly Mark[],
  limit: number,
  view: (stored: Stored) => T,
): Promise<Page<T>> {
  const shown = marks.slice(0, limit)
  const stored = await findRevisions(db.pool, shown)
  const last = shown.at(-1)
  const more = marks.length > limit && last !== undefined
  return {
    items: stored.map(view),
    nextCursor: more ? encodeCursor([last.key, last.id]) : null,
  }
}

function markOf(cursor: string | undefined, schema: z.ZodType<[string, string]>): Mark | null {
  const key = keyOf(cursor, schema)
  return key === null ? null : { key: key[0], id: key[1] }
}

/** The sort key in a cursor, checked: a client may send anything. */
function keyOf<K>(cursor: string | undefined, schema: z.ZodType<K>): K | null {
  if (cursor === undefined) return null
  const parsed = schema.safeParse(decodeCursor(cursor))
  if (parsed.success) return parsed.data
  const errors = [{ pointer: '/cursor', detail: 'Not the nextCursor of a page of this list' }]
  throw new ApiProblem('invalid-request', { errors })
}
