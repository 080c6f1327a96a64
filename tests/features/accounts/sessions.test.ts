import { parseOptions } from '@node-rs/argon2'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { createSessionContext } from '../../../src/features/accounts/sessions/service.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'
import { signUp } from '../../support/sign-up.ts'
import { inOrderOfLock } from './lock-order.ts'

let test: TestApp

beforeAll(async () => {
  test = await startTestApp()
})

afterAll(() => test.close())

const tokens = (body: object) => test.request.post('/v1/tokens').send(body)
const signIn = (email: string, password: string) =>
  tokens({ grantType: 'password', email, password })
const refresh = (refreshToken: string) => tokens({ grantType: 'refresh', refreshToken })
const readMe = (token: string) => test.request.get('/v1/me').set('authorization', `Bearer ${token}`)
const signOut = (token: string) =>
  test.request.delete('/v1/tokens/current').set('authorization', `Bearer ${token}`)

describe('signing in', () => {
  it('gives a bearer token of 15 minutes and a refresh token', async () => {
    const { email, password, accountId } = await signUp(test)
    const response = await signIn(email.toUpperCase(), password).expect(200)
    expect(response.body).toEqual({
      accessToken: expect.stringMatching(/^[\w-]+\.[\w-]+\.[\w-]+$/),
      tokenType: 'Bearer',
      expiresInS: 900,
      refreshToken: expect.stringMatching(/^[\w-]{43}$/), // 256 bits in base64url
    })
    expect(response.headers['cache-control']).toBe('no-store')
    const me = await readMe(response.body.accessToken).expect(200)
    expect(me.body).toMatchObject({ id: accountId, email, role: 'pilot' })
  })

  it('answers alike to a wrong password and to an unknown e-mail', async () => {
    const { email } = await signUp(test)
    const wrong = await signIn(email, 'not the password').expect(401)
    const unknown = await signIn('nobody@example.org', 'not the password').expect(401)
    expect(wrong.body.type).toBe('/problems/wrong-credentials')
    expect({ ...unknown.body, instance: '' }).toEqual({ ...wrong.body, instance: '' })
  })

  it('checks an unknown e-mail against a hash that costs as much as a real one', async () => {
    const { accountId } = await signUp(test)
    const { decoyHash } = await createSessionContext(test.db)
    const stored = await test.db.prisma.account.findUniqueOrThrow({ where: { id: accountId } })
    expect(parseOptions(decoyHash)).toEqual(parseOptions(stored.passwordHash))
  })

  it('stores the refresh token as its hash only', async () => {
    const { accountId, refreshToken } = await signUp(test)
    const { rows } = await test.db.pool.query(
      'SELECT token_hash = sha256($2) AS hashed FROM refresh_token WHERE account_id = $1',
      [accountId, Buffer.from(refreshToken)],
    )
    expect(rows).toEqual([{ hashed: true }])
  })

  it.each([
    ['no grant type', { email: 'a@example.org', password: 'correct horse' }],
    ['an unknown grant type', { grantType: 'magic' }],
    [
      'fields of the other grant type',
      { grantType: 'refresh', email: 'a@example.org', password: 'x' },
    ],
    ['no password', { grantType: 'password', email: 'a@example.org' }],
    [
      'a password without end',
      { grantType: 'password', email: 'a@example.org', password: 'x'.repeat(1_001) },
    ],
  ])('refuses a body with %s', async (_what, body) => {
    const response = await tokens(body).expect(400)
    expect(response.body.type).toBe('/problems/invalid-request')
  })
})

