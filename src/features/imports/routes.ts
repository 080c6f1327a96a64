import { type FastifyPluginAsyncZod, jsonSchemaTransform } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { IdParams } from '../../contract/ids.ts'
import { PageQuery } from '../../contract/pagination.ts'
import { problems } from '../../contract/problems.ts'
import { requestBody } from './body-description.ts'
import { ImportQueue } from './followed/queue.ts'
import { notebookColumns } from './notebook/columns.ts'
import { blankNotebook, describeColumns } from './notebook/template.ts'
import {
  Import,
  ImportHeaders,
  ImportPage,
  ImportQuery,
  ImportRequest,
  NotebookColumns,
  prefersAsync,
  TemplateQuery,
} from './schema.ts'
import {
  followImport,
  type ImportDesk,
  importFiles,
  pageOfImports,
  readImport,
  readRequest,
  withdrawImport,
} from './service.ts'
import { MAX_UPLOAD_BYTES, takeUploads, uploadsOf } from './upload.ts'

const tags = ['Imports']

/** HTTP face of imports: notebooks and releases come in as files. */
export const importRoutes: FastifyPluginAsyncZod<Omit<ImportDesk, 'columns' | 'queue'>> = async (
  app,
  options,
) => {
  const { db, submissions, catalogue, tables, onEvidenceChanged } = options // without the prefix
  const columns = notebookColumns(submissions.schema)
  const queue = new ImportQueue(db, app.log)
  app.addHook('onClose', () => queue.settled())
  const desk = { db, columns, submissions, catalogue, tables, queue, onEvidenceChanged }
  await app.register(templateRoutes, desk)
  await app.register(storedRoutes, desk)
  await app.register(uploadRoutes, desk)
}

const uploadRoutes: FastifyPluginAsyncZod<ImportDesk> = async (app, desk) => {
  await takeUploads(app)
  app.post(
    '/imports',
    {
      onRequest: app.requireAccount(),
      bodyLimit: MAX_UPLOAD_BYTES,
      config: {
        swaggerTransform: (document) => {
          const described = jsonSchemaTransform(document)
          return { ...described, schema: { ...described.schema, body: requestBody } }
        },
      },
      schema: {
        operationId: 'importData',
        summary: 'Take in a notebook, or a release of another server',
        description:
          'All of it or nothing. A notebook (CSV in the columns of GET /v1/imports/columns, one row per run) becomes submissions of the caller, checked like posted ones. The files of a release (runs and systematic, and setups and components where its set-ups are not known here) count beside the submissions of this server; that needs the role moderator or admin. Faults are answered with row and column. A file that was taken in before is answered with what it made then. With the header Prefer: respond-async the answer comes at once and says where to follow a long file.',
        tags,
        querystring: ImportQuery,
        headers: ImportHeaders,
        response: {
          200: Import.describe('The same file came before: what it made then'),
          201: Import,
          202: ImportRequest.describe('It is being taken in'),
          ...problems(400, 401, 403, 409, 413, 415, 422, 503),
        },
      },
    },
    async (request, reply) => {
      const write = {
        uploads: await uploadsOf(request),
        caller: request.caller!,
        idempotencyKey: request.headers['idempotency-key'],
        replaces: request.query.replaces,
      }
      if (prefersAsync(request.headers.prefer)) {
        const asked = await followImport(desk, write)
        reply.code(202).header('location', `/v1/import-requests/${asked.id}`)
        reply.header('preference-applied', 'respond-async')
        return asked
      }
      const { status, body } = await importFiles(desk, write)
      reply.code(status as 200 | 201).header('location', `/v1/imports/${body.id}`)
      return body
    },
  )
}

const storedRoutes: FastifyPluginAsyncZod<ImportDesk> = async (app, desk) => {
  const onRequest = app.requireAccount()
  app.addHook('onSend', async (_request, reply) => {
    reply.header('vary', 'Authorization')
  })

  app.get(
    '/imports',
    {
      onRequest,
      schema: {
        operationId: 'listImports',
        summary: 'List the own imports, and the releases taken in here',
        description: 'Newest first.',
        tags,
        querystring: PageQuery,
        response: { 200: ImportPage, ...problems(400, 401) },
      },
    },
    async (request) => pageOfImports(desk.db, request.caller!, request.query),
  )

  app.get(
    '/imports/:id',
    {
      onRequest,
      schema: {
        operationId: 'readImport',
        summary: 'Read one import',
        description: 'A notebook is for its owner and moderators; a release for everybody.',
        tags,
        params: IdParams,
        response: { 200: Import, ...problems(400, 401, 404) },
      },
    },
    async (request) => readImport(desk.db, request.caller!, request.params.id),
  )

  app.get(
    '/import-requests/:id',
    {
      onRequest,
      schema: {
        operationId: 'readImportRequest',
        summary: 'Follow an import',
        description: 'For the account that sent it, for a week after it is done.',
        tags,
        params: IdParams,
        response: { 200: ImportRequest, ...problems(400, 401, 404) },
      },
    },
    async (request, reply) => {
      const found = await readRequest(desk.db, request.caller!, request.params.id)
      if (found.finishedAt === null) reply.header('retry-after', '1')
      return found
    },
  )

  app.delete(
    '/imports/:id',
    {
      onRequest,
      schema: {
        operationId: 'withdrawImport',
        summary: 'Withdraw an import',
        description:
          'Its submissions are withdrawn, or the runs of its release no longer count. Set-ups, components and warnings that came with it stay. Doing it again is harmless.',
        tags,
        params: IdParams,
        response: { 204: z.void(), ...problems(400, 401, 403, 404) },
      },
    },
    async (request, reply) => {
      await withdrawImport(desk, request.caller!, request.params.id)
      return reply.code(204).send()
    },
  )
}

const templateRoutes: FastifyPluginAsyncZod<ImportDesk> = async (app, { columns }) => {
  const described = { items: describeColumns(columns) }

  app.get(
    '/imports/columns',
    {
      schema: {
        operationId: 'listNotebookColumns',
        summary: 'List the columns of a notebook',
        description:
          'One row of a notebook is one run. The columns follow from the schema of submissions; those that are not needed may be left out.',
        tags,
        response: { 200: NotebookColumns },
      },
    },
    async () => described,
  )

  app.get(
    '/imports/template.csv',
    {
      schema: {
        operationId: 'readNotebookTemplate',
        summary: 'Read a blank notebook',
        description: 'The header alone; columns that are rarely known are left out.',
        tags,
        querystring: TemplateQuery,
        response: { 200: z.string().describe('CSV'), ...problems(400) },
      },
      serializerCompiler: () => String,
    },
    async (request, reply) => {
      reply
        .type('text/csv; charset=utf-8; header=present')
        .header('content-disposition', 'attachment; filename="fairclimb-notebook.csv"')
      return blankNotebook(columns, request.query.delimiter)
    },
  )
}
