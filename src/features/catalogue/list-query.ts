import { z } from 'zod'

import { decodeCursor, encodeCursor, PageQuery } from '../../contract/pagination.ts'
import { ApiProblem } from '../../contract/problems.ts'
import { isOneLine, UNWANTED_MESSAGE } from './text.ts'

/** `?q=&limit=&cursor=` of both lists. */
export const SearchQuery = PageQuery.extend({
  q: z
    .string()
    .trim()
    .min(1)
    .max(100)
    .refine(isOneLine, UNWANTED_MESSAGE)
    .optional()
    .describe(
      'Words of makers and models, in any order and with a slip of the pen; sizes as 125 or 125 cm. Best match first',
    ),
})

/** Where a list goes on: the best match first, then by name, then by size. */
export interface Position {
  readonly score: number
  readonly name: string
  readonly size: number
  readonly id: string
}

const CursorKey = z.tuple([z.number(), z.string().refine(isOneLine), z.number(), z.uuid()])

export function cursorOf({ score, name, size, id }: Position): string {
  return encodeCursor([score, name, size, id])
}

/**
 * The position a cursor stands for; null is the start.
 *
 * @throws {ApiProblem} invalid-request for a cursor that no list gave
 */
export function positionOf(cursor: string | undefined): Position | null {
  if (cursor === undefined) return null
  const key = CursorKey.safeParse(decodeCursor(cursor))
  if (!key.success) {
    throw new ApiProblem('invalid-request', {
      errors: [{ pointer: '/cursor', detail: 'Not a nextCursor of this list' }],
    })
  }
  const [score, name, size, id] = key.data
  return { score, name, size, id }
}

/** A page out of one row more than was asked for. */
export function pageFrom<Row extends Position, Item>(
  rows: readonly Row[],
  limit: number,
  toItem: (row: Row) => Item,
): { items: Item[]; nextCursor: string | null } {
  const shown = rows.slice(0, limit)
  const last = shown.at(-1)
  const more = rows.length > limit && last !== undefined
  return { items: shown.map(toItem), nextCursor: more ? cursorOf(last) : null }
}
