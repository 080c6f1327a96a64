import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { problems } from '../../contract/problems.ts'
import { TradeOff, TradeOffQuery } from './schema.ts'
import { type Sources, weighTradeOff } from './service.ts'

/** HTTP face of trade-offs: one read, open to everyone. */
export const tradeOffRoutes: FastifyPluginAsyncZod<Sources> = async (app, sources) => {
  app.get(
    '/trade-offs',
    {
      schema: {
        operationId: 'weighTradeOff',
        summary: 'Weigh climb against fuel',
        description:
          'The setups that no other one beats in both climb rate and fuel flow at the conditions, each ' +
          'with the probability that this is so.',
        tags: ['Analysis'],
        querystring: TradeOffQuery,
        response: { 200: TradeOff, ...problems(400, 404, 422, 429, 503) },
      },
    },
    async (request) => weighTradeOff(sources, request.query),
  )
}
