import Fastify, { type FastifyInstance } from 'fastify'
import { afterEach, describe, expect, it } from 'vitest'

import { buildApp } from '../../src/app.ts'
import { ApiProblem } from '../../src/contract/problems.ts'
import { openDatabase } from '../../src/db/client.ts'
import errorHandler from '../../src/http/error-handler.ts'
import rateLimit, { type RateLimitOptions } from '../../src/http/rate-limit.ts'

let app: FastifyInstance

afterEach(async () => app?.close())

async function start(options: Partial<RateLimitOptions>) {
  app = Fastify()
  await app.register(errorHandler)
  await app.register(rateLimit, { enabled: true, general: { max: 3 }, ...options })
  const refuse = async () => {
    throw new ApiProblem('not-authenticated')
  }
  app.get('/open', async () => 'open')
  app.get('/free', { config: { rateLimit: false } }, async () => 'free')
  app.get('/guarded', { onRequest: refuse }, async () => 'never')
  app.post('/v1/tokens', async () => 'token')
  await app.ready()
  return async (url: string, remoteAddress = '192.0.2.1', method: 'GET' | 'POST' = 'GET') =>
    app.inject({ url, method, remoteAddress })
}

describe('the limit', () => {
  it('is announced in the fields of the IETF drafts, old and new', async () => {
    const ask = await start({})
    const { headers } = await ask('/open')
    expect(headers).toMatchObject({
      'ratelimit-limit': '3',
      'ratelimit-remaining': '2',
      'ratelimit-reset': '60',
      'ratelimit-policy': '"address";q=3;w=60',
      ratelimit: '"address";r=2;t=60',
    })
  })

  it('refuses what goes over it with 429, Retry-After and a problem', async () => {
    const ask = await start({})
    for (let i = 0; i < 3; i += 1) expect((await ask('/open')).statusCode).toBe(200)
    const answer = await ask('/open')
    expect(answer.statusCode).toBe(429)
    expect(answer.headers['content-type']).toContain('application/problem+json')
    expect(answer.json()).toMatchObject({ type: '/problems/too-many-requests', status: 429 })
    expect(Number(answer.headers['retry-after'])).toBeGreaterThan(0)
    expect(answer.headers.ratelimit).toMatch(/^"address";r=0;t=\d+$/)
  })

  it('counts each address by itself, and every route of it together', async () => {
    const ask = await start({})
    for (const path of ['/open', '/nowhere', '/open']) await ask(path)
    expect((await ask('/nowhere')).statusCode).toBe(429)
    expect((await ask('/open', '192.0.2.2')).statusCode).toBe(200)
  })

  it('counts requests that are refused for their token', async () => {
    const ask = await start({})
    for (let i = 0; i < 3; i += 1) expect((await ask('/guarded')).statusCode).toBe(401)
    expect((await ask('/guarded')).statusCode).toBe(429)
  })

  it('is stricter where a guess costs nothing', async () => {
    const ask = await start({ general: { max: 50 }, strict: { 'POST /v1/tokens': { max: 2 } } })
    const signIn = async () => ask('/v1/tokens', '192.0.2.1', 'POST')
    expect((await signIn()).headers['ratelimit-policy']).toBe('"address";q=2;w=60')
    await signIn()
    expect((await signIn()).statusCode).toBe(429)
    expect((await ask('/open')).statusCode).toBe(200)
  })

  it('spares routes that ask for none', async () => {
    const ask = await start({})
    for (let i = 0; i < 5; i += 1) expect((await ask('/free')).statusCode).toBe(200)
    expect((await ask('/free')).headers).not.toHaveProperty('ratelimit')
  })

  it('may be switched off', async () => {
    const ask = await start({ enabled: false })
    for (let i = 0; i < 5; i += 1) expect((await ask('/open')).statusCode).toBe(200)
    expect((await ask('/open')).headers).not.toHaveProperty('ratelimit')
  })
})

describe('the limits of the service', () => {
  it('are strict for signing in and signing up, generous elsewhere, and spare the probes', async () => {
    const db = openDatabase('postgresql://nobody@127.0.0.1:1/none')
    app = await buildApp({ db, logger: false, rateLimit: true, trustProxy: false })
    const policyOf = async (method: 'GET' | 'POST', url: string) =>
      (await app.inject({ method, url })).headers['ratelimit-policy']
    expect(await policyOf('POST', '/v1/tokens')).toBe('"address";q=20;w=60')
    expect(await policyOf('POST', '/v1/accounts')).toBe('"address";q=10;w=60')
    expect(await policyOf('GET', '/openapi.json')).toBe('"address";q=1200;w=60')
    expect(await policyOf('GET', '/healthz')).toBeUndefined()
    await db.close()
  })
})
