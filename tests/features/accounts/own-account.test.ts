import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'
import { type SignedUp, signUp } from '../../support/sign-up.ts'

let test: TestApp

beforeAll(async () => {
  test = await startTestApp()
})

afterAll(() => test.close())

/** Two revisions of one session of flying, as the submissions feature would leave them. */
async function storeSubmission(accountId: string, elevationsM: [number, number]) {
  const bodies = elevationsM.map((elevationM) => ({
    flownOn: '2026-05-17',
    site: { name: 'Larkfield', elevationM },
    interest: 'none',
  }))
  const submission = await test.db.prisma.submission.create({
    data: {
      accountId,
      currentRevision: 2,
      revisions: {
        create: bodies.map((body, index) => ({
          number: index + 1,
          body,
          flownOn: new Date(body.flownOn),
          elevationM: body.site.elevationM,
          interest: body.interest,
        })),
      },
    },
  })
  return { id: submission.id, bodies }
}

async function makeKey(owner: SignedUp): Promise<{ id: string; key: string }> {
  const response = await test.request
    .post('/v1/api-keys')
    .set(owner.authorization)
    .send({ name: 'laptop at home' })
    .expect(201)
  return response.body
}

describe('GET /v1/me', () => {
  it('is the account as it was opened', async () => {
    const { authorization, accountId, email } = await signUp(test)
    const response = await test.request.get('/v1/me').set(authorization).expect(200)
    expect(response.body).toEqual({
      id: accountId,
      email,
      displayName: 'A. Person',
      role: 'pilot',
      createdAt: expect.any(String),
    })
    expect(response.headers['cache-control']).toBe('no-store')
  })

  it('needs an account', async () => {
    for (const path of ['/v1/me', '/v1/me/export']) {
      const response = await test.request.get(path).expect(401)
      expect(response.body.type).toBe('/problems/not-authenticated')
    }
    await test.request.delete('/v1/me').expect(401)
  })
})

describe('GET /v1/me/export', () => {
  it('gives everything stored about the caller and nothing about anybody else', async () => {
    const owner = await signUp(test)
    const other = await signUp(test)
    await storeSubmission(other.accountId, [1, 2])
    await makeKey(other)
    const { id, bodies } = await storeSubmission(owner.accountId, [212, 221])
    const { key: _key, ...apiKey } = await makeKey(owner)
    const component = await test.db.prisma.component.create({
      data: { kind: 'frame', maker: 'Larkfield Works', model: 'F1', createdById: owner.accountId },
    })

    const report = {
      id: expect.any(String),
      origin: 'person',
      kind: 'wrong',
      text: 'The day is wrong.',
      setupId: null,
      componentId: component.id,
      submissionId: null,
    }
    await test.db.prisma.report.createMany({
      data: [owner, other].map(({ accountId }) => ({ ...report, id: undefined, accountId })),
    })

    const response = await test.request.get('/v1/me/export').set(owner.authorization).expect(200)
    expect(response.headers['content-disposition']).toContain('attachment')
    const me = await test.request.get('/v1/me').set(owner.authorization)
    const time = expect.stringMatching(/^\d{4}-\d\d-\d\dT.*Z$/)
    expect(response.body).toEqual({
      exportedAt: time,
      account: me.body,
      apiKeys: [{ ...apiKey, revokedAt: null }],
      sessions: [
        { id: expect.any(String), startedAt: time, lastRefreshedAt: time, revoked: false },
      ],
      submissions: [
        {
          id,
          createdAt: time,
          withdrawnAt: null,
          currentRevision: 2,
          revisions: bodies.map((body, index) => ({ number: index + 1, createdAt: time, body })),
        },
      ],
      imports: [],
      reports: [{ ...report, createdAt: time }],
      actions: [],
      componentsAdded: [component.id],
      setupsAdded: [],
    })
  })

  it('shows the chain of refresh tokens of a session as one session', async () => {
    const { refreshToken, authorization } = await signUp(test)
    await test.request.post('/v1/tokens').send({ grantType: 'refresh', refreshToken }).expect(200)
    const response = await test.request.get('/v1/me/export').set(authorization).expect(200)
    expect(response.body.sessions).toHaveLength(1)
  })
})

describe('DELETE /v1/me', () => {
  it('ends every session and key, and the credentials open nothing any more', async () => {
    const { authorization, email, password, refreshToken, ...rest } = await signUp(test)
    const { key } = await makeKey({ authorization, email, password, refreshToken, ...rest })
    const signIn = () =>
      test.request.post('/v1/tokens').send({ grantType: 'password', email, password })
    const elsewhere = (await signIn().expect(200)).body
    await test.request.delete('/v1/me').set(authorization).expect(204)

    for (const bearer of [rest.token, elsewhere.accessToken, key]) {
      await test.request.get('/v1/me').set('authorization', `Bearer ${bearer}`).expect(401)
    }
    for (const token of [refreshToken, elsewhere.refreshToken]) {
      await test.request
        .post('/v1/tokens')
        .send({ grantType: 'refresh', refreshToken: token })
        .expect(401)
    }
    const refused = await signIn().expect(401)
    expect(refused.body.type).toBe('/problems/wrong-credentials')
  })

  it('leaves submissions, and nothing in the database that names the person', async () => {
    const owner = await signUp(test)
    const { id } = await storeSubmission(owner.accountId, [212, 221])
    await makeKey(owner)
    await test.request.delete('/v1/me').set(owner.authorization).expect(204)

    const kept = await test.db.prisma.submission.findUniqueOrThrow({
      where: { id },
      include: { account: true, revisions: true },
    })
    expect(kept.revisions).toHaveLength(2)
    expect(kept.withdrawnAt).toBeNull()
    expect(kept.account).toMatchObject({
      email: `closed-${owner.accountId}@closed.invalid`,
      displayName: 'Closed account',
      closedAt: expect.any(Date),
    })
    const where = { accountId: owner.accountId }
    expect(await test.db.prisma.refreshToken.count({ where })).toBe(0)
    expect(await test.db.prisma.apiKey.count({ where })).toBe(0)
  })

  it('frees the e-mail for a new account, which is another one', async () => {
    const { authorization, accountId, email } = await signUp(test)
    await test.request.delete('/v1/me').set(authorization).expect(204)
    const response = await test.request
      .post('/v1/accounts')
      .send({ email, password: 'a second beginning', displayName: 'Again' })
      .expect(201)
    expect(response.body.id).not.toBe(accountId)
  })

  it('cannot be undone by giving the account a role', async () => {
    const closed = await signUp(test)
    const admin = await signUp(test, 'admin')
    await test.request.delete('/v1/me').set(closed.authorization).expect(204)
    await test.request
      .patch(`/v1/accounts/${closed.accountId}/role`)
      .set(admin.authorization)
      .send({ role: 'admin' })
      .expect(404)
  })
})
