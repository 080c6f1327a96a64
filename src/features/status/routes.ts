import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { problems } from '../../contract/problems.ts'
import type { Database } from '../../db/client.ts'
import { Alive, Ready } from './schema.ts'
import { requireReady } from './service.ts'

export interface StatusRoutesOptions {
  readonly db: Database
}

/** For whoever keeps the service running. Never limited, never cached, never logged as noise. */
export const statusRoutes: FastifyPluginAsyncZod<StatusRoutesOptions> = async (app, { db }) => {
  app.addHook('onRequest', async (_request, reply) => {
    reply.header('cache-control', 'no-store')
  })

  app.get(
    '/healthz',
    {
      config: { rateLimit: false },
      logLevel: 'warn',
      schema: {
        operationId: 'getHealth',
        summary: 'Whether the process is alive',
        description: 'Does not ask the database: restart the process when this fails.',
        tags: ['Operations'],
        response: { 200: Alive },
      },
    },
    async () => ({ status: 'alive' as const }),
  )

  app.get(
    '/readyz',
    {
      config: { rateLimit: false },
      logLevel: 'warn',
      schema: {
        operationId: 'getReadiness',
        summary: 'Whether the service can serve',
        description: 'Asks the database: send no requests here while this fails.',
        tags: ['Operations'],
        response: { 200: Ready, ...problems(503) },
      },
    },
    async () => {
      await requireReady(db)
      return { status: 'ready' as const }
    },
  )
}
