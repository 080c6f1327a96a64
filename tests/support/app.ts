import type { FastifyInstance } from 'fastify'
import supertest from 'supertest'

import { buildApp } from '../../src/app.ts'
import type { Database } from '../../src/db/client.ts'
import { createTestDatabase } from './database.ts'

export interface TestApp {
  readonly app: FastifyInstance
  readonly db: Database
  /** Sends requests to the app over HTTP. */
  readonly request: ReturnType<typeof supertest>
  close(): Promise<void>
}

/** The real app, listening on a free port, on a fresh database. Close it in afterAll. */
export async function startTestApp(): Promise<TestApp> {
  const { db, drop } = await createTestDatabase()
  const app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
  await app.listen({ port: 0, host: '127.0.0.1' })
  return {
    app,
    db,
    request: supertest(app.server),
    async close() {
      await app.close()
      await drop()
    },
  }
}
