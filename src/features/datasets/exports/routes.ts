import { Readable } from 'node:stream'

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { problems } from '../../../contract/problems.ts'
import { ExportQuery } from '../schema.ts'
import { currentTag, EXPORT_TYPES, type ExportSource, openExport } from './export-runs.ts'

/** Live exports: what a release would hold if it were made now. */
export const exportRoutes: FastifyPluginAsyncZod<ExportSource> = async (app, source) => {
  app.get(
    '/exports/runs',
    {
      schema: {
        operationId: 'exportRuns',
        summary: 'Export the runs of this moment',
        description:
          'The columns and the privacy of the file runs of a release, streamed from the database. Keys are drawn anew for every state of the evidence: the same state and question have the same bytes and ETag. For what is to be cited, take a release.',
        tags: ['Datasets'],
        querystring: ExportQuery,
        response: { 200: z.unknown().describe('The runs'), ...problems(400) },
      },
      serializerCompiler: () => String, // only streams are sent
    },
    async (request, reply) => {
      const { format } = request.query
      reply
        .type(EXPORT_TYPES[format])
        .header('content-disposition', `attachment; filename="fairclimb-runs.${format}"`)
        .header('cache-control', 'no-cache')
      const tag = await currentTag(source, request.query)
      if (request.headers['if-none-match']?.includes(tag.slice(0, -1)) === true) {
        return reply.header('etag', tag).send(Readable.from([])) // known: nothing is worked out
      }
      const live = await openExport(source, request.query)
      if (live.tag !== null) reply.header('etag', live.tag)
      return reply.send(live.bytes)
    },
  )
}
