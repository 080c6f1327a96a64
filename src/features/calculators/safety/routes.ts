import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { problems } from '../../../contract/problems.ts'
import { NoiseExposure, NoiseExposureQuery, TipClearance, TipClearanceQuestion } from './schema.ts'
import { noiseExposure, tipClearanceOf } from './service.ts'

/** Calculators of what can hurt: advice, never a clearance to fly. */
export const safetyCalculatorRoutes: FastifyPluginAsyncZod = async (app) => {
  const tags = ['Calculators']

  app.get(
    '/noise-exposure',
    {
      schema: {
        operationId: 'getNoiseExposure',
        summary: 'How long a day may hold a noise level',
        description:
          'By NIOSH 98-126: 85 dB(A) for 8 h, half the time for every 3 dB more. With durationMin also the daily dose. Hearing protection is not subtracted; local rules come first.',
        tags,
        querystring: NoiseExposureQuery,
        response: { 200: NoiseExposure, ...problems(400) },
      },
    },
    async (request) => noiseExposure(request.query),
  )

  app.post(
    '/safety/tip-clearance',
    {
      schema: {
        operationId: 'computeTipClearance',
        summary: 'How far propeller tips move under load, and the clearance they need',
        description:
          'From thrust, height of the thrust line and the rubber mounts; with inertia, speed and rate of turning also the gyroscopic part. Nothing is stored. An answer is advice on the figures given and clears nothing to fly.',
        tags,
        body: TipClearanceQuestion,
        response: { 200: TipClearance, ...problems(400, 413, 415, 422) },
      },
    },
    async (request) => tipClearanceOf(request.body),
  )
}
