import { z } from 'zod'

/** Characters PostgreSQL cannot keep: NUL and halves of surrogate pairs. */
const UNSTORABLE = /[\0\p{Surrogate}]/u

/** Text of a person, stored as it came. */
export function freeText(maxLength: number) {
  return z
    .string()
    .min(1)
    .max(maxLength)
    .refine((text) => !UNSTORABLE.test(text), 'Must not hold NUL or broken Unicode characters')
}
