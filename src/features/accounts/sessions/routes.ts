import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { problems } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { KeySet, TokenRequest, Tokens } from './schema.ts'
import { createSessionContext, grantTokens, signOut } from './service.ts'
import { createKeyring } from './signing-keys.ts'

export interface SessionRoutesOptions {
  readonly db: Database
}

/** HTTP face of sessions: tokens are given and taken back here. */
export const sessionRoutes: FastifyPluginAsyncZod<SessionRoutesOptions> = async (app, { db }) => {
  const context = await createSessionContext(db)

  app.post(
    '/tokens',
    {
      schema: {
        operationId: 'createTokens',
        summary: 'Sign in, or continue a session',
        description:
          'A refresh token works once and lives 30 days; the answer holds its successor. Showing one that was used before ends the session, because somebody has a copy of it.',
        tags: ['Accounts'],
        security: [],
        body: TokenRequest,
        response: { 200: Tokens, ...problems(400, 401) },
      },
    },
    async (request) => grantTokens(context, request.body),
  )

  app.delete(
    '/tokens/current',
    {
      onRequest: app.requireAccount(),
      schema: {
        operationId: 'deleteCurrentTokens',
        summary: 'Sign out',
        description:
          'Ends the session of the access token; it and the refresh token of the session are refused at once. Other sessions go on.',
        tags: ['Accounts'],
        response: { 204: z.null(), ...problems(401, 403) },
      },
    },
    async (request, reply) => {
      await signOut(db, request.caller!)
      return reply.code(204).send(null)
    },
  )
}

/** Public keys, for whoever wants to verify an access token by themselves; outside of /v1 by RFC 8615. */
export const keySetRoutes: FastifyPluginAsyncZod<SessionRoutesOptions> = async (app, { db }) => {
  const keyring = createKeyring(db)

  app.get(
    '/.well-known/jwks.json',
    {
      schema: {
        operationId: 'getKeySet',
        summary: 'Public keys of the access tokens (RFC 7517)',
        tags: ['Accounts'],
        response: { 200: KeySet },
      },
    },
    async (_request, reply) => {
      reply.header('cache-control', 'public, max-age=60')
      return keyring.keySet()
    },
  )
}
