import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { WriteHeaders } from '../../../contract/idempotency-key.ts'
import { IdParams } from '../../../contract/ids.ts'
import { problems } from '../../../contract/problems.ts'
import type { CatalogueRoutesOptions } from '../routes.ts'
import { NewSetup, Setup, SetupPage, SetupQuery } from './schema.ts'
import { addSetup, getSetup, listSetups } from './service.ts'

/** HTTP face of the setups. */
export const setupRoutes: FastifyPluginAsyncZod<CatalogueRoutesOptions> = async (app, { db }) => {
  const tags = ['Catalogue']

  app.get(
    '/setups',
    {
      schema: {
        operationId: 'listSetups',
        summary: 'List or search setups',
        description:
          'By name, or with q the best matches first, looked for in all three parts. Every row carries its safety state; the order does not depend on it.',
        tags,
        querystring: SetupQuery,
        response: { 200: SetupPage, ...problems(400) },
      },
    },
    async (request) => listSetups(db, request.query),
  )

  app.get(
    '/setups/:id',
    {
      schema: {
        operationId: 'getSetup',
        summary: 'Read one setup with its safety reports',
        description:
          'The id of a merged duplicate keeps working: the answer is the setup that remains, with its own id, and mergedIntoId says so. Content-Location names it.',
        tags,
        params: IdParams,
        response: { 200: Setup, ...problems(400, 404) },
      },
    },
    async (request, reply) => {
      const setup = await getSetup(db, request.params.id)
      reply.header('content-location', `/v1/setups/${setup.id}`)
      return setup
    },
  )

  app.post(
    '/setups',
    {
      onRequest: app.requireAccount(),
      schema: {
        operationId: 'addSetup',
        summary: 'Add a setup',
        description:
          'One record per combination of powerplant, propeller and frame: a known one is refused with 409 and its id. Ids of merged duplicates are replaced by what they were merged into.',
        tags,
        headers: WriteHeaders,
        body: NewSetup,
        response: { 201: Setup, ...problems(400, 401, 409, 413, 415, 422) },
      },
    },
    async (request, reply) => {
      const key = request.headers['idempotency-key']
      const { body } = await addSetup(db, request.caller!, key, request.body)
      reply.code(201).header('location', `/v1/setups/${body.id}`)
      return body
    },
  )
}
