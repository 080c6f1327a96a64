import { randomUUID } from 'node:crypto'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { Review } from '../../../src/features/reviews/schema.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'
import { type SignedUp, signUp } from '../../support/sign-up.ts'
import { insertSetup } from '../submissions/desk.ts'

let test: TestApp
let pilot: SignedUp
let moderator: SignedUp

beforeAll(async () => {
  test = await startTestApp()
  pilot = await signUp(test)
  moderator = await signUp(test, 'moderator')
})
afterAll(() => test?.close())

const report = (body: object, who = pilot) =>
  test.request.post('/v1/reports').set(who.authorization).send(body)

const decide = (id: string, decision: string, reason = 'Looked at it.', who = moderator) =>
  test.request.post(`/v1/reviews/${id}/decisions`).set(who.authorization).send({ decision, reason })

const safetyOf = async (setupId: string) =>
  (await test.request.get(`/v1/setups/${setupId}`).expect(200)).body.safety

const read = (path: string, who = moderator) => test.request.get(path).set(who.authorization)

async function waiting(query = ''): Promise<Review[]> {
  return (await read(`/v1/reviews?limit=200${query}`).expect(200)).body.items
}

/** A setup reported unsafe by the pilot. */
async function reported(text = 'The lower hoop is cracked.') {
  const setupId = await insertSetup(test.db)
  const { body } = await report({ setupId, kind: 'unsafe', text }).expect(201)
  return { setupId, id: body.id as string }
}

async function partOf(setupId: string, part = 'frame_id'): Promise<string> {
  const { rows } = await test.db.pool.query(`SELECT ${part} AS id FROM setup WHERE id = $1`, [
    setupId,
  ])
  return rows[0].id
}

describe('POST /v1/reports', () => {
  it('puts an advisory on an unsafe set-up at once, without the words nobody has checked', async () => {
    const { setupId, id } = await reported('The maker is a crook.')
    const safety = await safetyOf(setupId)
    expect(safety.state).toBe('advisory')
    expect(JSON.stringify(safety)).not.toMatch(/crook/)
    expect(safety.reports[0].reason).toMatch(/moderator has not looked/)
    const [item] = (await waiting(`&setupId=${setupId}`)) as [Review]
    expect(item).toMatchObject({
      id,
      accountId: pilot.accountId,
      origin: 'person',
      kind: 'unsafe',
      text: 'The maker is a crook.',
      setupId,
      componentId: null,
      submissionId: null,
      decidedAt: null,
      decisions: [],
    })
    expect(item.findings).toMatchObject([{ setupId, state: 'advisory', liftedAt: null }])
  })

  it('only queues what is wrong, and what is about a component', async () => {
    const setupId = await insertSetup(test.db)
    const wrong = await report({ setupId, kind: 'wrong', text: 'It is 130 cm.' }).expect(201)
    expect(wrong.body).toMatchObject({ setupId, kind: 'wrong', safety: 'none' })
    const componentId = await partOf(setupId)
    await report({ componentId, kind: 'unsafe', text: 'Welds crack.' }).expect(201)
    expect((await safetyOf(setupId)).state).toBe('none')
    expect(await waiting(`&setupId=${setupId}`)).toHaveLength(1)
  })

  it('reaches the set-up that a merged one became', async () => {
    const merged = await insertSetup(test.db)
    const survivor = await insertSetup(test.db)
    await test.db.pool.query('UPDATE setup SET merged_into_id = $2 WHERE id = $1', [
      merged,
      survivor,
    ])
    await report({ setupId: merged, kind: 'unsafe', text: 'Loose hub.' }).expect(201)
    expect((await safetyOf(survivor)).state).toBe('advisory')
  })

  it('takes the same from one account once while it waits, and from others too', async () => {
    const { setupId, id } = await reported()
    const again = { setupId, kind: 'unsafe', text: 'As I said.' }
    const answer = await report(again).expect(409)
    expect(answer.body.detail).toMatch(/waits for a moderator/)
    await report(again, await signUp(test)).expect(201)
    await decide(id, 'dismiss').expect(201)
    await report(again).expect(201)
  })

  it('replays the first answer to the same Idempotency-Key', async () => {
    const setupId = await insertSetup(test.db)
    const body = { setupId, kind: 'unsafe', text: 'Play in the hub.' }
    const key = randomUUID()
    const first = await report(body).set('idempotency-key', key).expect(201)
    const second = await report(body).set('idempotency-key', key).expect(201)
    expect(second.body).toEqual(first.body)
    expect((await safetyOf(setupId)).reports).toHaveLength(1)
    await report({ ...body, text: 'x' })
      .set('idempotency-key', key)
      .expect(422)
  })

  it.each<[what: string, body: object, pointer: string]>([
    ['nothing it is about', { kind: 'unsafe', text: 'x' }, '/setupId'],
    ['no kind', { setupId: randomUUID(), text: 'x' }, '/kind'],
    ['an unknown kind', { setupId: randomUUID(), kind: 'rude', text: 'x' }, '/kind'],
    ['no words', { setupId: randomUUID(), kind: 'wrong', text: ' \n ' }, '/text'],
    ['an empty text', { setupId: randomUUID(), kind: 'wrong', text: '' }, '/text'],
    ['too many words', { setupId: randomUUID(), kind: 'wrong', text: 'a'.repeat(2001) }, '/text'],
    ['NUL', { setupId: randomUUID(), kind: 'wrong', text: 'a\0' }, '/text'],
    ['an id that is none', { componentId: 'mine', kind: 'wrong', text: 'x' }, '/componentId'],
    [
      'an unknown field',
      { setupId: randomUUID(), kind: 'wrong', text: 'x', state: 'doNotFly' },
      '',
    ],
  ])('is refused with 400 for %s', async (_, body, pointer) => {
    const answer = await report(body)
    expect(answer.status).toBe(400)
    expect(answer.body.errors.map((e: { pointer: string }) => e.pointer)).toContain(pointer)
  })

  it('is refused with 422 for what does not exist, and without an account', async () => {
    const ids = { setupId: randomUUID(), componentId: randomUUID(), submissionId: randomUUID() }
    const answer = await report({ ...ids, kind: 'wrong', text: 'x' })
    expect(answer.status).toBe(422)
    expect(answer.body.type).toBe('/problems/unknown-reference')
    expect(answer.body.errors.map((e: { pointer: string }) => e.pointer)).toEqual([
      '/setupId',
      '/componentId',
      '/submissionId',
    ])
    await test.request
      .post('/v1/reports')
      .send({ ...ids, kind: 'wrong', text: 'x' })
      .expect(401)
  })
})

