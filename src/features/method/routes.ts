import { readFile } from 'node:fs/promises'

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { marked } from 'marked'

/** The method's page lies beside `src/` and beside `dist/`. */
const SOURCE = new URL('../../../src/core/METHOD.md', import.meta.url)

const STYLE = `
  body { max-width: 46rem; margin: 2rem auto; padding: 0 1rem; font: 1.05rem/1.55 Georgia, serif; color: #1c2126; background: #fbfaf6 }
  pre, code { font: 0.9rem/1.5 ui-monospace, monospace } pre { overflow-x: auto; padding: 0.75rem 1rem; background: #f0ede4 }
  h1, h2 { line-height: 1.2 } a { color: #14557b }
  @media (prefers-color-scheme: dark) { body { color: #e8e4da; background: #171a1d } pre { background: #22272b } a { color: #8cc4ea } }`

/** `GET /docs/method`: how everything is computed, for people who fly. */
export const methodRoutes: FastifyPluginAsyncZod = async (app) => {
  const text = await readFile(SOURCE, 'utf8')
  const page = `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>How Fairclimb computes</title><link rel="stylesheet" href="/docs/method.css"></head>
<body>${await marked.parse(text)}</body></html>`

  app.get('/docs/method', { schema: { hide: true } }, async (_request, reply) =>
    reply.type('text/html; charset=utf-8').send(page),
  )

  // A file of its own: the content security policy takes no style from inside a page.
  app.get('/docs/method.css', { schema: { hide: true } }, async (_request, reply) =>
    reply.type('text/css; charset=utf-8').send(STYLE),
  )
}
