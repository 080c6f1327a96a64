import { z } from 'zod'

/** A verdict, or that there is none. */
export const AnyVerdict = z
  .enum(['aBetter', 'bBetter', 'practicallyEqual', 'notResolved', 'refused'])
  .meta({ id: 'Verdict' })

export type AnyVerdict = z.infer<typeof AnyVerdict>

const OR_NOT = 'null while otherFits is pending, absent where there is no such fit'

/**
 * Fields that stand beside a finding: what it is by the other fits of the same evidence, and whether
 * that is the same.
 */
export function besideFinding<Shape extends z.ZodRawShape>(finding: Shape) {
  return {
    withoutInterested: z
      .object({ ...finding, changes: z.boolean() })
      .nullable()
      .optional()
      .describe(`Without submissions by people with an interest; ${OR_NOT}`),
    robust: z
      .object({ ...finding, agrees: z.boolean() })
      .nullable()
      .optional()
      .describe(`Where results that do not fit the rest count less; ${OR_NOT}`),
  }
}

/** Said where a finding hangs on people who sell, make or were given what they tested. */
export function interestSentence(finding: string): string {
  return `Without submissions by people with an interest, ${finding}.`
}

/** Said where a few results that do not fit the rest decide. */
export function robustSentence(finding: string): string {
  return `A few results that do not fit the rest decide this: where they count less, ${finding}.`
}
