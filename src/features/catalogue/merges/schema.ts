import { z } from 'zod'

import { freeText } from '../../../contract/free-text.ts'
import { Id } from '../../../contract/ids.ts'

export const NewMerge = z
  .strictObject({
    intoId: Id.describe('The record of the same thing, which remains'),
    reason: freeText(1000).describe('Stays in the audit trail'),
  })
  .meta({ id: 'NewMerge' })

export type NewMerge = z.infer<typeof NewMerge>

const Pair = z.object({
  mergedId: Id.describe('Keeps working, and stands for the other one from now on'),
  intoId: Id,
})

export const Merge = Pair.extend({
  setups: z
    .array(Pair)
    .describe('Setups that have become the same combination by this, and were merged too'),
}).meta({ id: 'Merge' })

export type Merge = z.infer<typeof Merge>
export type MergedPair = z.infer<typeof Pair>
