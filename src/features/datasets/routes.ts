import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'

import { WriteHeaders } from '../../contract/idempotency-key.ts'
import { IdParams } from '../../contract/ids.ts'
import { PageQuery } from '../../contract/pagination.ts'
import { problems } from '../../contract/problems.ts'
import type { Database } from '../../db/client.ts'
import type { LiveExports } from './exports/export-runs.ts'
import { exportRoutes } from './exports/routes.ts'
import { fileRoutes } from './files/routes.ts'
import type { ReleaseMaker } from './release/maker.ts'
import { DataPackage, DatasetRequest, ReleaseId, ReleasePage } from './schema.ts'
import { askForRelease, listEntries, readPackage, readRequest } from './service.ts'

export interface DatasetRoutesOptions {
  readonly db: Database
  readonly maker: ReleaseMaker
  readonly live: LiveExports
}

const tags = ['Datasets']

/** HTTP face of datasets: releases and their files, live exports. Reading needs no account. */
export const datasetRoutes: FastifyPluginAsyncZod<DatasetRoutesOptions> = async (app, options) => {
  const { db, maker, live } = options // without the prefix, which holds already
  await app.register(readRoutes, { db })
  await app.register(requestRoutes, { db, maker })
  await app.register(fileRoutes, { db })
  await app.register(exportRoutes, { live })
}

const readRoutes: FastifyPluginAsyncZod<{ readonly db: Database }> = async (app, { db }) => {
  app.get(
    '/datasets',
    {
      schema: {
        operationId: 'listDatasets',
        summary: 'List the releases of the dataset',
        description: 'Newest first. A release never changes.',
        tags,
        querystring: PageQuery,
        response: { 200: ReleasePage, ...problems(400) },
      },
    },
    async (request) => listEntries(db, request.query),
  )

  app.get(
    '/datasets/:release',
    {
      schema: {
        operationId: 'readDataset',
        summary: 'Read the data package of a release',
        description: 'A Frictionless data package: every table with title, unit and constraints.',
        tags,
        params: z.object({ release: ReleaseId }),
        response: { 200: DataPackage, ...problems(400, 404) },
      },
    },
    async (request, reply) => {
      const { release } = request.params
      reply.header('link', `<${release}/dataset.jsonld>; rel="describedby"`)
      return (await readPackage(db, release)) as unknown as z.infer<typeof DataPackage>
    },
  )
}

type RequestOptions = Pick<DatasetRoutesOptions, 'db' | 'maker'>

const requestRoutes: FastifyPluginAsyncZod<RequestOptions> = async (app, options) => {
  const { db, maker } = options
  app.post(
    '/datasets',
    {
      onRequest: app.requireAccount('researcher', 'moderator', 'admin'),
      schema: {
        operationId: 'createDataset',
        summary: 'Ask for a release',
        description:
          'It is made in the background; the answer says where to follow it. Evidence that the latest release holds already makes no new one.',
        tags,
        headers: WriteHeaders,
        response: { 202: DatasetRequest, ...problems(400, 401, 403, 409, 422) },
      },
    },
    async (request, reply) => {
      const key = request.headers['idempotency-key']
      const asked = await askForRelease({ db, maker }, request.caller!, key)
      reply.code(202).header('location', `/v1/dataset-requests/${asked.id}`)
      return asked
    },
  )

  app.get(
    '/dataset-requests/:id',
    {
      schema: {
        operationId: 'readDatasetRequest',
        summary: 'Follow the making of a release',
        tags,
        params: IdParams,
        response: { 200: DatasetRequest, ...problems(400, 404) },
      },
    },
    async (request, reply) => {
      const found = await readRequest(db, request.params.id)
      if (found.finishedAt === null) reply.header('retry-after', '1')
      return found
    },
  )
}
