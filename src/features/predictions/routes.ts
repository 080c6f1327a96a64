import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { IdParams } from '../../contract/ids.ts'
import { problems } from '../../contract/problems.ts'
import { PredictionQuery } from './query.ts'
import { Prediction } from './schema.ts'
import { predict, type Sources } from './service.ts'

/** HTTP face of predictions: one read, open to everyone. */
export const predictionRoutes: FastifyPluginAsyncZod<Sources> = async (app, sources) => {
  app.get(
    '/setups/:id/predictions',
    {
      schema: {
        operationId: 'predictSetup',
        summary: 'Predict what a setup will do for you',
        description:
          'Climb, level flight, endurance and range at your own mass, wing, field and tank, with ' +
          'intervals that hold what the flights leave open and what you do not know of yourself. ' +
          'Where the evidence does not support a number it is refused and says why.',
        tags: ['Analysis'],
        params: IdParams,
        querystring: PredictionQuery,
        response: { 200: Prediction, ...problems(400, 404, 422, 429, 503) },
      },
    },
    async (request) => predict(sources, request.params.id, request.query),
  )
}
