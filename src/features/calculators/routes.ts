import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { problems } from '../../contract/problems.ts'
import { safetyCalculatorRoutes } from './safety/routes.ts'
import { Atmosphere, AtmosphereQuery } from './schema.ts'
import { atmosphereAt } from './service.ts'

/** Calculators: physics on the values of the request, open to everyone, nothing stored. */
export const calculatorRoutes: FastifyPluginAsyncZod = async (app) => {
  await app.register(safetyCalculatorRoutes)
  app.get(
    '/atmosphere',
    {
      schema: {
        operationId: 'getAtmosphere',
        summary: 'The air of a place, and the power it leaves an engine',
        description:
          'From elevation and temperature, with QNH or station pressure (or neither: then that of the standard atmosphere) and humidity. Moist air by CIPM-2007, dry air by the gas law, both on ISO 2533.',
        tags: ['Calculators'],
        querystring: AtmosphereQuery,
        response: { 200: Atmosphere, ...problems(400, 422) },
      },
    },
    async (request) => atmosphereAt(request.query),
  )
}
