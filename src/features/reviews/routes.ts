import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { WriteHeaders } from '../../contract/idempotency-key.ts'
import { IdParams } from '../../contract/ids.ts'
import { problems } from '../../contract/problems.ts'
import type { Database } from '../../db/client.ts'
import { getReview, listAuditEvents, listReviews } from './queue.ts'
import {
  AuditPage,
  AuditQuery,
  NewDecision,
  NewReport,
  Report,
  Review,
  ReviewPage,
  ReviewQuery,
} from './schema.ts'
import { decide, fileReport } from './service.ts'

export interface ReviewRoutesOptions {
  readonly db: Database
  /** Called after each decision on what counts. */
  readonly onEvidenceChanged: () => void
}

const tags = ['Care of the data']

/** HTTP face of reports and what moderators make of them. */
export const reviewRoutes: FastifyPluginAsyncZod<ReviewRoutesOptions> = async (
  app,
  { db, onEvidenceChanged },
) => {
  app.post(
    '/reports',
    {
      onRequest: app.requireAccount(),
      schema: {
        operationId: 'fileReport',
        summary: 'Report something wrong or unsafe',
        description:
          'Queued for the moderators, who read its text. A set-up reported unsafe shows an advisory at once; whether it must not be flown a moderator decides.',
        tags,
        headers: WriteHeaders,
        body: NewReport,
        response: { 201: Report, ...problems(400, 401, 409, 413, 415, 422) },
      },
    },
    async (request, reply) => {
      const { caller, headers, body } = request
      const write = { caller: caller!, idempotencyKey: headers['idempotency-key'], body }
      const answer = await fileReport(db, write)
      reply.code(201)
      return answer.body
    },
  )
  await app.register(moderatorRoutes, { db, onEvidenceChanged })
}

const moderatorRoutes: FastifyPluginAsyncZod<ReviewRoutesOptions> = async (
  app,
  { db, onEvidenceChanged },
) => {
  const onRequest = app.requireAccount('moderator', 'admin')
  app.addHook('onRequest', async (_request, reply) => {
    reply.header('cache-control', 'no-store') // who reported what is not for others
  })

  app.get(
    '/reviews',
    {
      onRequest,
      schema: {
        operationId: 'listReviews',
        summary: 'List reports to decide on',
        description:
          'Reports of people, findings of measurements, and sessions that a fit found odd, oldest first. For moderators.',
        tags,
        querystring: ReviewQuery,
        response: { 200: ReviewPage, ...problems(400, 401, 403) },
      },
    },
    async (request) => listReviews(db, request.query),
  )

  app.get(
    '/reviews/:id',
    {
      onRequest,
      schema: {
        operationId: 'getReview',
        summary: 'Read one report with its findings and decisions',
        tags,
        params: IdParams,
        response: { 200: Review, ...problems(400, 401, 403, 404) },
      },
    },
    async (request) => getReview(db.pool, request.params.id),
  )

  app.post(
    '/reviews/:id/decisions',
    {
      onRequest,
      schema: {
        operationId: 'decideReview',
        summary: 'Decide on a report',
        description:
          'Takes effect at once and may be decided anew later. Decision, reason and who decided stay in the audit trail.',
        tags,
        params: IdParams,
        headers: WriteHeaders,
        body: NewDecision,
        response: { 201: Review, ...problems(400, 401, 403, 404, 409, 413, 415, 422) },
      },
    },
    async (request, reply) => {
      const { caller, headers, body, params } = request
      const write = { caller: caller!, idempotencyKey: headers['idempotency-key'], body }
      const answer = await decide(db, write, params.id)
      if (answer.body.kind === 'outlier') onEvidenceChanged()
      reply.code(201).header('location', `/v1/reviews/${params.id}`)
      return answer.body
    },
  )

  app.get(
    '/audit-events',
    {
      onRequest,
      schema: {
        operationId: 'listAuditEvents',
        summary: 'List who did what to reports, set-ups, evidence and roles',
        description: 'Newest first. Events are only ever added. For moderators.',
        tags,
        querystring: AuditQuery,
        response: { 200: AuditPage, ...problems(400, 401, 403) },
      },
    },
    async (request) => listAuditEvents(db, request.query),
  )
}
