import { readFile } from 'node:fs/promises'

import type { FastifyInstance } from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { buildApp } from '../../src/app.ts'
import { apiTypes } from '../../src/cli/api-types.ts'
import { type Database, openDatabase } from '../../src/db/client.ts'
import { openApiText } from '../../src/http/openapi.ts'

let db: Database
let app: FastifyInstance

/** Describing the routes needs no database; nothing listens at this address. */
beforeAll(async () => {
  db = openDatabase('postgresql://nobody@127.0.0.1:1/none')
  app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
  await app.ready()
})

afterAll(async () => {
  await app?.close()
  await db?.close()
})

interface Operation {
  readonly operationId?: string
  readonly tags?: readonly string[]
  readonly summary?: string
  readonly security?: readonly object[]
  readonly responses: Readonly<Record<string, { readonly content?: object }>>
}

function operations(): (Operation & { readonly route: string })[] {
  const { paths } = app.swagger() as unknown as { paths: Record<string, Record<string, Operation>> }
  return Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({
      route: `${method.toUpperCase()} ${path}`,
      ...operation,
    })),
  )
}

describe('openapi/openapi.json', () => {
  it('is what `npm run openapi` writes now', async () => {
    const committed = await readFile(new URL('../../openapi/openapi.json', import.meta.url), 'utf8')
    expect(committed).toBe(openApiText(app))
  })

  it('has the types of the pages beside it', async () => {
    const types = await readFile(new URL('../../src/web/api/types.ts', import.meta.url), 'utf8')
    const document = await readFile(new URL('../../openapi/openapi.json', import.meta.url), 'utf8')
    expect(types).toBe(await apiTypes(document))
  })

  it('is the same for every instance and setting of the service', async () => {
    const again = await buildApp({ db, logger: false, rateLimit: true, trustProxy: true })
    await again.ready()
    expect(openApiText(again)).toBe(openApiText(app))
    await again.close()
  })
})

describe('every operation', () => {
  it('has a name of its own, a summary and a known tag', () => {
    const { tags } = app.swagger() as { tags: { name: string }[] }
    const known = tags.map((tag) => tag.name)
    const ids = operations().map((operation) => operation.operationId)
    expect(new Set(ids).size).toBe(ids.length)
    const lacking = operations().filter(
      ({ operationId, summary, tags: own }) =>
        operationId === undefined || summary === undefined || !known.includes(own?.[0] ?? ''),
    )
    expect(lacking.map(({ route }) => route)).toEqual([])
  })

  it('answers refusals as problem+json', () => {
    const wrong = operations().flatMap(({ route, responses }) =>
      Object.entries(responses)
        .filter(([status, { content }]) => Number(status) >= 400 && content !== undefined)
        .filter(([, { content }]) => !Object.keys(content!).includes('application/problem+json'))
        .map(([status]) => `${route} ${status}`),
    )
    expect(wrong).toEqual([])
  })

  it('says whether it needs a token', () => {
    const security = Object.fromEntries(operations().map((o) => [o.route, o.security]))
    expect(security['GET /v1/components']).toEqual([])
    expect(security['POST /v1/components']).toEqual([{ bearer: [] }])
    expect(security['POST /v1/tokens']).toEqual([])
  })
})

describe('the pages about the API', () => {
  it('serves the same document to programs', async () => {
    const answer = await app.inject('/openapi.json')
    expect(answer.headers['content-type']).toContain('application/json')
    expect(`${JSON.stringify(answer.json(), null, 2)}\n`).toBe(openApiText(app))
  })

  it('serves documentation that asks no other server for anything', async () => {
    const page = await app.inject('/docs/')
    expect(page.statusCode).toBe(200)
    expect(page.body).toContain('<title>Fairclimb API</title>')
    const sources = [...page.body.matchAll(/(?:src|href)="([^"]+)"/g)].map(([, source]) => source!)
    expect(sources.length).toBeGreaterThan(3)
    expect(sources.filter((source) => !source.startsWith('./'))).toEqual([])
    for (const source of sources) {
      expect((await app.inject(`/docs/${source.slice(2)}`)).statusCode).toBe(200)
    }
    const start = await app.inject('/docs/static/swagger-initializer.js')
    expect(start.body).toContain('validatorUrl: null')
  })
})
