import { randomUUID } from 'node:crypto'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'
import { add } from './catalogue-fixture.ts'

let service: TestApp
let token: string

beforeAll(async () => {
  service = await startTestApp()
  token = (await service.signUp()).token
})

afterAll(async () => service?.close())

const read = (id: string) => service.request.get(`/v1/components/${id}`)

describe('POST /v1/components', () => {
  it.each([
    {
      kind: 'powerplant',
      maker: 'Marrow Engines',
      model: 'M-140',
      drive: 'twoStroke',
      displacementCc: 137.5,
      ratedPowerKw: 11.2,
      ratedRpm: 8900,
      reductionRatio: 2.87,
      tune: 'asDelivered',
      massKg: 12.4,
      price: { amount: 2150.5, currency: 'EUR', asOf: '2026-03-29' },
    },
    {
      kind: 'propeller',
      maker: 'Tallis Propellers',
      model: 'Sweep 2',
      diameterCm: 125,
      pitchCm: 58.5,
      blades: 2,
      material: 'carbon',
      massKg: 0.62,
    },
    {
      kind: 'frame',
      maker: 'Osier Frames',
      model: 'Hoop',
      hoopInnerDiameterCm: 138,
      hoopDepthMm: 42,
      thrustLineAboveMountsMm: -35,
      massKg: 9.1,
    },
    {
      kind: 'wing',
      maker: 'Kestrelfold Wings',
      model: 'Lark',
      flatAreaM2: 24,
      glideRatio: 7.4,
      trimSpeedMps: 10.5,
      trimAtAllUpMassKg: 120,
    },
  ])('stores a $kind with everything it may state, and gives it back unchanged', async (body) => {
    const answer = await add(service, token, body).expect(201)
    const { id, createdAt, ...rest } = answer.body
    expect(rest).toEqual(body)
    expect(answer.headers.location).toBe(`/v1/components/${id}`)
    expect(Math.abs(Date.parse(createdAt) - Date.now())).toBeLessThan(60_000)
    expect((await read(id).expect(200)).body).toEqual(answer.body)
  })

  it('needs an account', async () => {
    const answer = await service.request
      .post('/v1/components')
      .send({ kind: 'frame', maker: 'Nobody', model: 'None' })
    expect(answer.status).toBe(401)
    expect(answer.headers['www-authenticate']).toBe('Bearer')
  })

  it('shows names on one line with single spaces', async () => {
    const body = { kind: 'frame', maker: '  Withy\t Works ', model: 'Arch\n 1' }
    const answer = await add(service, token, body).expect(201)
    expect(answer.body).toMatchObject({ maker: 'Withy Works', model: 'Arch 1' })
  })

  it.each([
    [{ kind: 'balloon', maker: 'A', model: 'B' }, '/kind'],
    [{ kind: 'powerplant', maker: 'A', model: 'B' }, '/drive'],
    [{ kind: 'propeller', maker: 'A', model: 'B' }, '/diameterCm'],
    [{ kind: 'wing', maker: 'A', model: 'B' }, '/flatAreaM2'],
    [{ kind: 'frame', maker: ' ', model: 'B' }, '/maker'],
    [{ kind: 'frame', maker: 'A', model: 'B\u0000' }, '/model'],
    [{ kind: 'frame', maker: 'A', model: 'B\ud800' }, '/model'],
    [{ kind: 'frame', maker: 'A', model: 'B', massKg: -1 }, '/massKg'],
    [
      { kind: 'frame', maker: 'A', model: 'B', price: { amount: 5, currency: 'EUR' } },
      '/price/asOf',
    ],
    [
      {
        kind: 'frame',
        maker: 'A',
        model: 'B',
        price: { amount: 5, currency: 'euro', asOf: '2026-01-01' },
      },
      '/price/currency',
    ],
    [
      {
        kind: 'frame',
        maker: 'A',
        model: 'B',
        price: { amount: 5, currency: 'EUR', asOf: '2026-02-30' },
      },
      '/price/asOf',
    ],
    [{ kind: 'frame', maker: 'A', model: 'B', diameterCm: 125 }, ''],
  ])('points at what is wrong with %j', async (body, pointer) => {
    const answer = await add(service, token, body)
    expect(answer.status).toBe(400)
    expect(answer.type).toBe('application/problem+json')
    expect(answer.body.errors.map((error: { pointer: string }) => error.pointer)).toEqual([pointer])
  })

  it('says so where a value looks like a unit mistake', async () => {
    const body = { kind: 'propeller', maker: 'Tallis Propellers', model: 'Metre', diameterCm: 1.25 }
    const answer = await add(service, token, body).expect(400)
    expect(answer.body.errors[0].detail).toContain('read as m it is 125 cm')
  })
})

