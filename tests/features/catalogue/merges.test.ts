import { randomUUID } from 'node:crypto'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'
import { type SignedUp, signUp } from '../../support/sign-up.ts'
import { add, fillCatalogue, type Name } from './catalogue-fixture.ts'

let service: TestApp
let pilot: SignedUp
let moderator: SignedUp
let ids: Record<Name, string>
let twin: string

beforeAll(async () => {
  service = await startTestApp()
  pilot = await signUp(service)
  moderator = await signUp(service, 'moderator')
  ids = await fillCatalogue(service, pilot.token)
  twin = await addEngine('Emm-140')
})

afterAll(async () => service?.close())

async function addEngine(model: string): Promise<string> {
  const engine = { kind: 'powerplant', maker: 'Marrow Engines', model, drive: 'twoStroke' }
  return (await add(service, pilot.token, engine).expect(201)).body.id
}

async function addSetup(powerplantId: string, propeller: Name): Promise<string> {
  const parts = { powerplantId, propellerId: ids[propeller], frameId: ids.osier }
  const answer = await service.request
    .post('/v1/setups')
    .set(pilot.authorization)
    .send(parts)
    .expect(201)
  return answer.body.id
}

const merge = (path: string, intoId: string, by: SignedUp = moderator) =>
  service.request
    .post(`/v1/${path}/merges`)
    .set(by.authorization)
    .send({ intoId, reason: 'The same engine, spelt as it is spoken.' })

const read = async (path: string) => (await service.request.get(`/v1/${path}`).expect(200)).body

describe('merging a component', () => {
  it('is for moderators', async () => {
    await merge(`components/${twin}`, ids.marrow140, pilot).expect(403)
    expect((await read(`components/${twin}`)).id).toBe(twin)
  })

  it('is refused into what does not exist, is the same, or is of another kind', async () => {
    for (const intoId of [randomUUID(), twin, ids.quill]) {
      const { body } = await merge(`components/${twin}`, intoId).expect(422)
      expect(body.errors).toEqual([expect.objectContaining({ pointer: '/intoId' })])
    }
    await merge(`components/${randomUUID()}`, twin).expect(404)
  })

  it('makes setups one that have become the same combination, with what was decided on it', async () => {
    const kept = await addSetup(ids.marrow140, 'tallis125')
    const duplicate = await addSetup(twin, 'tallis125')
    const alone = await addSetup(twin, 'quill')
    const report = { kind: 'unsafe', componentId: twin, text: 'A bolt of the hub sheared.' }
    const filed = await service.request
      .post('/v1/reports')
      .set(pilot.authorization)
      .send(report)
      .expect(201)
    await service.request
      .post(`/v1/reviews/${filed.body.id}/decisions`)
      .set(moderator.authorization)
      .send({ decision: 'doNotFly', reason: 'Seen on two engines.' })
      .expect(201)
    expect((await read(`setups/${kept}`)).safety.state).toBe('none')

    const { body } = await merge(`components/${twin}`, ids.marrow140).expect(201)

    expect(body).toEqual({
      mergedId: twin,
      intoId: ids.marrow140,
      setups: [{ mergedId: duplicate, intoId: kept }],
    })
    expect((await read(`components/${twin}`)).id).toBe(ids.marrow140)
    expect(await read(`setups/${duplicate}`)).toMatchObject({ id: kept, mergedIntoId: kept })
    expect(await read(`setups/${alone}`)).toMatchObject({
      id: alone,
      powerplantId: ids.marrow140,
    })
    for (const id of [kept, alone]) {
      expect((await read(`setups/${id}`)).safety.state).toBe('doNotFly')
    }
    const { items } = await read(`setups?powerplantId=${ids.marrow140}`)
    expect(items.map(({ id }: { id: string }) => id).sort()).toEqual([kept, alone].sort())
  })

  it('happens once, and names what remains', async () => {
    const { body } = await merge(`components/${twin}`, ids.marrow140).expect(409)
    expect(body.existingId).toBe(ids.marrow140)
  })

  it('takes along what was merged before, so that one step is enough', async () => {
    const later = await addEngine('M-one-forty')
    const refused = await merge(`components/${later}`, twin).expect(422)
    expect(refused.body.errors[0].detail).toContain(ids.marrow140)
    await merge(`components/${ids.marrow140}`, later).expect(201)
    for (const id of [twin, ids.marrow140]) {
      expect((await read(`components/${id}`)).id).toBe(later)
    }
  })

  it('stays in the audit trail with its reason', async () => {
    const trail = await service.request
      .get(`/v1/audit-events?subjectId=${twin}`)
      .set(moderator.authorization)
      .expect(200)
    const [event] = trail.body.items
    expect(event).toMatchObject({
      action: 'catalogue.merged',
      actorId: moderator.accountId,
      detail: { intoId: ids.marrow140, reason: 'The same engine, spelt as it is spoken.' },
    })
  })
})

describe('merging a setup', () => {
  it('lets its id stand for the other one', async () => {
    const [kept, other] = [
      await addSetup(ids.marrow180, 'quill'),
      await addSetup(ids.marrow180, 'tallis130'),
    ]
    const { body } = await merge(`setups/${other}`, kept).expect(201)
    expect(body).toEqual({ mergedId: other, intoId: kept, setups: [] })
    expect(await read(`setups/${other}`)).toMatchObject({ id: kept, mergedIntoId: kept })
  })
})
