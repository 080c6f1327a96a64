import { Readable } from 'node:stream'

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { problems } from '../../../contract/problems.ts'
import { ExportQuery } from '../schema.ts'
import { EXPORT_TYPES, type LiveExports } from './export-runs.ts'

/** Live exports: what a release would hold if it were made now. */
export const exportRoutes: FastifyPluginAsyncZod<{ readonly live: LiveExports }> = async (
  app,
  { live },
) => {
  app.get(
    '/exports/runs',
    {
      schema: {
        operationId: 'exportRuns',
        summary: 'Export the runs of this moment',
        description:
          'The columns and the privacy of the file runs of a release, streamed from the database. Keys are drawn anew for every state of the evidence: the same state and question have the same bytes and ETag. The first export after a change waits while they are drawn. For what is to be cited, take a release.',
        tags: ['Datasets'],
        querystring: ExportQuery,
        response: { 200: z.unknown().describe('The runs'), ...problems(400, 503) },
      },
      serializerCompiler: () => String, // only streams are sent
    },
    async ({ query, headers }, reply) => {
      reply.header('cache-control', 'no-cache')
      const has = headers['if-none-match']
      const known = has === undefined ? null : await live.knownTag(query)
      if (known !== null && has!.includes(known.slice(0, -1))) {
        return reply.header('etag', known).send(Readable.from([])) // nothing is read
      }
      const { tag, bytes } = await live.open(query)
      return reply
        .type(EXPORT_TYPES[query.format])
        .header('content-disposition', `attachment; filename="fairclimb-runs.${query.format}"`)
        .header('etag', tag)
        .send(bytes)
    },
  )
}
