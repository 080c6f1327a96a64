import { Readable } from 'node:stream'

import Fastify, { type FastifyInstance } from 'fastify'
import supertest from 'supertest'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { ApiProblem } from '../../src/contract/problems.ts'
import errorHandler from '../../src/http/error-handler.ts'
import headers from '../../src/http/headers.ts'

let app: FastifyInstance
let request: ReturnType<typeof supertest>
let answer = { text: 'x'.repeat(2000) }

beforeAll(async () => {
  app = Fastify()
  await app.register(errorHandler)
  await app.register(headers)
  app.get('/large', async () => answer)
  app.get('/small', async () => ({ text: 'small' }))
  app.get('/own', async (_request, reply) => {
    reply.header('etag', '"own"').header('cache-control', 'public, max-age=60').type('text/plain')
    return Readable.from(['streamed'])
  })
  app.get('/fault', async () => {
    throw new ApiProblem('gone')
  })
  app.post('/small', async () => ({ text: 'small' }))
  await app.listen({ port: 0, host: '127.0.0.1' })
  request = supertest(app.server)
})

afterAll(async () => app?.close())

const get = (path: string, coding = 'identity') => request.get(path).set('accept-encoding', coding)

describe('ETag', () => {
  it('is strong, the same for the same answer and another for another', async () => {
    const first = (await get('/large')).headers.etag
    expect(first).toMatch(/^"[\w-]+"$/)
    expect((await get('/large')).headers.etag).toBe(first)
    const before = answer
    answer = { text: 'y'.repeat(2000) }
    expect((await get('/large')).headers.etag).not.toBe(first)
    answer = before
  })

  it('differs between content codings, and each is known again', async () => {
    const plain = (await get('/large')).headers.etag!
    for (const coding of ['gzip', 'br']) {
      const compressed = await get('/large', coding)
      expect(compressed.headers['content-encoding']).toBe(coding)
      expect(compressed.headers.vary).toContain('accept-encoding')
      expect(compressed.headers.etag).toBe(`${plain.slice(0, -1)}-${coding}"`)
      const again = await get('/large', coding).set('if-none-match', compressed.headers.etag!)
      expect(again.status).toBe(304)
      expect(again.headers.etag).toBe(compressed.headers.etag)
    }
  })

  it('is looked for in a list, compared weakly, and * is any', async () => {
    const { etag } = (await get('/small')).headers
    for (const known of [etag!, `"a", ${etag}`, `W/${etag}`, '*']) {
      const again = await get('/small').set('if-none-match', known)
      expect(again.status).toBe(304)
      expect(again.text).toBe('')
      expect(again.headers).not.toHaveProperty('content-length')
    }
    for (const unknown of ['"a"', 'nonsense', etag!.slice(1, -1)]) {
      expect((await get('/small').set('if-none-match', unknown)).status).toBe(200)
    }
  })

  it('is on HEAD as on GET', async () => {
    const { etag } = (await get('/small')).headers
    expect((await request.head('/small')).headers.etag).toBe(etag)
  })

  it('of a route is kept, also for a stream', async () => {
    const first = await get('/own')
    expect(first.headers.etag).toBe('"own"')
    expect(first.headers['cache-control']).toBe('public, max-age=60')
    expect(first.text).toBe('streamed')
    expect((await get('/own').set('if-none-match', '"own"')).status).toBe(304)
  })

  it('is neither on writes nor on refusals', async () => {
    const written = await request.post('/small').set('if-none-match', '*')
    expect(written.status).toBe(200)
    expect(written.headers).not.toHaveProperty('etag')
    const refused = await get('/fault').set('if-none-match', '*')
    expect(refused.status).toBe(410)
    expect(refused.headers).not.toHaveProperty('etag')
    expect(refused.headers['cache-control']).toBe('no-store')
  })
})

describe('browser headers', () => {
  it('let a page load from this server only, and stand on refusals too', async () => {
    for (const path of ['/small', '/fault', '/nowhere']) {
      const { headers: sent } = await get(path)
      expect(sent['content-security-policy']).toContain("default-src 'self'")
      expect(sent['content-security-policy']).not.toMatch(/unsafe|https?:|\*/)
      expect(sent['x-content-type-options']).toBe('nosniff')
      expect(sent).not.toHaveProperty('strict-transport-security')
    }
  })
})
