import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { ensureAdministrator } from '../../../src/features/accounts/service.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'
import { signUp } from '../../support/sign-up.ts'
import { inOrderOfLock } from './lock-order.ts'

let test: TestApp

beforeAll(async () => {
  test = await startTestApp()
})

afterAll(() => test.close())

const newcomer = (changes: object = {}) => ({
  email: `${randomUUID()}@example.org`,
  password: 'correct horse battery',
  displayName: 'Newcomer',
  ...changes,
})

const open = (body: object) => test.request.post('/v1/accounts').send(body)

describe('POST /v1/accounts', () => {
  it('opens an account for a pilot and gives no token', async () => {
    const { email, ...rest } = newcomer()
    const response = await open({ email: `  ${email.toUpperCase()} `, ...rest }).expect(201)
    expect(response.body).toEqual({
      id: expect.stringMatching(/^[0-9a-f-]{36}$/),
      email,
      displayName: 'Newcomer',
      role: 'pilot',
      createdAt: expect.stringMatching(/^\d{4}-.*Z$/),
    })
    expect(response.headers['cache-control']).toBe('no-store')
  })

  it('refuses an e-mail that is taken, whatever its case', async () => {
    const body = newcomer()
    await open(body).expect(201)
    const response = await open(newcomer({ email: body.email.toUpperCase() })).expect(409)
    expect(response.body).toMatchObject({
      type: '/problems/conflict',
      errors: [{ pointer: '/email' }],
    })
  })

  it('gives an e-mail to one of two who sign up with it at the same moment', async () => {
    const body = newcomer()
    const responses = await Promise.all([1, 2, 3, 4].map(async () => open(body)))
    expect(responses.map((response) => response.status).sort()).toEqual([201, 409, 409, 409])
  })

  it.each([
    ['a short password', { password: 'ninechars' }, '/password'],
    ['an endless password', { password: 'correct horse '.repeat(20) }, '/password'],
    ['an obvious password', { password: 'password123' }, '/password'],
    [
      'the display name as password',
      { displayName: 'Larkfield 1', password: 'larkfield 1' },
      '/password',
    ],
    ['something that is no e-mail', { email: 'larkfield' }, '/email'],
    ['an empty name', { displayName: '  ' }, '/displayName'],
    ['a name PostgreSQL cannot store', { displayName: 'a\u0000b' }, '/displayName'],
    ['half a surrogate pair', { displayName: 'a\ud800' }, '/displayName'],
    ['a role of one’s own choice', { role: 'admin' }, ''],
    ['a number for a name', { displayName: 7 }, '/displayName'],
  ])('refuses %s', async (_what, changes, pointer) => {
    const response = await open(newcomer(changes)).expect(400)
    expect(response.headers['content-type']).toContain('application/problem+json')
    expect(response.body.errors.map((fault: { pointer: string }) => fault.pointer)).toEqual([
      pointer,
    ])
  })

  it('refuses the e-mail as password', async () => {
    const { email, ...rest } = newcomer()
    const response = await open({ ...rest, email, password: email }).expect(400)
    expect(response.body.errors).toEqual([
      { pointer: '/password', detail: 'must not be the e-mail address' },
    ])
  })
})

describe('PATCH /v1/accounts/{id}/role', () => {
  const change = (id: string, role: string, as: { authorization: { authorization: string } }) =>
    test.request.patch(`/v1/accounts/${id}/role`).set(as.authorization).send({ role })

  it('takes effect on a token that was given out before', async () => {
    const admin = await signUp(test, 'admin')
    const pilot = await signUp(test)
    await change(randomUUID(), 'pilot', pilot).expect(403)

    const changed = await change(pilot.accountId, 'admin', admin).expect(200)
    expect(changed.body).toMatchObject({ id: pilot.accountId, role: 'admin' })
    await change(admin.accountId, 'researcher', pilot).expect(200)
    await change(pilot.accountId, 'pilot', admin).expect(403)
  })

  it('is for administrators only', async () => {
    const moderator = await signUp(test, 'moderator')
    const response = await change(moderator.accountId, 'admin', moderator).expect(403)
    expect(response.body.type).toBe('/problems/not-permitted')
    await test.request
      .patch(`/v1/accounts/${moderator.accountId}/role`)
      .send({ role: 'admin' })
      .expect(401)
  })

  it('refuses roles and accounts that do not exist', async () => {
    const admin = await signUp(test, 'admin')
    await change(admin.accountId, 'owner', admin).expect(400)
    await change('not-an-id', 'pilot', admin).expect(400)
    const response = await change(randomUUID(), 'pilot', admin).expect(404)
    expect(response.body.type).toBe('/problems/not-found')
  })

  it('leaves one administrator, even when two demote each other at the same moment', async () => {
    await test.db.prisma.account.updateMany({ where: { role: 'admin' }, data: { role: 'pilot' } })
    const ada = await signUp(test, 'admin')
    const bea = await signUp(test, 'admin')
    const responses = await inOrderOfLock(
      test.db,
      [ada.accountId, bea.accountId],
      [
        async () => change(ada.accountId, 'pilot', bea),
        async () => change(bea.accountId, 'pilot', ada),
      ],
    )
    expect(responses.map((response) => response.status)).toEqual([200, 409])
    expect(await test.db.prisma.account.count({ where: { role: 'admin' } })).toBe(1)

    const { id } = await test.db.prisma.account.findFirstOrThrow({ where: { role: 'admin' } })
    const last = id === ada.accountId ? ada : bea
    const response = await change(id, 'pilot', last).expect(409)
    expect(response.body.type).toBe('/problems/conflict')
    await test.request.delete('/v1/me').set(last.authorization).expect(409)
    await change(id, 'admin', last).expect(200)
  })
})

describe('ensureAdministrator', () => {
  it('creates the administrator once, and never touches its password again', async () => {
    const email = 'Chief@Example.org'
    const password = 'first of all words'
    expect(await ensureAdministrator(test.db, { email, password })).toBe(true)
    expect(await ensureAdministrator(test.db, { email, password: 'another set of words' })).toBe(
      false,
    )

    const signIn = (body: object) =>
      test.request.post('/v1/tokens').send({ grantType: 'password', email, ...body })
    await signIn({ password: 'another set of words' }).expect(401)
    const { accessToken } = (await signIn({ password }).expect(200)).body
    const me = await test.request.get('/v1/me').set('authorization', `Bearer ${accessToken}`)
    expect(me.body).toMatchObject({ email: 'chief@example.org', role: 'admin' })
  })

  it('makes no administrator of somebody who had the e-mail first', async () => {
    const pilot = await signUp(test)
    expect(
      await ensureAdministrator(test.db, { email: pilot.email, password: 'some other words' }),
    ).toBe(false)
    const me = await test.request.get('/v1/me').set(pilot.authorization)
    expect(me.body.role).toBe('pilot')
  })

  it('agrees with itself in processes that start together', async () => {
    const administrator = { email: 'twin@example.org', password: 'words for two starts' }
    const created = await Promise.all(
      [1, 2, 3].map(() => ensureAdministrator(test.db, administrator)),
    )
    expect(created.filter(Boolean)).toHaveLength(1)
  })

  it('refuses a password that is easy to guess', async () => {
    const administrator = { email: 'weak@example.org', password: 'qwertyuiop' }
    await expect(ensureAdministrator(test.db, administrator)).rejects.toThrow('too easy to guess')
  })
})
