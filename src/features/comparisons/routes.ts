import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { problems } from '../../contract/problems.ts'
import type { Sources } from './ask.ts'
import { compare } from './compare.ts'
import { PictureQuery, pictureOf } from './picture.ts'
import { rank } from './rank.ts'
import { Comparison, ComparisonQuery, Ranking, RankingQuery } from './schema.ts'

/** HTTP face of comparisons and rankings: reads, open to everyone. */
export const comparisonRoutes: FastifyPluginAsyncZod<Sources> = async (app, sources) => {
  app.get(
    '/comparisons',
    {
      schema: {
        operationId: 'compareSetups',
        summary: 'Compare setups at stated conditions',
        description:
          'The named setups side by side and every pair of them, with intervals and verdicts. ' +
          'Where the evidence does not support a number, the pair is refused and says why.',
        tags: ['Analysis'],
        querystring: ComparisonQuery,
        response: { 200: Comparison, ...problems(400, 404, 422, 429, 503) },
      },
    },
    async (request) => compare(sources, request.query),
  )

  app.get(
    '/comparisons.svg',
    {
      schema: {
        operationId: 'drawComparison',
        summary: 'Draw a comparison',
        description:
          'The same answer as a picture for reports and forums: SI units, no style sheet, no script.',
        tags: ['Analysis'],
        querystring: PictureQuery,
        response: {
          200: {
            description: 'The picture',
            content: { 'image/svg+xml': { schema: z.string() } },
          },
          ...problems(400, 404, 422, 429, 503),
        },
      },
    },
    async (request, reply) => {
      const picture = pictureOf(await compare(sources, request.query), request.query)
      return reply.type('image/svg+xml').send(picture)
    },
  )

  app.get(
    '/rankings',
    {
      schema: {
        operationId: 'rankSetups',
        summary: 'Rank setups for a weight class',
        description:
          'The largest group of setups that can be compared with one another, best first, with the ' +
          'uncertainty of each rank; the rest with the reason why not; unsafe setups set aside.',
        tags: ['Analysis'],
        querystring: RankingQuery,
        response: { 200: Ranking, ...problems(400, 404, 422, 429, 503) },
      },
    },
    async (request) => rank(sources, request.query),
  )
}
