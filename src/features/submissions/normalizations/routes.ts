import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { problems } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { Normalization } from '../answer.ts'
import { NewNormalization } from '../schema.ts'
import { normalizeOnly } from './service.ts'

export interface NormalizationOptions {
  readonly db: Database
}

/** The normalisation of submissions as a calculator: nothing is stored, no account is needed. */
export const normalizationRoutes: FastifyPluginAsyncZod<NormalizationOptions> = async (
  app,
  { db },
) => {
  app.post(
    '/normalizations',
    {
      schema: {
        operationId: 'normalize',
        summary: 'Normalise the runs of a session without storing them',
        description:
          'Takes the body of a submission. An entry may give its equipment in place of a set-up of the catalogue. With crossCheck=true every run also shows its uncertainty by Monte Carlo.',
        tags: ['Calculators'],
        querystring: z.strictObject({
          crossCheck: z
            .enum(['true', 'false'])
            .optional()
            .describe('true: check the uncertainty of each run by Monte Carlo; at most 30 runs'),
        }),
        body: NewNormalization,
        response: { 200: Normalization, ...problems(400, 413, 415, 422) },
      },
    },
    async ({ body, query }) => normalizeOnly(db, body, { crossCheck: query.crossCheck === 'true' }),
  )
}
