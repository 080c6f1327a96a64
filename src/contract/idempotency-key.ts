import { z } from 'zod'

/** Headers of a write that may be sent twice. Loose: every other header passes. */
export const WriteHeaders = z.looseObject({
  'idempotency-key': z
    .string()
    .min(1)
    .max(255)
    .optional()
    .describe('The same key and body replays the first answer (IETF httpapi draft)'),
})
