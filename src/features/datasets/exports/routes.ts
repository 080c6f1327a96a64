import { Readable } from 'node:stream'

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { problems } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { ExportQuery } from '../schema.ts'
import type { Tables } from '../tables/tables.ts'
import { EXPORT_TYPES, exportRuns } from './export-runs.ts'

export interface ExportRoutesOptions {
  readonly db: Database
  readonly tables: Tables
}

/** Live exports: what a release would hold if it were made now. */
export const exportRoutes: FastifyPluginAsyncZod<ExportRoutesOptions> = async (
  app,
  { db, tables },
) => {
  app.get(
    '/exports/runs',
    {
      schema: {
        operationId: 'exportRuns',
        summary: 'Export the runs of this moment',
        description:
          'The columns and the privacy of the file runs of a release, streamed from the database. Keys are drawn anew for each export. For what is to be cited, take a release.',
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
        .header('cache-control', 'no-store')
      const bytes = exportRuns(db, tables, request.query)
      return reply.send(Readable.from(bytes, { objectMode: false }))
    },
  )
}
