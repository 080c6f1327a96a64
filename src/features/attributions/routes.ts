import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { problems } from '../../contract/problems.ts'
import { Attribution, AttributionQuery } from './schema.ts'
import { attributeDifference, type Sources } from './service.ts'

/** HTTP face of attributions: one read, open to everyone. */
export const attributionRoutes: FastifyPluginAsyncZod<Sources> = async (app, sources) => {
  app.get(
    '/attributions',
    {
      schema: {
        operationId: 'attributeDifference',
        summary: 'Take a difference apart by parts',
        description:
          'How much of the difference of two setups is powerplant, propeller and frame, each with its ' +
          'interval, and what the parts do not explain. A line is refused where the flights never told ' +
          'that part from others.',
        tags: ['Analysis'],
        querystring: AttributionQuery,
        response: { 200: Attribution, ...problems(400, 404, 422, 429, 503) },
      },
    },
    async (request) => attributeDifference(sources, request.query),
  )
}
