import { decodeProtectedHeader } from 'jose'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { buildApp } from '../../../src/app.ts'
import { type Database, openDatabase } from '../../../src/db/client.ts'
import { createKeyring } from '../../../src/features/accounts/sessions/signing-keys.ts'
import { verifyBearer } from '../../../src/features/accounts/verify-bearer.ts'
import { createTestDatabase, type TestDatabase } from '../../support/database.ts'

let first: TestDatabase
let second: Database

beforeAll(async () => {
  first = await createTestDatabase()
  second = openDatabase(first.url)
})

afterAll(async () => {
  await second.close()
  await first.drop()
})

async function startApp(db: Database) {
  const app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
  const post = (url: string, payload: object) => app.inject({ method: 'POST', url, payload })
  return { app, post }
}

describe('signing keys', () => {
  it('are one key for all processes that need the first at the same moment', async () => {
    const keyrings = Array.from({ length: 10 }, (_, i) => createKeyring(i % 2 ? first.db : second))
    const keys = await Promise.all(keyrings.map((keyring) => keyring.signingKey()))
    expect(new Set(keys.map((key) => key.kid)).size).toBe(1)
    expect(await first.db.prisma.signingKey.count()).toBe(1)
  })

  it('let one process accept what another has signed', async () => {
    const { app, post } = await startApp(first.db)
    const credentials = { email: 'ada@example.org', password: 'correct horse battery' }
    await post('/v1/accounts', { ...credentials, displayName: 'Ada' })
    const { accessToken } = (
      await post('/v1/tokens', { grantType: 'password', ...credentials })
    ).json()
    expect(await verifyBearer(second)(accessToken)).toMatchObject({ role: 'pilot' })
    await app.close()
  })

  it('that are retired neither verify nor sign nor are published, and the session goes on with the next', async () => {
    const before = await startApp(first.db)
    const credentials = { email: 'bea@example.org', password: 'correct horse battery' }
    await before.post('/v1/accounts', { ...credentials, displayName: 'Bea' })
    const old = (await before.post('/v1/tokens', { grantType: 'password', ...credentials })).json()
    const oldKid = decodeProtectedHeader(old.accessToken).kid
    const readMe = async (token: string) =>
      (await before.app.inject({ url: '/v1/me', headers: { authorization: `Bearer ${token}` } }))
        .statusCode
    expect(await readMe(old.accessToken)).toBe(200)

    await first.db.prisma.signingKey.updateMany({ data: { retiredAt: new Date() } })
    const after = await startApp(second) // a process that starts now; others follow within a minute
    await expect(verifyBearer(second)(old.accessToken)).rejects.toThrow('not valid')

    const refreshed = await after.post('/v1/tokens', {
      grantType: 'refresh',
      refreshToken: old.refreshToken,
    })
    expect(refreshed.statusCode).toBe(200)
    const { accessToken } = refreshed.json()
    expect(decodeProtectedHeader(accessToken).kid).not.toBe(oldKid)
    const published = (await after.app.inject('/.well-known/jwks.json')).json()
    expect(published.keys.map((key: { kid: string }) => key.kid)).toEqual([
      decodeProtectedHeader(accessToken).kid,
    ])

    // The process with the old keys in memory meets the new one and looks it up.
    expect(await readMe(accessToken)).toBe(200)
    await before.app.close()
    await after.app.close()
  })
})
