import { createServer, type Socket } from 'node:net'

import supertest from 'supertest'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { buildApp } from '../../../src/app.ts'
import { openDatabase } from '../../../src/db/client.ts'
import { requireReady } from '../../../src/features/status/service.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'

let service: TestApp

beforeAll(async () => {
  service = await startTestApp()
})

afterAll(async () => service?.close())

describe('with its database', () => {
  it('is alive and ready, and lets nobody cache that', async () => {
    for (const [path, status] of [
      ['/healthz', 'alive'],
      ['/readyz', 'ready'],
    ] as const) {
      const answer = await service.request.get(path).expect(200)
      expect(answer.body).toEqual({ status })
      expect(answer.headers['cache-control']).toBe('no-store')
    }
  })
})

describe('without its database', () => {
  it('is alive but not ready, and says when to ask again', async () => {
    const db = openDatabase('postgresql://nobody@127.0.0.1:1/none')
    const app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
    try {
      await app.listen({ port: 0, host: '127.0.0.1' })
      const request = supertest(app.server)
      await request.get('/healthz').expect(200)
      const answer = await request.get('/readyz')
      expect(answer.status).toBe(503)
      expect(answer.type).toBe('application/problem+json')
      expect(answer.body.type).toBe('/problems/not-ready')
      expect(Number(answer.headers['retry-after'])).toBeGreaterThan(0)
    } finally {
      await app.close()
      await db.close()
    }
  })

  it('does not wait for one that accepts connections and says nothing', async () => {
    const sockets: Socket[] = []
    const silent = createServer((socket) => sockets.push(socket))
    await new Promise<void>((resolve) => silent.listen(0, '127.0.0.1', resolve))
    const { port } = silent.address() as { port: number }
    const db = openDatabase(`postgresql://nobody@127.0.0.1:${port}/none`)
    try {
      await expect(requireReady(db, 50)).rejects.toMatchObject({ kind: 'not-ready' })
    } finally {
      for (const socket of sockets) socket.destroy()
      silent.close()
      await db.close()
    }
  })
})