describe('POST /v1/reviews/{id}/decisions', () => {
  it('grounds a set-up for the reason given, and says who decided', async () => {
    const { setupId, id } = await reported()
    const { body } = await decide(id, 'doNotFly', 'Crack confirmed by photograph.').expect(201)
    const safety = await safetyOf(setupId)
    expect(safety.state).toBe('doNotFly')
    const inForce = safety.reports.filter((r: { liftedAt?: string }) => r.liftedAt === undefined)
    expect(inForce).toMatchObject([{ state: 'doNotFly', reason: 'Crack confirmed by photograph.' }])
    expect(body.decidedAt).not.toBeNull()
    expect(body.decisions).toMatchObject([
      {
        accountId: moderator.accountId,
        decision: 'doNotFly',
        reason: 'Crack confirmed by photograph.',
      },
    ])
    expect(body.findings.map((f: { state: string }) => f.state)).toEqual(['advisory', 'doNotFly'])
  })

  it('may be taken anew: grounded, softened, lifted; every step stays on record', async () => {
    const { setupId, id } = await reported()
    await decide(id, 'doNotFly', 'Hub loose.').expect(201)
    await decide(id, 'advisory', 'New bolts, watch them.').expect(201)
    expect((await safetyOf(setupId)).state).toBe('advisory')
    const { body } = await decide(id, 'lift', 'Ten hours, bolts tight.').expect(201)
    const safety = await safetyOf(setupId)
    expect(safety.state).toBe('none')
    expect(safety.reports.map((r: { liftedReason?: string }) => r.liftedReason).sort()).toEqual([
      'Hub loose.',
      'New bolts, watch them.',
      'Ten hours, bolts tight.',
    ])
    expect(body.decisions.map((d: { decision: string }) => d.decision)).toEqual([
      'doNotFly',
      'advisory',
      'lift',
    ])
    const { items } = (await read(`/v1/audit-events?subjectId=${setupId}`).expect(200)).body
    expect(items.map((e: { action: string }) => e.action)).toEqual([
      'safety.lifted',
      'safety.raised',
      'safety.lifted',
      'safety.raised',
      'safety.lifted',
      'safety.raised',
    ])
    expect(items[0]).toMatchObject({
      actorId: moderator.accountId,
      detail: { reportId: id, state: 'advisory', reason: 'Ten hours, bolts tight.' },
    })
  })

  it('does not lift what others reported', async () => {
    const { setupId, id } = await reported()
    const other = await signUp(test)
    await report({ setupId, kind: 'unsafe', text: 'Here too.' }, other).expect(201)
    await decide(id, 'dismiss', 'Another frame.').expect(201)
    expect((await safetyOf(setupId)).state).toBe('advisory')
  })

  it('grounds every set-up with a component, also those under a merged name', async () => {
    const setups = [
      await insertSetup(test.db),
      await insertSetup(test.db),
      await insertSetup(test.db),
    ]
    const hub = await partOf(setups[0]!, 'propeller_id')
    const twin = await partOf(setups[1]!, 'propeller_id')
    await test.db.pool.query('UPDATE component SET merged_into_id = $2 WHERE id = $1', [twin, hub])
    const { body } = await report({ componentId: hub, kind: 'unsafe', text: 'Tips shed.' }).expect(
      201,
    )
    await decide(body.id, 'doNotFly', 'Two tips lost.').expect(201)
    const states = await Promise.all(setups.map(async (id) => (await safetyOf(id)).state))
    expect(states).toEqual(['doNotFly', 'doNotFly', 'none'])

    const added = await test.request
      .post('/v1/setups')
      .set(pilot.authorization)
      .send({
        powerplantId: await partOf(setups[2]!, 'powerplant_id'),
        propellerId: twin,
        frameId: await partOf(setups[2]!),
      })
      .expect(201)
    expect(added.body.safety).toMatchObject({
      state: 'doNotFly',
      reports: [{ reason: 'Two tips lost.' }],
    })
    const trail = await read(`/v1/audit-events?subjectId=${added.body.id}`).expect(200)
    expect(trail.body.items).toMatchObject([
      { actorId: null, action: 'safety.raised', detail: { reportId: body.id, state: 'doNotFly' } },
    ])
    await decide(body.id, 'lift', 'Recalled and replaced.').expect(201)
    expect((await safetyOf(added.body.id)).state).toBe('none')
  })

  it('has nothing to act on: 409', async () => {
    const setupId = await insertSetup(test.db)
    const wrong = (await report({ setupId, kind: 'wrong', text: 'Not mine.' }).expect(201)).body.id
    expect((await decide(wrong, 'lift').expect(409)).body.detail).toMatch(/in force/)
    const { rows } = await test.db.pool.query(
      `INSERT INTO component (kind, maker, model) VALUES ('frame', 'Invented', 'Lone') RETURNING id`,
    )
    const lone = await report({ componentId: rows[0].id, kind: 'unsafe', text: 'x' }).expect(201)
    expect((await decide(lone.body.id, 'doNotFly').expect(409)).body.detail).toMatch(/No set-up/)
    expect(await waiting(`&setupId=${setupId}`)).toHaveLength(1) // still waiting
    await decide(wrong, 'dismiss').expect(201)
    expect(await waiting(`&setupId=${setupId}`)).toHaveLength(0)
  })

  it('decides once for the same Idempotency-Key', async () => {
    const { id } = await reported()
    const key = randomUUID()
    const first = await decide(id, 'doNotFly').set('idempotency-key', key).expect(201)
    const second = await decide(id, 'doNotFly').set('idempotency-key', key).expect(201)
    expect(second.body).toEqual(first.body)
    expect(second.body.decisions).toHaveLength(1)
  })

  it.each<[what: string, body: object, pointer: string]>([
    ['no decision', { reason: 'x' }, '/decision'],
    ['an unknown decision', { decision: 'ignore', reason: 'x' }, '/decision'],
    ['no reason', { decision: 'lift' }, '/reason'],
    ['a blank reason', { decision: 'lift', reason: '   ' }, '/reason'],
    ['a reason without end', { decision: 'lift', reason: 'a'.repeat(2001) }, '/reason'],
    ['an unknown field', { decision: 'lift', reason: 'x', setupId: randomUUID() }, ''],
  ])('is refused with 400 for %s', async (_, body, pointer) => {
    const { id } = await reported()
    const answer = await test.request
      .post(`/v1/reviews/${id}/decisions`)
      .set(moderator.authorization)
      .send(body)
    expect(answer.status).toBe(400)
    expect(answer.body.errors.map((e: { pointer: string }) => e.pointer)).toEqual([pointer])
  })

  it('is for moderators and administrators', async () => {
    const { setupId, id } = await reported()
    await test.request
      .post(`/v1/reviews/${id}/decisions`)
      .send({ decision: 'lift', reason: 'x' })
      .expect(401)
    for (const role of ['pilot', 'dealer', 'researcher'] as const) {
      const who = await signUp(test, role)
      await decide(id, 'lift', 'I sell it.', who).expect(403)
      for (const path of ['/v1/reviews', `/v1/reviews/${id}`, '/v1/audit-events']) {
        await read(path, who).expect(403)
      }
    }
    expect((await safetyOf(setupId)).state).toBe('advisory')
    await decide(id, 'lift', 'Checked.', await signUp(test, 'admin')).expect(201)
    await decide(randomUUID(), 'lift').expect(404)
    await read(`/v1/reviews/${randomUUID()}`).expect(404)
    await decide('mine', 'lift').expect(400)
  })
})

