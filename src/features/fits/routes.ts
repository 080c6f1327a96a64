import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { FitId } from '../../contract/conditions.ts'
import { problems } from '../../contract/problems.ts'
import type { Database } from '../../db/client.ts'
import { Fit } from './schema.ts'
import { getFit } from './service.ts'

export interface FitRoutesOptions {
  readonly db: Database
}

/** HTTP face of fits: reads only; fits are made by the refresher. */
export const fitRoutes: FastifyPluginAsyncZod<FitRoutesOptions> = async (app, { db }) => {
  app.get(
    '/fits/:id',
    {
      schema: {
        operationId: 'readFit',
        summary: 'Read the model behind an answer',
        description:
          'Variance components on the scale of the logarithm, counts and state of a fit. It never changes; ' +
          'siblings, notes and report are added to it once, when they are made after it.',
        tags: ['Analysis'],
        params: z.object({ id: FitId }),
        response: { 200: Fit, ...problems(400, 404, 429) },
      },
    },
    async (request) => getFit(db, request.params.id),
  )
}
