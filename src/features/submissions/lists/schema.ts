import { z } from 'zod'

import { Id } from '../../../contract/ids.ts'
import { PageQuery } from '../../../contract/pagination.ts'

/** Pages are short, because a submission may hold many runs, each with its budget. */
export const SubmissionPageQuery = PageQuery.extend({
  limit: z.coerce.number().int().min(1).max(50).default(20).describe('Submissions per page'),
})

export const SubmissionQuery = SubmissionPageQuery.extend({
  mine: z.literal('true').optional().describe("The caller's own submissions, withdrawn ones too"),
  setupId: Id.optional().describe('Submissions that flew this set-up, as everybody sees them'),
}).refine((query) => (query.mine === undefined) !== (query.setupId === undefined), {
  path: ['mine'],
  message: 'Give mine=true or setupId, one of them',
})

export type SubmissionQuery = z.infer<typeof SubmissionQuery>
