import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { IdParams } from '../../../contract/ids.ts'
import { problems } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { RevisionPage, SubmissionPage } from '../answer.ts'
import { SubmissionPageQuery, SubmissionQuery } from './schema.ts'
import { listRevisions, listSubmissions } from './service.ts'

export interface SubmissionListOptions {
  readonly db: Database
}

/** Lists of submissions, and the history of one. */
export const submissionListRoutes: FastifyPluginAsyncZod<SubmissionListOptions> = async (
  app,
  { db },
) => {
  const tags = ['Submissions']

  app.get(
    '/submissions',
    {
      onRequest: app.identify,
      schema: {
        operationId: 'listSubmissions',
        summary: 'List own submissions, or those that flew a set-up',
        description: 'Give mine=true (needs an account) or setupId.',
        tags,
        security: [{}, { bearer: [] }],
        querystring: SubmissionQuery,
        response: { 200: SubmissionPage, ...problems(400, 401) },
      },
    },
    async (request, reply) => {
      reply.header('vary', 'Authorization')
      return listSubmissions(db, request.caller, request.query)
    },
  )

  app.get(
    '/submissions/:id/revisions',
    {
      onRequest: app.requireAccount(),
      schema: {
        operationId: 'listRevisions',
        summary: 'Read the history of a submission, the last revision first',
        tags,
        params: IdParams,
        querystring: SubmissionPageQuery,
        response: { 200: RevisionPage, ...problems(400, 401, 403, 404) },
      },
    },
    async (request) => listRevisions(db, request.caller!, request.params.id, request.query),
  )
}
