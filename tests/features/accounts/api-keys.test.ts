import { randomUUID } from 'node:crypto'
import type { Response } from 'supertest'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'
import { type SignedUp, signUp } from '../../support/sign-up.ts'

let test: TestApp
let pilot: SignedUp

beforeAll(async () => {
  test = await startTestApp()
  pilot = await signUp(test)
})

afterAll(() => test.close())

const bearer = (key: string) => ({ authorization: `Bearer ${key}` })

async function makeKey(owner: SignedUp, name = 'a script') {
  const response = await test.request
    .post('/v1/api-keys')
    .set(owner.authorization)
    .send({ name })
    .expect(201)
  return response.body as { id: string; key: string; name: string; prefix: string }
}

async function lastUsedAt(id: string): Promise<Date | null> {
  return (await test.db.prisma.apiKey.findUniqueOrThrow({ where: { id } })).lastUsedAt
}

describe('API keys', () => {
  it('are shown once, stored as a hash, and listed without the key', async () => {
    const owner = await signUp(test)
    const made = await makeKey(owner, '  nightly upload ')
    expect(made).toEqual({
      id: expect.any(String),
      name: 'nightly upload',
      prefix: made.key.slice(0, 10),
      createdAt: expect.any(String),
      lastUsedAt: null,
      key: expect.stringMatching(/^fck_[\w-]{43}$/), // 256 bits in base64url
    })

    const list = await test.request.get('/v1/api-keys').set(owner.authorization).expect(200)
    const { key, ...shown } = made
    expect(list.body).toEqual({ items: [shown], nextCursor: null })
    const { rows } = await test.db.pool.query(
      'SELECT key_hash = sha256($2) AS hashed FROM api_key WHERE id = $1',
      [made.id, Buffer.from(key)],
    )
    expect(rows).toEqual([{ hashed: true }])
  })

  it('work wherever an access token does, with the role the account has now', async () => {
    const owner = await signUp(test)
    const { key } = await makeKey(owner)
    const me = await test.request.get('/v1/me').set(bearer(key)).expect(200)
    expect(me.body).toMatchObject({ id: owner.accountId, role: 'pilot' })

    const changeRole = () =>
      test.request
        .patch(`/v1/accounts/${pilot.accountId}/role`)
        .set(bearer(key))
        .send({ role: 'dealer' })
    await changeRole().expect(403)
    await test.db.prisma.account.update({ where: { id: owner.accountId }, data: { role: 'admin' } })
    await changeRole().expect(200)
  })

  it('outlive the session they were made in', async () => {
    const owner = await signUp(test)
    const { key } = await makeKey(owner)
    await test.request.delete('/v1/tokens/current').set(owner.authorization).expect(204)
    await test.request.get('/v1/me').set(bearer(key)).expect(200)
  })

  it('stop working at once when revoked, and leave the list', async () => {
    const owner = await signUp(test)
    const kept = await makeKey(owner)
    const { id, key } = await makeKey(owner)
    await test.request.get('/v1/me').set(bearer(key)).expect(200)
    await test.request.delete(`/v1/api-keys/${id}`).set(owner.authorization).expect(204)

    const refused = await test.request.get('/v1/me').set(bearer(key)).expect(401)
    expect(refused.body.type).toBe('/problems/not-authenticated')
    await test.request.delete(`/v1/api-keys/${id}`).set(owner.authorization).expect(404)
    const list = await test.request.get('/v1/api-keys').set(bearer(kept.key)).expect(200)
    expect(list.body.items.map((item: { id: string }) => item.id)).toEqual([kept.id])
  })

  it('of one account cannot be seen or revoked by another', async () => {
    const { id, key } = await makeKey(pilot)
    const stranger = await signUp(test)
    await test.request.delete(`/v1/api-keys/${id}`).set(stranger.authorization).expect(404)
    const list = await test.request.get('/v1/api-keys').set(stranger.authorization).expect(200)
    expect(list.body.items).toEqual([])
    await test.request.get('/v1/me').set(bearer(key)).expect(200)
  })

  it('note their use, at most once a minute', async () => {
    const { id, key } = await makeKey(pilot)
    const use = () => test.request.get('/v1/me').set(bearer(key)).expect(200)
    const setLastUse = (secondsAgo: number) =>
      test.db.pool.query(
        'UPDATE api_key SET last_used_at = now() - make_interval(secs => $2) WHERE id = $1',
        [id, secondsAgo],
      )
    await use()
    expect(await lastUsedAt(id)).not.toBeNull()

    await setLastUse(30)
    const recent = await lastUsedAt(id)
    await use()
    expect(await lastUsedAt(id)).toEqual(recent)

    await setLastUse(61)
    const old = await lastUsedAt(id)
    await use()
    expect((await lastUsedAt(id))!.getTime()).toBeGreaterThan(old!.getTime())
  })

  it('have no session to end', async () => {
    const { key } = await makeKey(pilot)
    const response = await test.request.delete('/v1/tokens/current').set(bearer(key)).expect(403)
    expect(response.body.type).toBe('/problems/not-permitted')
  })

  it('are listed newest first, page by page, each once', async () => {
    const owner = await signUp(test)
    const made: string[] = []
    for (let i = 0; i < 5; i++) made.push((await makeKey(owner, `key ${i}`)).id)
    // Three of them at the same instant: the order must not depend on the clock alone.
    await test.db.prisma.apiKey.updateMany({
      where: { id: { in: made.slice(1, 4) } },
      data: { createdAt: new Date('2026-05-17T10:00:00.123Z') },
    })
    const seen: string[] = []
    let cursor: string | null = ''
    while (cursor !== null) {
      const query: string = cursor === '' ? 'limit=2' : `limit=2&cursor=${cursor}`
      const page: Response = await test.request
        .get(`/v1/api-keys?${query}`)
        .set(owner.authorization)
        .expect(200)
      expect(page.body.items.length).toBeLessThanOrEqual(2)
      seen.push(...page.body.items.map((item: { id: string }) => item.id))
      cursor = page.body.nextCursor
    }
    expect([...seen].sort()).toEqual([...made].sort())
    expect(new Set(seen.slice(2))).toEqual(new Set(made.slice(1, 4))) // the two left at "now" come first
  })

  it.each([
    ['made up', `fck_${'A'.repeat(43)}`],
    ['empty', 'fck_'],
  ])('that are %s are refused', async (_what, key) => {
    await test.request.get('/v1/me').set(bearer(key)).expect(401)
  })

  it.each([
    ['no name', {}],
    ['an empty name', { name: ' ' }],
    ['a name without end', { name: 'x'.repeat(81) }],
    ['a control character in the name', { name: 'a\u0000' }],
    ['a key of one’s own choice', { name: 'mine', key: 'fck_mine' }],
  ])('are not made from a body with %s', async (_what, body) => {
    await test.request.post('/v1/api-keys').set(pilot.authorization).send(body).expect(400)
  })

  it.each([
    'nonsense',
    cursorOf(['x', 'y']),
    cursorOf([1]),
    cursorOf([-62_167_219_200_000, randomUUID()]), // the year 0, which PostgreSQL does not know
    cursorOf([1e15, randomUUID()]),
    cursorOf([1, 'no id']),
  ])('refuse the cursor %s', async (cursor) => {
    const response = await test.request
      .get(`/v1/api-keys?cursor=${cursor}`)
      .set(pilot.authorization)
      .expect(400)
    expect(response.body.errors).toEqual([{ pointer: '/cursor', detail: expect.any(String) }])
  })

  it('need an account, and an id that is one', async () => {
    await test.request.get('/v1/api-keys').expect(401)
    await test.request.post('/v1/api-keys').send({ name: 'x' }).expect(401)
    await test.request.delete(`/v1/api-keys/${randomUUID()}`).expect(401)
    await test.request.delete('/v1/api-keys/7').set(pilot.authorization).expect(400)
  })
})

function cursorOf(key: unknown): string {
  return Buffer.from(JSON.stringify(key)).toString('base64url')
}