describe('GET /v1/reviews', () => {
  it('sorts by what is left to do', async () => {
    const one = await reported()
    const two = await reported()
    const three = await reported()
    await decide(two.id, 'doNotFly').expect(201)
    await decide(three.id, 'dismiss').expect(201)
    const idsIn = async (state: string) => {
      const { body } = await read(`/v1/reviews?limit=200&state=${state}`).expect(200)
      const ours = [one.id, two.id, three.id]
      return body.items.map((item: Review) => item.id).filter((id: string) => ours.includes(id))
    }
    expect(await idsIn('waiting')).toEqual([one.id])
    expect(await idsIn('inForce')).toEqual([one.id, two.id])
    expect(await idsIn('closed')).toEqual([three.id])
  })

  it('gives every report once over its pages, oldest first, and is kept by no cache', async () => {
    const all = await waiting()
    const paged: string[] = []
    let cursor = ''
    do {
      const page = await read(`/v1/reviews?limit=2${cursor}`).expect(200)
      expect(page.headers['cache-control']).toBe('no-store')
      paged.push(...page.body.items.map((item: Review) => item.id))
      cursor = page.body.nextCursor === null ? '' : `&cursor=${page.body.nextCursor}`
    } while (cursor !== '')
    expect(paged).toEqual(all.map((item) => item.id))
    expect(all.map((item) => item.createdAt)).toEqual(all.map((item) => item.createdAt).sort())
  })

  it.each([
    ['/v1/reviews?state=old', '/state'],
    ['/v1/reviews?setupId=mine', '/setupId'],
    ['/v1/reviews?cursor=WyJhIl0', '/cursor'],
    ['/v1/audit-events?subjectId=me', '/subjectId'],
    ['/v1/audit-events?cursor=WyJhIl0', '/cursor'],
    ['/v1/audit-events?limit=0', '/limit'],
  ])('%s is refused at its field', async (path, pointer) => {
    const answer = await read(path)
    expect(answer.status).toBe(400)
    expect(answer.body.errors[0].pointer).toBe(pointer)
  })
})