describe('refreshing', () => {
  it('gives a new pair of tokens of the same session', async () => {
    const { refreshToken, token } = await signUp(test)
    const second = await refresh(refreshToken).expect(200)
    expect(second.body.refreshToken).not.toBe(refreshToken)
    expect(second.body.accessToken).not.toBe(token)
    await readMe(second.body.accessToken).expect(200)
    await readMe(token).expect(200) // an access token lives its 15 minutes
    await refresh(second.body.refreshToken).expect(200)
  })

  it('lasts 30 days from each use', async () => {
    const { accountId, refreshToken } = await signUp(test)
    await refresh(refreshToken).expect(200)
    const { rows } = await test.db.pool.query(
      `SELECT extract(epoch FROM expires_at - issued_at)::float AS "lifeS"
         FROM refresh_token WHERE account_id = $1 AND used_at IS NULL`,
      [accountId],
    )
    expect(rows).toHaveLength(1)
    expect(Math.abs(rows[0].lifeS - 30 * 86_400)).toBeLessThanOrEqual(3_600) // a day may have 23 or 25 hours
  })

  it('ends the whole session when a used token is shown again', async () => {
    const other = await signUp(test)
    const { refreshToken } = await signUp(test)
    const second = (await refresh(refreshToken).expect(200)).body
    const third = (await refresh(second.refreshToken).expect(200)).body

    const reused = await refresh(refreshToken).expect(401)
    expect(reused.body.type).toBe('/problems/not-authenticated')
    await refresh(third.refreshToken).expect(401)
    await readMe(third.accessToken).expect(401)
    await readMe(second.accessToken).expect(401)
    await refresh(other.refreshToken).expect(200)
  })

  it('lets exactly one of many at the same moment win', async () => {
    const { refreshToken, accountId } = await signUp(test)
    const responses = await Promise.all(
      Array.from({ length: 8 }, async () => refresh(refreshToken)),
    )
    const statuses = responses.map((response) => response.status).sort()
    expect(statuses).toEqual([200, ...Array(7).fill(401)])
    expect(await test.db.prisma.refreshToken.count({ where: { accountId } })).toBe(2)
  })

  it('keeps the session of the winner when another request came before the winner was done', async () => {
    const { refreshToken, accountId } = await signUp(test)
    const again = async () => refresh(refreshToken)
    const responses = await inOrderOfLock(test.db, [accountId], [again, again])
    expect(responses.map((response) => response.status).sort()).toEqual([200, 401])
    const winner = responses.find((response) => response.status === 200)!
    await readMe(winner.body.accessToken).expect(200)
    await refresh(winner.body.refreshToken).expect(200)
  })

  it('is refused when a sign-out came first', async () => {
    const { refreshToken, token, accountId } = await signUp(test)
    const [left, refreshed] = await inOrderOfLock(
      test.db,
      [accountId],
      [async () => signOut(token), async () => refresh(refreshToken)],
    )
    expect(left!.status).toBe(204)
    expect(refreshed!.status).toBe(401)
  })

  it('gains nothing when a sign-out comes second', async () => {
    const { refreshToken, token, accountId } = await signUp(test)
    const [refreshed, left] = await inOrderOfLock(
      test.db,
      [accountId],
      [async () => refresh(refreshToken), async () => signOut(token)],
    )
    expect(left!.status).toBe(204)
    expect(refreshed!.status).toBe(200)
    await readMe(refreshed!.body.accessToken).expect(401)
    await refresh(refreshed!.body.refreshToken).expect(401)
  })

  it('refuses a token that has expired, and forgets it at the next sign-in', async () => {
    const { refreshToken, accountId, email, password } = await signUp(test)
    await test.db.prisma.refreshToken.updateMany({
      where: { accountId },
      data: { expiresAt: new Date(Date.now() - 1_000) },
    })
    await refresh(refreshToken).expect(401)
    await signIn(email, password).expect(200)
    expect(await test.db.prisma.refreshToken.count({ where: { accountId } })).toBe(1)
  })

  it('refuses what never was a refresh token', async () => {
    const { token } = await signUp(test)
    await refresh('A'.repeat(43)).expect(401)
    await refresh(token).expect(401)
    await refresh('\u0000').expect(401)
  })
})

describe('DELETE /v1/tokens/current', () => {
  it('ends this session at once and no other', async () => {
    const { token, refreshToken, email, password } = await signUp(test)
    const elsewhere = (await signIn(email, password).expect(200)).body
    await signOut(token).expect(204)

    const refused = await readMe(token).expect(401)
    expect(refused.headers['www-authenticate']).toBe('Bearer')
    await refresh(refreshToken).expect(401)
    await signOut(token).expect(401)
    await readMe(elsewhere.accessToken).expect(200)
    await refresh(elsewhere.refreshToken).expect(200)
  })

  it('also ends it for tokens of earlier links of the chain', async () => {
    const { token, refreshToken } = await signUp(test)
    const second = (await refresh(refreshToken).expect(200)).body
    await signOut(token).expect(204)
    await readMe(second.accessToken).expect(401)
    await refresh(second.refreshToken).expect(401)
  })

  it('needs a token', async () => {
    await test.request.delete('/v1/tokens/current').expect(401)
  })
})
