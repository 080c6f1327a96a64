import type { LightMyRequestResponse } from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { buildApp } from '../../../src/app.ts'
import { createTestDatabase, type TestDatabase } from '../../support/database.ts'

const PASSWORD = 'correct horse battery'

let database: TestDatabase
/** Everything the application logged, at its most talkative. */
let log = ''
/** Every answer, headers too, in order. */
const answers: { name: string; text: string }[] = []
/** What must stay secret, with the names of the answers that are meant to tell it. */
const secrets: { name: string; value: string; toldIn: string[] }[] = []

/** A person signs up, signs in, refreshes, errs and leaves, against the real application. */
beforeAll(async () => {
  database = await createTestDatabase()
  const stream = {
    write: (line: string) => {
      log += line
    },
  }
  const logger = { level: 'trace', stream }
  const app = await buildApp({ db: database.db, logger, rateLimit: false, trustProxy: false })
  const send = async (
    name: string,
    method: 'GET' | 'POST' | 'DELETE',
    url: string,
    rest: object = {},
  ) => {
    const response: LightMyRequestResponse = await app.inject({ method, url, ...rest })
    answers.push({ name, text: JSON.stringify(response.headers) + response.body })
    return response
  }
  const grant = async (name: string, payload: object) => {
    const { accessToken, refreshToken } = (
      await send(name, 'POST', '/v1/tokens', { payload })
    ).json()
    secrets.push({ name: `access token of "${name}"`, value: accessToken, toldIn: [name] })
    secrets.push({ name: `refresh token of "${name}"`, value: refreshToken, toldIn: [name] })
    return { headers: { authorization: `Bearer ${accessToken}` }, refreshToken }
  }
  const person = { email: 'ada@example.org', password: PASSWORD }
  const credentials = { grantType: 'password', ...person }
  secrets.push({ name: 'password', value: PASSWORD, toldIn: [] })

  await send('sign up', 'POST', '/v1/accounts', { payload: { ...person, displayName: 'Ada' } })
  await send('sign up again', 'POST', '/v1/accounts', {
    payload: { ...person, displayName: 'Ada' },
  })
  await send('bad field', 'POST', '/v1/accounts', { payload: { ...person, displayName: 7 } })
  await send('unknown field', 'POST', '/v1/tokens', { payload: { ...credentials, more: 1 } })
  await send('broken JSON', 'POST', '/v1/tokens', {
    payload: JSON.stringify(credentials).slice(0, -1),
    headers: { 'content-type': 'application/json' },
  })
  await send('wrong e-mail', 'POST', '/v1/tokens', {
    payload: { ...credentials, email: 'b@example.org' },
  })
  const signedIn = await grant('sign in', credentials)
  const refreshed = await grant('refresh', {
    grantType: 'refresh',
    refreshToken: signedIn.refreshToken,
  })
  const { headers } = refreshed
  const made = await send('make key', 'POST', '/v1/api-keys', {
    headers,
    payload: { name: 'script' },
  })
  secrets.push({ name: 'API key', value: made.json().key, toldIn: ['make key'] })
  await send('list keys', 'GET', '/v1/api-keys', { headers })
  await send('me', 'GET', '/v1/me', { headers })
  await send('export', 'GET', '/v1/me/export', { headers })
  await send('key set', 'GET', '/.well-known/jwks.json')
  await addStoredSecrets()
  await send('reuse', 'POST', '/v1/tokens', {
    payload: { grantType: 'refresh', refreshToken: signedIn.refreshToken },
  })
  await send('revoked', 'GET', '/v1/me', { headers })
  await app.close()
})

afterAll(() => database.drop())

async function addStoredSecrets(): Promise<void> {
  const { prisma } = database.db
  const { passwordHash } = await prisma.account.findFirstOrThrow()
  secrets.push({ name: 'password hash', value: passwordHash, toldIn: [] })
  const { privateJwk } = await prisma.signingKey.findFirstOrThrow()
  secrets.push({ name: 'signing key', value: (privateJwk as { d: string }).d, toldIn: [] })
  for (const { tokenHash } of await prisma.refreshToken.findMany()) {
    for (const encoding of ['hex', 'base64', 'base64url'] as const) {
      const value = Buffer.from(tokenHash).toString(encoding)
      secrets.push({ name: `hash of a refresh token, ${encoding}`, value, toldIn: [] })
    }
  }
}

describe('secrets of a person', () => {
  it('stand in no answer but the one that is meant to tell them', () => {
    expect(secrets.length).toBe(14)
    for (const { name, value, toldIn } of secrets) {
      const found = answers.filter(({ text }) => text.includes(value)).map((answer) => answer.name)
      expect(found, name).toEqual(toldIn)
    }
  })

  it('stand in no line of the log', () => {
    expect(log.match(/"request completed"/g)?.length).toBe(answers.length) // it did log
    for (const { name, value } of secrets) expect(log.includes(value), name).toBe(false)
  })

  it('stand nowhere in the database in the clear', async () => {
    const { rows } = await database.db.pool.query<{ row: string }>(
      `SELECT t::text AS row FROM account t UNION ALL SELECT t::text FROM refresh_token t
        UNION ALL SELECT t::text FROM api_key t`,
    )
    expect(rows.length).toBe(4) // one account, two refresh tokens, one key
    const clear = secrets.filter(({ name }) =>
      /^(password|API key|(access|refresh) token of .*)$/.test(name),
    )
    expect(clear.length).toBe(6)
    for (const { name, value } of clear) {
      expect(
        rows.some(({ row }) => row.includes(value)),
        name,
      ).toBe(false)
    }
  })
})