describe('the audit trail', () => {
  it('is given newest first, page by page', async () => {
    const { id } = await reported()
    await decide(id, 'advisory').expect(201)
    const all = (await read('/v1/audit-events?limit=200').expect(200)).body.items
    const first = (await read('/v1/audit-events?limit=3').expect(200)).body
    const second = (await read(`/v1/audit-events?limit=3&cursor=${first.nextCursor}`).expect(200))
      .body
    expect([...first.items, ...second.items]).toEqual(all.slice(0, 6))
    const numbers = all.map((event: { id: string }) => Number(event.id))
    expect(numbers).toEqual([...numbers].sort((a: number, b: number) => b - a))
  })

  it('tells a change of role', async () => {
    const admin = await signUp(test, 'admin')
    const { accountId } = await signUp(test)
    await test.request
      .patch(`/v1/accounts/${accountId}/role`)
      .set(admin.authorization)
      .send({ role: 'dealer' })
      .expect(200)
    const { items } = (await read(`/v1/audit-events?subjectId=${accountId}`).expect(200)).body
    expect(items).toMatchObject([
      {
        actorId: admin.accountId,
        action: 'role.changed',
        subjectKind: 'account',
        detail: { from: 'pilot', to: 'dealer' },
      },
    ])
  })

  it('cannot be changed, shortened or emptied, nor what it speaks of', async () => {
    const { id } = await reported()
    await decide(id, 'lift').expect(201)
    const { pool } = test.db
    for (const statement of [
      `UPDATE audit_event SET detail = '{}'`,
      'DELETE FROM audit_event',
      'TRUNCATE audit_event',
      `UPDATE report SET text = 'nothing'`,
      `UPDATE safety_report SET reason = 'nothing'`,
      `UPDATE safety_report SET lifted_reason = 'nothing' WHERE lifted_at IS NOT NULL`,
      `UPDATE safety_report SET lifted_at = NULL, lifted_by_id = NULL, lifted_reason = NULL WHERE lifted_at IS NOT NULL`,
    ]) {
      await expect(pool.query(statement), statement).rejects.toThrow(/written once/)
    }
  })
})
