import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

import { WriteHeaders } from '../../../contract/idempotency-key.ts'
import { IdParams } from '../../../contract/ids.ts'
import { problems } from '../../../contract/problems.ts'
import type { CatalogueRoutesOptions } from '../routes.ts'
import { Component, ComponentPage, ComponentQuery, NewComponent } from './schema.ts'
import { addComponent, getComponent, listComponents } from './service.ts'

/** HTTP face of the components. */
export const componentRoutes: FastifyPluginAsyncZod<CatalogueRoutesOptions> = async (
  app,
  { db },
) => {
  const tags = ['Catalogue']

  app.get(
    '/components',
    {
      schema: {
        operationId: 'listComponents',
        summary: 'List or search components',
        description:
          'By name, or with q the best matches first. Merged duplicates are not listed; a search for their name finds what they were merged into.',
        tags,
        querystring: ComponentQuery,
        response: { 200: ComponentPage, ...problems(400) },
      },
    },
    async (request) => listComponents(db, request.query),
  )

  app.get(
    '/components/:id',
    {
      schema: {
        operationId: 'getComponent',
        summary: 'Read one component',
        description:
          'The id of a merged duplicate keeps working: the answer is the component that remains, with its own id, and mergedIntoId says so. Content-Location names it.',
        tags,
        params: IdParams,
        response: { 200: Component, ...problems(400, 404) },
      },
    },
    async (request, reply) => {
      const component = await getComponent(db, request.params.id)
      reply.header('content-location', `/v1/components/${component.id}`)
      return component
    },
  )

  app.post(
    '/components',
    {
      onRequest: app.requireAccount(),
      schema: {
        operationId: 'addComponent',
        summary: 'Add a component',
        description:
          'One record per thing: the same kind, maker and model (ignoring case, spaces and hyphens) is refused with 409 and the id of the known one, unless something that tells them apart is stated and differs: drive, displacementCc, reductionRatio, tune of a powerplant; diameterCm, pitchCm, blades, material of a propeller; hoopInnerDiameterCm of a frame; flatAreaM2 of a wing.',
        tags,
        headers: WriteHeaders,
        body: NewComponent,
        response: { 201: Component, ...problems(400, 401, 409, 413, 415, 422) },
      },
    },
    async (request, reply) => {
      const key = request.headers['idempotency-key']
      const { body } = await addComponent(db, request.caller!, key, request.body)
      reply.code(201).header('location', `/v1/components/${body.id}`)
      return body
    },
  )
}
