import { randomUUID } from 'node:crypto'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'
import { add, fillCatalogue, type Name } from './catalogue-fixture.ts'

let service: TestApp
let token: string
let ids: Record<Name, string>

beforeAll(async () => {
  service = await startTestApp()
  token = (await service.signUp()).token
  ids = await fillCatalogue(service, token)
})

afterAll(async () => service?.close())

const partsOf = (powerplant: Name, propeller: Name, frame: Name) => ({
  powerplantId: ids[powerplant],
  propellerId: ids[propeller],
  frameId: ids[frame],
})

const post = (body: object) =>
  service.request.post('/v1/setups').auth(token, { type: 'bearer' }).send(body)

const read = (id: string) => service.request.get(`/v1/setups/${id}`)

async function find(query: Record<string, string>): Promise<string[]> {
  const { body } = await service.request.get('/v1/setups').query(query).expect(200)
  return body.items.map((item: { name: string }) => item.name)
}

async function report(setupId: string, state: 'advisory' | 'doNotFly', reason: string) {
  const { rows } = await service.db.pool.query<{ id: string }>(
    'INSERT INTO safety_report (setup_id, state, reason) VALUES ($1, $2, $3) RETURNING id',
    [setupId, state, reason],
  )
  return rows[0]!.id
}

describe('POST /v1/setups', () => {
  it('stores a combination and shows its parts, its name and that nothing was reported', async () => {
    const body = { ...partsOf('marrow140', 'tallis125', 'osier'), note: 'Wide hub' }
    const answer = await post(body).expect(201)
    expect(answer.body).toMatchObject({
      ...body,
      name: 'Marrow Engines M-140 + Tallis Propellers Sweep 2 125 cm + Osier Frames Hoop',
      powerplant: {
        id: ids.marrow140,
        maker: 'Marrow Engines',
        model: 'M-140',
        drive: 'twoStroke',
      },
      propeller: { id: ids.tallis125, diameterCm: 125 },
      frame: { id: ids.osier, maker: 'Osier Frames', model: 'Hoop' },
      safety: { state: 'none', reports: [] },
    })
    expect(answer.headers.location).toBe(`/v1/setups/${answer.body.id}`)
    expect((await read(answer.body.id).expect(200)).body).toEqual(answer.body)
  })

  it('keeps one setup per combination', async () => {
    const parts = partsOf('marrow140', 'tallis130', 'osier')
    const { id } = (await post(parts).expect(201)).body
    const answer = await post({ ...parts, note: 'Again' }).expect(409)
    expect(answer.body).toMatchObject({ existingId: id, detail: expect.stringContaining(id) })
  })

  it('stores one of several that come at once', async () => {
    const parts = partsOf('marrow180', 'quill', 'osier')
    const answers = await Promise.all([1, 2, 3, 4].map(async () => post(parts)))
    expect(answers.map((answer) => answer.status).sort()).toEqual([201, 409, 409, 409])
  })

  it('points at every id that is no component of its kind', async () => {
    const unknown = randomUUID()
    const answer = await post({ powerplantId: ids.quill, propellerId: unknown, frameId: ids.osier })
    expect(answer.status).toBe(422)
    expect(answer.body.type).toBe('/problems/unknown-reference')
    expect(answer.body.errors).toEqual([
      { pointer: '/powerplantId', detail: `${ids.quill} is a propeller, not a powerplant.` },
      { pointer: '/propellerId', detail: `There is no propeller ${unknown}.` },
    ])
  })

  it('takes an id in capitals', async () => {
    const { powerplantId, ...others } = partsOf('heronE', 'tallis130', 'sedge')
    const answer = await post({ ...others, powerplantId: powerplantId.toUpperCase() }).expect(201)
    expect(answer.body.powerplantId).toBe(powerplantId)
  })

  it('needs an account', async () => {
    const parts = partsOf('marrow180', 'tallis125', 'sedge')
    await service.request.post('/v1/setups').send(parts).expect(401)
  })

  it('replays the first answer to the same Idempotency-Key', async () => {
    const parts = partsOf('marrow180', 'tallis130', 'sedge')
    const key = randomUUID()
    const first = await post(parts).set('idempotency-key', key).expect(201)
    const second = await post(parts).set('idempotency-key', key).expect(201)
    expect(second.body).toEqual(first.body)
    await post({ ...parts, note: 'x' })
      .set('idempotency-key', key)
      .expect(422)
  })
})

