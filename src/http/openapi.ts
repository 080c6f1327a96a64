import { readFileSync } from 'node:fs'

import swagger from '@fastify/swagger'
import swaggerUi from '@fastify/swagger-ui'
import type { FastifyInstance } from 'fastify'
import fp from 'fastify-plugin'
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod'

import { completeDocument, type OpenApiDocument } from './openapi-document.ts'

const { version } = JSON.parse(
  readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
) as { version: string }

const DESCRIPTION =
  'Fair comparisons of powered-paraglider engines, propellers and frames from pooled flight tests. ' +
  'Everything can be read without an account; what is written carries its raw values, its method and its uncertainty.'

const TAGS = [
  { name: 'Calculators', description: 'Physics on the values of the request; nothing is stored.' },
  { name: 'Catalogue', description: 'Components, and the setups they are flown in.' },
  { name: 'Submissions', description: 'Flight-test sessions and their normalised results.' },
  { name: 'Imports', description: 'Notebooks and releases of other servers, as files.' },
  {
    name: 'Analysis',
    description: 'Comparisons, rankings and predictions, and the fits behind them.',
  },
  { name: 'Datasets', description: 'Immutable releases of the evidence.' },
  { name: 'Accounts', description: 'Accounts, tokens and API keys.' },
  { name: 'Care of the data', description: 'Reports, reviews and the audit trail.' },
  { name: 'Operations', description: 'For whoever runs the service.' },
]

/** Describes the routes registered after it: `/openapi.json` for programs, `/docs` for people. */
export default fp(
  async (app) => {
    await app.register(swagger, {
      openapi: {
        openapi: '3.1.0',
        info: {
          title: 'Fairclimb',
          version,
          description: DESCRIPTION,
          license: { name: 'MIT', identifier: 'MIT' },
        },
        servers: [{ url: '/', description: 'The server this document came from' }],
        tags: TAGS,
        components: {
          securitySchemes: {
            bearer: {
              type: 'http',
              scheme: 'bearer',
              description: 'An access token from POST /v1/tokens, or an API key.',
            },
          },
        },
      },
      transform: jsonSchemaTransform,
      transformObject: (document) =>
        completeDocument(jsonSchemaTransformObject(document) as OpenApiDocument) as object,
    })
    await app.register(swaggerUi, {
      routePrefix: '/docs',
      theme: { title: 'Fairclimb API', css: [{ filename: 'theme.css', content: HIDE_TOP_BAR }] },
      uiConfig: { docExpansion: 'list', deepLinking: true, tryItOutEnabled: true },
    })
    app.get('/openapi.json', { schema: { hide: true } }, async () => app.swagger())
  },
  { name: 'openapi', dependencies: ['error-handler'] },
)

/** The bar at the top only offers to load another document. */
const HIDE_TOP_BAR = '.swagger-ui .topbar { display: none }\n'

/** The document as it is committed: openapi/openapi.json. */
export function openApiText(app: FastifyInstance): string {
  return `${JSON.stringify(app.swagger(), null, 2)}\n`
}
