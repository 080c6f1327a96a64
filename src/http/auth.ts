import type { FastifyRequest, onRequestAsyncHookHandler } from 'fastify'
import fp from 'fastify-plugin'

import type { Caller, Role } from '../contract/caller.ts'
import { ApiProblem } from '../contract/problems.ts'

export interface AuthOptions {
  /** Who presents this access token or API key; throws not-authenticated when nobody does. */
  readonly verify: (bearer: string) => Promise<Caller>
}

declare module 'fastify' {
  interface FastifyRequest {
    /** Who is asking; null on routes that do not ask or where nobody says. */
    caller: Caller | null
  }
  interface FastifyInstance {
    /** onRequest hook: refuses callers without an account, or without one of the roles where any are named. */
    requireAccount(...roles: Role[]): onRequestAsyncHookHandler
    /** onRequest hook: notes who is asking where they say so; a wrong token is still refused. */
    identify: onRequestAsyncHookHandler
  }
}

/** Reads `Authorization: Bearer` on the routes that ask for it. */
export default fp<AuthOptions>(
  async (app, { verify }) => {
    app.decorateRequest('caller', null)

    app.decorate('identify', async (request) => {
      const bearer = bearerOf(request)
      if (bearer !== null) request.caller = await verify(bearer)
    })

    app.decorate('requireAccount', (...roles) => async (request) => {
      const bearer = bearerOf(request)
      if (bearer === null) throw new ApiProblem('not-authenticated')
      const caller = await verify(bearer)
      if (roles.length > 0 && !roles.includes(caller.role)) {
        throw new ApiProblem('not-permitted', {
          detail: `This needs the role ${roles.join(' or ')}.`,
        })
      }
      request.caller = caller
    })

    app.addHook('onSend', async (_request, reply) => {
      if (reply.statusCode === 401) reply.header('www-authenticate', 'Bearer')
    })
  },
  { name: 'auth', dependencies: ['error-handler'] },
)

function bearerOf(request: FastifyRequest): string | null {
  const header = request.headers.authorization
  if (header === undefined) return null
  const match = /^Bearer +([\w.~+/-]+=*) *$/i.exec(header)
  if (match === null) {
    throw new ApiProblem('not-authenticated', { detail: 'Authorization must be "Bearer <token>".' })
  }
  return match[1]!
}
