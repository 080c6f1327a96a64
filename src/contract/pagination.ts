import { z } from 'zod'

/** `?limit=&cursor=` of every list. */
export const PageQuery = z.object({
  limit: z.coerce.number().int().min(1).max(200).default(50).describe('Items per page'),
  cursor: z.string().max(400).optional().describe('nextCursor of the page before'),
})

export type PageQuery = z.infer<typeof PageQuery>

/** A page of a list; nextCursor is null on the last one. */
export function pageOf<T extends z.ZodType>(item: T) {
  return z.object({ items: z.array(item), nextCursor: z.string().nullable() })
}

/** Opaque cursor: the sort key of the last item shown. */
export function encodeCursor(key: readonly (string | number)[]): string {
  return Buffer.from(JSON.stringify(key)).toString('base64url')
}

/** The sort key a cursor stands for, or null where it was not made by {@link encodeCursor}. */
export function decodeCursor(cursor: string): (string | number)[] | null {
  try {
    const key: unknown = JSON.parse(Buffer.from(cursor, 'base64url').toString('utf8'))
    const plain = Array.isArray(key) && key.every((k) => ['string', 'number'].includes(typeof k))
    return plain ? key : null
  } catch {
    return null
  }
}