describe('safety of a setup', () => {
  it('is the worst report that is not lifted, and lifted ones stay to be seen', async () => {
    const { id } = (await post(partsOf('heronE', 'quill', 'osier')).expect(201)).body
    const stateOf = async () => (await read(id).expect(200)).body.safety.state
    await report(id, 'advisory', 'Loose hub bolts seen twice')
    expect(await stateOf()).toBe('advisory')
    const worse = await report(id, 'doNotFly', 'Tip touched the hoop')
    expect(await stateOf()).toBe('doNotFly')
    const { accountId } = await service.signUp('moderator')
    await service.db.pool.query(
      'UPDATE safety_report SET lifted_at = now(), lifted_by_id = $1, lifted_reason = $2 WHERE id = $3',
      [accountId, 'Longer spacer fitted', worse],
    )
    const { safety } = (await read(id).expect(200)).body
    expect(safety.state).toBe('advisory')
    expect(safety.reports).toMatchObject([
      { state: 'doNotFly', reason: 'Tip touched the hoop', liftedReason: 'Longer spacer fitted' },
      { state: 'advisory', reason: 'Loose hub bolts seen twice' },
    ])
    expect(safety.reports[1]).not.toHaveProperty('liftedAt')
  })

  it('stands in every row of a list, whatever the order', async () => {
    const { id } = (await post(partsOf('heronE', 'tallis125', 'osier')).expect(201)).body
    await report(id, 'doNotFly', 'Tip touched the hoop')
    const { body } = await service.request.get('/v1/setups').query({ q: 'heronsgate' }).expect(200)
    const states = body.items.map((item: { id: string; safety: { state: string } }) => [
      item.id === id,
      item.safety.state,
    ])
    expect(states).toContainEqual([true, 'doNotFly'])
    expect(states.length).toBeGreaterThan(1)
  })

  it('counts a report on a merged setup for the one that remains', async () => {
    const kept = (await post(partsOf('marrow180', 'quill', 'sedge')).expect(201)).body
    const other = (await post(partsOf('marrow140', 'quill', 'sedge')).expect(201)).body
    await report(other.id, 'doNotFly', 'Tip touched the hoop')
    await service.db.pool.query('UPDATE setup SET merged_into_id = $1 WHERE id = $2', [
      kept.id,
      other.id,
    ])
    const answer = await read(other.id).expect(200)
    expect(answer.body).toMatchObject({ id: kept.id, mergedIntoId: kept.id, name: kept.name })
    expect(answer.body.safety.state).toBe('doNotFly')
    expect(answer.headers['content-location']).toBe(`/v1/setups/${kept.id}`)
    const listed = await service.request.get('/v1/setups').query({ limit: '200' }).expect(200)
    const shown = listed.body.items.map((item: { id: string }) => item.id)
    expect(shown).toContain(kept.id)
    expect(shown).not.toContain(other.id)
  })
})

describe('GET /v1/setups', () => {
  it('searches all three parts, in any order and with slips', async () => {
    const wanted = 'Marrow Engines M-140 + Tallis Propellers Sweep 2 125 cm + Osier Frames Hoop'
    for (const q of [
      wanted,
      'osier marow m140 125',
      '125 cm tallsi m-140',
      'hoop sweep m-140 125',
    ]) {
      expect((await find({ q }))[0]).toBe(wanted)
    }
    expect(await find({ q: 'zzyx' })).toEqual([])
  })

  it('may be limited to a part', async () => {
    const names = await find({ propellerId: ids.quill })
    expect(names.length).toBeGreaterThan(0)
    expect(names.every((name) => name.includes('Quillon Airscrews Broad 140 cm'))).toBe(true)
    expect(await find({ frameId: randomUUID() })).toEqual([])
  })

  it.each<Record<string, string>>([{}, { q: 'tallis' }])(
    'pages through %j without loss or repetition',
    async (query) => {
      const whole = await find({ ...query, limit: '200' })
      expect(whole.length).toBeGreaterThan(3)
      const paged: string[] = []
      let cursor: string | null = null
      do {
        const { body }: { body: { items: { name: string }[]; nextCursor: string | null } } =
          await service.request
            .get('/v1/setups')
            .query({ ...query, limit: 2, ...(cursor === null ? {} : { cursor }) })
            .expect(200)
        paged.push(...body.items.map((item) => item.name))
        cursor = body.nextCursor
      } while (cursor !== null)
      expect(paged).toEqual(whole)
    },
  )
})

describe('a setup of merged components', () => {
  it('shows what they were merged into, and is the same combination', async () => {
    const body = { kind: 'frame', maker: 'Osier Frms', model: 'Hoop' }
    const twin = (await add(service, token, body).expect(201)).body.id
    const parts = partsOf('heronE', 'tallis125', 'sedge')
    const { id } = (await post({ ...parts, frameId: twin }).expect(201)).body
    await service.db.pool.query('UPDATE component SET merged_into_id = $1 WHERE id = $2', [
      ids.sedge,
      twin,
    ])
    expect((await read(id).expect(200)).body.frame).toMatchObject({ id: ids.sedge })
    for (const frameId of [twin, ids.sedge]) {
      const answer = await post({ ...parts, frameId }).expect(409)
      expect(answer.body.existingId).toBe(id)
    }
  })
})
