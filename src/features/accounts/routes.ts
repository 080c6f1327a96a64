import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { IdParams } from '../../contract/ids.ts'
import { problems } from '../../contract/problems.ts'
import type { Database } from '../../db/client.ts'
import { apiKeyRoutes } from './api-keys/routes.ts'
import { Account, AccountExport, NewAccount, RoleChange } from './schema.ts'
import { changeRole, closeAccount, exportAccount, getAccount, signUp } from './service.ts'
import { sessionRoutes } from './sessions/routes.ts'

export interface AccountRoutesOptions {
  readonly db: Database
}

/** HTTP face of the accounts feature: accounts, sessions and API keys. */
export const accountRoutes: FastifyPluginAsyncZod<AccountRoutesOptions> = async (app, { db }) => {
  app.addHook('onRequest', async (_request, reply) => {
    reply.header('cache-control', 'no-store') // answers hold secrets or personal data
  })
  await app.register(accountAdministrationRoutes, { db })
  await app.register(ownAccountRoutes, { db })
  await app.register(sessionRoutes, { db })
  await app.register(apiKeyRoutes, { db })
}

const accountAdministrationRoutes: FastifyPluginAsyncZod<AccountRoutesOptions> = async (
  app,
  { db },
) => {
  app.post(
    '/accounts',
    {
      schema: {
        operationId: 'createAccount',
        summary: 'Open an account',
        description:
          'Gives no token: sign in with POST /v1/tokens. An Idempotency-Key is not needed, since an e-mail address is taken once.',
        tags: ['Accounts'],
        body: NewAccount,
        response: { 201: Account, ...problems(400, 409) },
      },
    },
    async (request, reply) => {
      reply.code(201).header('location', '/v1/me')
      return signUp(db, request.body)
    },
  )

  app.patch(
    '/accounts/:id/role',
    {
      onRequest: app.requireAccount('admin'),
      schema: {
        operationId: 'changeRole',
        summary: 'Give an account another role',
        description:
          'Holds from the next request of that account on, and stands in the audit trail. The only administrator keeps the role.',
        tags: ['Accounts'],
        params: IdParams,
        body: RoleChange,
        response: { 200: Account, ...problems(400, 401, 403, 404, 409) },
      },
    },
    async (request) =>
      changeRole(db, request.caller!, { id: request.params.id, role: request.body.role }),
  )
}

const ownAccountRoutes: FastifyPluginAsyncZod<AccountRoutesOptions> = async (app, { db }) => {
  const onRequest = app.requireAccount()
  const tags = ['Accounts']

  app.get(
    '/me',
    {
      onRequest,
      schema: {
        operationId: 'getOwnAccount',
        summary: 'Read the own account',
        tags,
        response: { 200: Account, ...problems(401) },
      },
    },
    async (request) => getAccount(db, request.caller!.accountId),
  )

  app.get(
    '/me/export',
    {
      onRequest,
      schema: {
        operationId: 'exportOwnAccount',
        summary: 'Read everything stored about oneself',
        description:
          'The account, its API keys and sessions without their secrets, and its submissions with every revision as it was submitted.',
        tags,
        response: { 200: AccountExport, ...problems(401) },
      },
    },
    async (request, reply) => {
      reply.header('content-disposition', 'attachment; filename="fairclimb-account.json"')
      return exportAccount(db, request.caller!.accountId)
    },
  )

  app.delete(
    '/me',
    {
      onRequest,
      schema: {
        operationId: 'closeOwnAccount',
        summary: 'Close the own account',
        description:
          'For good: e-mail and name are overwritten, sessions and API keys end at once. Submissions stay as evidence without a name; withdraw them first if they should not count. The only administrator cannot leave.',
        tags,
        response: { 204: z.null(), ...problems(401, 409) },
      },
    },
    async (request, reply) => {
      await closeAccount(db, request.caller!.accountId)
      return reply.code(204).send(null)
    },
  )
}
