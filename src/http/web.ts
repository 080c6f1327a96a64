import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

import fastifyStatic from '@fastify/static'
import type { FastifyRequest } from 'fastify'
import fp from 'fastify-plugin'

import { ApiProblem } from '../contract/problems.ts'

/** Paths of pages; which page it is, the page itself finds out. */
const PAGES = [
  '/',
  '/submit',
  '/compare',
  '/setups',
  '/setups/:id',
  '/components/:id',
  '/mine',
  '/data',
  '/method',
  '/reviews',
  '/reviews/:id',
  '/sign-in',
] as const

const YEAR_S = 31_536_000

/** Beside the compiled service; when it runs from its source, where the build puts it. */
const HOMES = ['../web/', '../../dist/web/'].map((path) =>
  fileURLToPath(new URL(path, import.meta.url)),
)

/** The built pages: one document for all of them, and its files, which may be kept for ever. */
export default fp(
  async (app) => {
    const home = HOMES.find((folder) => existsSync(`${folder}assets`))
    const document = home === undefined ? null : readFileSync(`${home}index.html`, 'utf8')
    for (const path of PAGES) {
      app.get(path, { schema: { hide: true } }, async (_request, reply) => {
        if (document === null) {
          throw new ApiProblem('not-ready', { detail: 'The pages are not built: npm run build.' })
        }
        return reply.type('text/html; charset=utf-8').send(document)
      })
    }
    if (home === undefined || document === null) return
    // Whoever follows an old link gets a page with a way back; programs get a problem.
    app.addHook('onRequest', async (request, reply) => {
      if (!request.is404 || !isForAPage(request)) return
      reply.header('vary', 'accept')
      return reply.code(404).type('text/html; charset=utf-8').send(document)
    })
    await app.register(fastifyStatic, {
      root: home,
      decorateReply: false,
      wildcard: false,
      index: false,
      etag: false,
      lastModified: false,
      cacheControl: false,
      preCompressed: true,
      schemaHide: true,
      globIgnore: ['**/index.html', '**/*.br', '**/*.gz'],
      setHeaders(response, path) {
        const isNamedByContent = path.slice(home.length).startsWith('assets/')
        const policy = isNamedByContent ? `public, max-age=${YEAR_S}, immutable` : 'no-cache'
        response.header('cache-control', policy)
      },
    })
  },
  { name: 'web', dependencies: ['error-handler', 'headers'] },
)

function isForAPage({ method, headers }: FastifyRequest): boolean {
  const isReading = method === 'GET' || method === 'HEAD'
  return isReading && (headers.accept ?? '').includes('text/html')
}
