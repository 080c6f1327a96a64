import type { PoolClient } from 'pg'
import { z } from 'zod'

import { decodeCursor, encodeCursor } from '../../contract/pagination.ts'
import { ApiProblem } from '../../contract/problems.ts'
import type { Database } from '../../db/client.ts'
import { findAuditEvents, findReviews, type ReviewRow } from './repository.ts'
import type { AuditEvent, AuditQuery, Review, ReviewQuery } from './schema.ts'

const ReviewCursor = z.tuple([z.iso.datetime(), z.uuid()])
const AuditCursor = z.tuple([z.string().regex(/^\d{1,18}$/)])

interface Page<Item> {
  readonly items: Item[]
  readonly nextCursor: string | null
}

/** Reports for the moderators, oldest first. */
export async function listReviews(db: Database, query: ReviewQuery): Promise<Page<Review>> {
  const { state, setupId, limit, cursor } = query
  const after = keyOf(cursor, ReviewCursor)
  const rows = await findReviews(db.pool, { state, setupId, after, limit: limit + 1 })
  return pageOf(rows.map(toReview), limit, ({ createdAt, id }) => [createdAt, id])
}

/** One report with what came of it. */
export async function getReview(
  source: PoolClient | Database['pool'],
  id: string,
): Promise<Review> {
  const [row] = await findReviews(source, { state: null, id, after: null, limit: 1 })
  if (row === undefined) throw new ApiProblem('not-found', { detail: `There is no report ${id}.` })
  return toReview(row)
}

/** What was done by whom, newest first. */
export async function listAuditEvents(
  db: Database,
  { subjectId, limit, cursor }: AuditQuery,
): Promise<Page<AuditEvent>> {
  const before = keyOf(cursor, AuditCursor)?.[0] ?? null
  const rows = await findAuditEvents(db.pool, { subjectId, before, limit: limit + 1 })
  const items = rows.map((row) => ({ ...row, at: row.at.toISOString() }))
  return pageOf(items, limit, ({ id }) => [id])
}

function toReview({ createdAt, decidedAt, findings, decisions, ...row }: ReviewRow): Review {
  return {
    ...row,
    createdAt: createdAt.toISOString(),
    decidedAt: decidedAt?.toISOString() ?? null,
    findings: findings.map((finding) => ({
      ...finding,
      createdAt: inUtc(finding.createdAt),
      liftedAt: finding.liftedAt === null ? null : inUtc(finding.liftedAt),
    })),
    decisions: decisions.map((decision) => ({ ...decision, at: inUtc(decision.at) })),
  }
}

/** The database writes times with its own offset. */
function inUtc(time: string): string {
  return new Date(time).toISOString()
}

/** A page out of one item more than was asked for. */
function pageOf<Item>(
  items: readonly Item[],
  limit: number,
  keyFor: (item: Item) => readonly string[],
): Page<Item> {
  const shown = items.slice(0, limit)
  const last = shown.at(-1)
  const more = items.length > limit && last !== undefined
  return { items: shown, nextCursor: more ? encodeCursor(keyFor(last)) : null }
}

function keyOf<K>(cursor: string | undefined, schema: z.ZodType<K>): K | null {
  if (cursor === undefined) return null
  const parsed = schema.safeParse(decodeCursor(cursor))
  if (parsed.success) return parsed.data
  const errors = [{ pointer: '/cursor', detail: 'Not the nextCursor of a page of this list' }]
  throw new ApiProblem('invalid-request', { errors })
}