describe('one record per thing', () => {
  const duplicate = async (body: object, id: string) => {
    const answer = await add(service, token, body)
    expect(answer.status).toBe(409)
    expect(answer.body.detail).toContain(id)
    expect(answer.body.existingId).toBe(id)
  }

  it('refuses the same maker and model, ignoring case, spaces and hyphens', async () => {
    const known = { kind: 'frame', maker: 'Rushlight Frames', model: 'R-2 Wide' }
    const { id } = (await add(service, token, known).expect(201)).body
    await duplicate(known, id)
    await duplicate({ kind: 'frame', maker: 'RUSHLIGHT  frames', model: 'r2wide' }, id)
    await duplicate({ kind: 'frame', maker: 'Rush light-Frames', model: 'R 2–Wide' }, id)
    await add(service, token, { ...known, model: 'R-2 Wide+' }).expect(201)
  })

  it('takes the sizes of one propeller and of one wing for different things', async () => {
    const propeller = { kind: 'propeller', maker: 'Quillon Airscrews', model: 'Broad' }
    const small = (await add(service, token, { ...propeller, diameterCm: 125 }).expect(201)).body.id
    await add(service, token, { ...propeller, diameterCm: 130 }).expect(201)
    await duplicate({ ...propeller, diameterCm: 125, massKg: 0.7 }, small)
    const wing = { kind: 'wing', maker: 'Kestrelfold Wings', model: 'Merle' }
    const wing24 = (await add(service, token, { ...wing, flatAreaM2: 24 }).expect(201)).body.id
    await add(service, token, { ...wing, flatAreaM2: 26 }).expect(201)
    await duplicate({ ...wing, flatAreaM2: 24, glideRatio: 8 }, wing24)
  })

  it('takes an unstated tune for the tune as delivered', async () => {
    const engine = {
      kind: 'powerplant',
      maker: 'Marrow Engines',
      model: 'M-90',
      drive: 'twoStroke',
    }
    const { id } = (await add(service, token, engine).expect(201)).body
    await duplicate({ ...engine, tune: 'asDelivered' }, id)
    const modified = (await add(service, token, { ...engine, tune: 'modified' }).expect(201)).body
      .id
    await duplicate({ ...engine, tune: 'modified' }, modified)
    await add(service, token, { ...engine, reductionRatio: 3.2 }).expect(201)
    await add(service, token, { ...engine, reductionRatio: 2.6 }).expect(201)
  })

  it('lets a fuller description in beside a vaguer one, and not the other way round', async () => {
    const vague = { kind: 'propeller', maker: 'Tallis Propellers', model: 'Vague', diameterCm: 125 }
    await add(service, token, vague).expect(201)
    await add(service, token, { ...vague, pitchCm: 60 }).expect(201)
    await add(service, token, { ...vague, pitchCm: 65, material: 'carbon' }).expect(201)
    await add(service, token, { ...vague, pitchCm: 65, material: 'Carbon' }).expect(409)
    await add(service, token, { ...vague, pitchCm: 65 }).expect(409)
    await add(service, token, vague).expect(409)
  })

  it('stores one of two that come at once', async () => {
    const body = { kind: 'frame', maker: 'Osier Frames', model: 'Twins' }
    const answers = await Promise.all([1, 2, 3, 4].map(async () => add(service, token, body)))
    expect(answers.map((answer) => answer.status).sort()).toEqual([201, 409, 409, 409])
  })
})

describe('Idempotency-Key', () => {
  const body = { kind: 'frame', maker: 'Osier Frames', model: 'Once' }
  const key = randomUUID()

  it('replays the first answer to the same key and body', async () => {
    const first = await add(service, token, body).set('idempotency-key', key).expect(201)
    const second = await add(service, token, body).set('idempotency-key', key).expect(201)
    expect(second.body).toEqual(first.body)
    expect(second.headers.location).toBe(first.headers.location)
  })

  it('refuses the same key with another body', async () => {
    const other = { ...body, model: 'Twice' }
    const answer = await add(service, token, other).set('idempotency-key', key)
    expect(answer.status).toBe(422)
    expect(answer.body.type).toBe('/problems/idempotency-key-reused')
  })

  it('belongs to one account', async () => {
    const other = await service.signUp()
    const answer = await add(service, other.token, body).set('idempotency-key', key)
    expect(answer.status).toBe(409) // not a replay: the component is there already
  })
})

describe('GET /v1/components/{id}', () => {
  it('answers 404 for an unknown id and 400 for what is no id', async () => {
    expect((await read(randomUUID())).status).toBe(404)
    expect((await read('42')).status).toBe(400)
  })

  it('answers the id of a merged duplicate with the component that remains', async () => {
    const body = { kind: 'wing', maker: 'Kestrelfold Wings', model: 'Wren', flatAreaM2: 22 }
    const kept = (await add(service, token, body).expect(201)).body
    const other = (await add(service, token, { ...body, maker: 'Kestrelfld' }).expect(201)).body
    await service.db.pool.query('UPDATE component SET merged_into_id = $1 WHERE id = $2', [
      kept.id,
      other.id,
    ])
    const answer = await read(other.id).expect(200)
    expect(answer.body).toEqual({ ...kept, mergedIntoId: kept.id })
    expect(answer.headers['content-location']).toBe(`/v1/components/${kept.id}`)
    expect((await read(kept.id)).body).not.toHaveProperty('mergedIntoId')
    const again = await add(service, token, { ...body, maker: 'Kestrelfld' }).expect(409)
    expect(again.body.detail).toContain(kept.id)
  })

  it('carries a strong ETag and answers 304 to who has it', async () => {
    const { id } = (
      await add(service, token, { kind: 'frame', maker: 'Osier Frames', model: 'Tag' })
    ).body
    const { etag } = (await read(id)).headers
    expect(etag).toMatch(/^"[\w-]+"$/)
    await read(id).set('if-none-match', etag!).expect(304)
    await read(id).set('if-none-match', '"other"').expect(200)
  })
})
