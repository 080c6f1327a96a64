import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { WriteHeaders } from '../../contract/idempotency-key.ts'
import { IdParams } from '../../contract/ids.ts'
import { problems } from '../../contract/problems.ts'
import { FullSubmission, Submission } from './answer.ts'
import { submissionListRoutes } from './lists/routes.ts'
import { normalizationRoutes } from './normalizations/routes.ts'
import { NewSubmission } from './schema.ts'
import { readSubmission, revise, type SubmissionDesk, submit, withdraw } from './service.ts'

/** HTTP face of the submissions feature. Reads the request, calls one service function, answers. */
export const submissionRoutes: FastifyPluginAsyncZod<SubmissionDesk> = async (app, options) => {
  const { db, onEvidenceChanged } = options // without the prefix, which holds already
  await app.register(storingRoutes, { db, onEvidenceChanged })
  await app.register(singleRoutes, { db, onEvidenceChanged })
  await app.register(submissionListRoutes, { db })
  await app.register(normalizationRoutes, { db })
}

const tags = ['Submissions']

const storingRoutes: FastifyPluginAsyncZod<SubmissionDesk> = async (app, desk) => {
  app.post(
    '/submissions',
    {
      onRequest: app.requireAccount(),
      schema: {
        operationId: 'createSubmission',
        summary: 'Submit a session of flying',
        description:
          'Stores the raw values and the normalised result of every run, all of it or nothing.',
        tags,
        headers: WriteHeaders,
        body: NewSubmission,
        response: { 201: FullSubmission, ...problems(400, 401, 403, 409, 413, 415, 422) },
      },
    },
    async (request, reply) => {
      const { caller, headers, body } = request
      const write = { caller: caller!, idempotencyKey: headers['idempotency-key'], body }
      const submission = await submit(desk, write)
      reply.code(201).header('location', `/v1/submissions/${submission.id}`)
      return submission
    },
  )

  app.post(
    '/submissions/:id/revisions',
    {
      onRequest: app.requireAccount(),
      schema: {
        operationId: 'reviseSubmission',
        summary: 'Correct a submission',
        description: 'Takes the whole body anew. What was there before is kept as a revision.',
        tags,
        params: IdParams,
        headers: WriteHeaders,
        body: NewSubmission,
        response: { 201: FullSubmission, ...problems(400, 401, 403, 404, 409, 413, 415, 422) },
      },
    },
    async (request, reply) => {
      const { caller, headers, body, params } = request
      const write = { caller: caller!, idempotencyKey: headers['idempotency-key'], body }
      const submission = await revise(desk, write, params.id)
      reply.code(201).header('location', `/v1/submissions/${submission.id}`)
      return submission
    },
  )
}

const singleRoutes: FastifyPluginAsyncZod<SubmissionDesk> = async (app, desk) => {
  app.get(
    '/submissions/:id',
    {
      onRequest: app.identify,
      schema: {
        operationId: 'getSubmission',
        summary: 'Read one submission with its normalised results',
        description:
          'Its owner and moderators see all of it. Everybody else sees the results, the month and rounded conditions; 410 once it was withdrawn.',
        tags,
        security: [{}, { bearer: [] }],
        params: IdParams,
        response: { 200: Submission, ...problems(400, 401, 404, 410) },
      },
    },
    async (request, reply) => {
      reply.header('vary', 'Authorization')
      return readSubmission(desk.db, request.caller, request.params.id)
    },
  )

  app.delete(
    '/submissions/:id',
    {
      onRequest: app.requireAccount(),
      schema: {
        operationId: 'withdrawSubmission',
        summary: 'Withdraw a submission',
        description:
          'It no longer counts; its owner can still read it. Doing it again is harmless.',
        tags,
        params: IdParams,
        response: { 204: z.void(), ...problems(400, 401, 403, 404) },
      },
    },
    async (request, reply) => {
      await withdraw(desk, request.caller!, request.params.id)
      return reply.code(204).send()
    },
  )
}
