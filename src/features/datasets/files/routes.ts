import { Readable } from 'node:stream'

import type { FastifyReply, FastifyRequest } from 'fastify'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { ApiProblem, problems } from '../../../contract/problems.ts'
import type { Database } from '../../../db/client.ts'
import { ReleaseId } from '../schema.ts'
import { findDatasetFile } from '../service.ts'
import { rangeOf } from './byte-range.ts'
import { readFile, type StoredFile } from './store.ts'

const FileName = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9.-]{0,80}$/)
  .describe('Such as runs.csv; SHA256SUMS lists them all')

/** A file never changes under its address. */
const FOREVER = 'public, max-age=31536000, immutable'

/** The files of releases: whole, in part, compressed where that helps. */
export const fileRoutes: FastifyPluginAsyncZod<{ readonly db: Database }> = async (app, { db }) => {
  app.get(
    '/datasets/:release/:file',
    {
      schema: {
        operationId: 'readDatasetFile',
        summary: 'Read a file of a release',
        description:
          'Takes Range requests. The ETag is the SHA-256 of the file; CSV and JSON are compressed where the caller takes that.',
        tags: ['Datasets'],
        params: z.object({ release: ReleaseId, file: FileName }),
        response: {
          200: z.unknown().describe('The file'),
          206: z.unknown().describe('The part asked for'),
          ...problems(400, 404, 416),
        },
      },
      serializerCompiler: () => String, // only streams are sent
    },
    async (request, reply) => {
      const { release, file: name } = request.params
      const file = await findDatasetFile(db, release, name)
      describe(reply, release, file)
      return sendFile(db, file, request, reply)
    },
  )
}

function describe(reply: FastifyReply, release: string, { name, mediaType, sha256 }: StoredFile) {
  const isPage = name.endsWith('.html')
  reply
    .type(mediaType)
    .header('etag', `"${sha256}"`)
    .header('accept-ranges', 'bytes')
    .header('cache-control', FOREVER)
    .header(
      'content-disposition',
      isPage ? 'inline' : `attachment; filename="fairclimb-${release}-${name}"`,
    )
}

function sendFile(db: Database, file: StoredFile, request: FastifyRequest, reply: FastifyReply) {
  const { sizeBytes } = file
  const range = isSameFile(request, file) ? rangeOf(request.headers.range, sizeBytes) : null
  if (range === 'unsatisfiable') {
    reply.header('content-range', `bytes */${sizeBytes}`)
    for (const header of ['etag', 'content-disposition', 'cache-control'])
      reply.removeHeader(header)
    throw new ApiProblem('range-not-satisfiable', {
      detail: `The file has ${sizeBytes} bytes.`,
    })
  }
  const wanted = range ?? { first: 0, last: sizeBytes - 1 }
  reply.header('content-length', wanted.last - wanted.first + 1)
  if (range !== null) {
    reply.code(206).header('content-range', `bytes ${range.first}-${range.last}/${sizeBytes}`)
  }
  return reply.send(Readable.from(readFile(db.pool, file, wanted), { objectMode: false }))
}

/** A range of another version is of no use: then the whole file is sent (RFC 9110, 13.1.5). */
function isSameFile({ headers }: FastifyRequest, { sha256 }: StoredFile): boolean {
  const condition = headers['if-range']
  return condition === undefined || condition === `"${sha256}"`
}
