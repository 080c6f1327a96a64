import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { IdParams } from '../../../contract/ids.ts'
import { PageQuery } from '../../../contract/pagination.ts'
import { problems } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { ApiKeyPage, CreatedApiKey, NewApiKey } from './schema.ts'
import { createApiKey, deleteApiKey, listApiKeys } from './service.ts'

export interface ApiKeyRoutesOptions {
  readonly db: Database
}

/** HTTP face of API keys: long-lived keys for scripts. */
export const apiKeyRoutes: FastifyPluginAsyncZod<ApiKeyRoutesOptions> = async (app, { db }) => {
  const onRequest = app.requireAccount()
  const tags = ['Accounts']

  app.get(
    '/api-keys',
    {
      onRequest,
      schema: {
        operationId: 'listApiKeys',
        summary: 'List the own API keys',
        tags,
        querystring: PageQuery,
        response: { 200: ApiKeyPage, ...problems(400, 401) },
      },
    },
    async (request) => listApiKeys(db, request.caller!.accountId, request.query),
  )

  app.post(
    '/api-keys',
    {
      onRequest,
      schema: {
        operationId: 'createApiKey',
        summary: 'Make an API key',
        description:
          'The key is shown in this answer and never again. It works wherever an access token does. Takes no Idempotency-Key: an answer that could be replayed would have to be stored, key and all.',
        tags,
        body: NewApiKey,
        response: { 201: CreatedApiKey, ...problems(400, 401) },
      },
    },
    async (request, reply) => {
      reply.code(201)
      return createApiKey(db, request.caller!.accountId, request.body.name)
    },
  )

  app.delete(
    '/api-keys/:id',
    {
      onRequest,
      schema: {
        operationId: 'deleteApiKey',
        summary: 'Revoke an API key',
        description: 'The next request with that key is refused.',
        tags,
        params: IdParams,
        response: { 204: z.null(), ...problems(400, 401, 404) },
      },
    },
    async (request, reply) => {
      await deleteApiKey(db, request.caller!.accountId, request.params.id)
      return reply.code(204).send(null)
    },
  )
}
