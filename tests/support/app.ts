import { randomUUID } from 'node:crypto'

import type { FastifyInstance } from 'fastify'
import supertest from 'supertest'

import { buildApp } from '../../src/app.ts'
import type { Role } from '../../src/contract/caller.ts'
import type { Database } from '../../src/db/client.ts'
import { createTestDatabase } from './database.ts'

export interface TestAccount {
  readonly accountId: string
  readonly token: string
}

export interface TestApp {
  readonly app: FastifyInstance
  readonly db: Database
  /** Sends requests to the app over HTTP. */
  readonly request: ReturnType<typeof supertest>
  /** Opens an account and signs in, over HTTP; a role other than pilot is given to it in SQL. */
  signUp(role?: Role): Promise<TestAccount>
  close(): Promise<void>
}

/** The real app, listening on a free port, on a fresh database. Close it in afterAll. */
export async function startTestApp(): Promise<TestApp> {
  const { db, drop } = await createTestDatabase()
  const app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
  await app.listen({ port: 0, host: '127.0.0.1' })
  const request = supertest(app.server)
  return {
    app,
    db,
    request,
    async signUp(role = 'pilot') {
      const email = `${randomUUID()}@example.org`
      const password = 'calm morning over the field'
      const account = await request
        .post('/v1/accounts')
        .send({ email, password, displayName: 'Test pilot' })
        .expect(201)
      await db.pool.query('UPDATE account SET role = $1 WHERE id = $2', [role, account.body.id])
      const tokens = await request
        .post('/v1/tokens')
        .send({ grantType: 'password', email, password })
        .expect(200)
      return { accountId: account.body.id, token: tokens.body.accessToken }
    },
    async close() {
      await app.close()
      await drop()
    },
  }
}
