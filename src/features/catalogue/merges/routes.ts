import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { WriteHeaders } from '../../../contract/idempotency-key.ts'
import { IdParams } from '../../../contract/ids.ts'
import { problems } from '../../../contract/problems.ts'
import type { CatalogueRoutesOptions } from '../routes.ts'
import { Merge, NewMerge } from './schema.ts'
import { merge } from './service.ts'

const KINDS = [
  ['component', 'mergeComponent'],
  ['setup', 'mergeSetup'],
] as const

/** HTTP face of merges: moderators make two records of one thing one. */
export const mergeRoutes: FastifyPluginAsyncZod<CatalogueRoutesOptions> = async (
  app,
  { db, onEvidenceChanged },
) => {
  for (const [table, operationId] of KINDS) {
    app.post(
      `/${table}s/:id/merges`,
      {
        onRequest: app.requireAccount('moderator', 'admin'),
        schema: {
          operationId,
          summary: `Merge a duplicate ${table} into the one that remains`,
          description:
            'For moderators. The id of the duplicate keeps working and stands for the other one, with its flights and its reports; nothing is erased. It cannot be parted again, so it stays in the audit trail with its reason.',
          tags: ['Catalogue'],
          params: IdParams,
          headers: WriteHeaders,
          body: NewMerge,
          response: { 201: Merge, ...problems(400, 401, 403, 404, 409, 413, 415, 422) },
        },
      },
      async (request, reply) => {
        const { caller, headers, body, params } = request
        const idempotencyKey = headers['idempotency-key']
        const order = { caller: caller!, idempotencyKey, table, id: params.id, body }
        const answer = await merge(db, order)
        onEvidenceChanged()
        reply.code(201).header('location', `/v1/${table}s/${params.id}`)
        return answer.body
      },
    )
  }
}
