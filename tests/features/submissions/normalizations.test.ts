import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CLIMB, type Desk, FUEL_BURN, scenarioA, startDesk } from './desk.ts'

let desk: Desk

beforeAll(async () => {
  desk = await startDesk()
})
afterAll(() => desk.close())

const UNKNOWN = '00000000-0000-4000-8000-000000000000'

function post(body: object) {
  return desk.request.post('/v1/normalizations').send(body)
}

/** Scenario A with its equipment described instead of named. */
function described(equipment: unknown = { drive: 'twoStroke', propellerDiameterCm: 125 }) {
  const { entries, ...session } = scenarioA(UNKNOWN, [CLIMB, FUEL_BURN])
  return {
    ...session,
    entries: entries.map(({ setupId: _, ...entry }) => ({ ...entry, equipment })),
  }
}

describe('POST /v1/normalizations', () => {
  it('answers as a submission would, to anybody, and stores nothing', async () => {
    const pilot = await desk.signUp()
    const body = scenarioA(await desk.setup(), [CLIMB, FUEL_BURN])
    const stored = await desk.request
      .post('/v1/submissions')
      .auth(pilot.token, { type: 'bearer' })
      .send(body)
      .expect(201)
    const before = await desk.db.pool.query('SELECT count(*) FROM submission')
    const calculated = await post(body).expect(200)
    expect(calculated.body).toEqual({
      methodVersion: stored.body.methodVersion,
      referenceId: stored.body.referenceId,
      entries: stored.body.entries,
      warnings: stored.body.warnings,
      cautions: stored.body.cautions,
    })
    expect((await desk.db.pool.query('SELECT count(*) FROM submission')).rows).toEqual(before.rows)
  })

  it('works without a catalogue', async () => {
    const named = await post(scenarioA(await desk.setup(), [CLIMB, FUEL_BURN])).expect(200)
    const { body } = await post(described()).expect(200)
    expect(body.entries[0].runs).toEqual(named.body.entries[0].runs)
    expect(body.entries[0].equipment).toEqual({ drive: 'twoStroke', propellerDiameterCm: 125 })
    expect(body.entries[0].setupId).toBeUndefined()
  })

  it('takes several entries with described equipment, also the same one', async () => {
    const body = described()
    const two = { ...body, entries: [...body.entries, ...body.entries] }
    const answer = await post(two).expect(200)
    expect(answer.body.entries).toHaveLength(2)
  })

  it.each<[what: string, body: () => object, status: number, pointer: string]>([
    ['no equipment', () => described(null), 400, '/entries/0/equipment'],
    [
      'neither',
      () => ({ ...described(), entries: [{ allUpMassKg: 135, runs: [CLIMB] }] }),
      400,
      '/entries/0/setupId',
    ],
    [
      'equipment and a set-up',
      () => ({ ...described(), entries: [{ ...described().entries[0], setupId: UNKNOWN }] }),
      400,
      '/entries/0/setupId',
    ],
    ['an unknown set-up', () => scenarioA(UNKNOWN), 422, '/entries/0/setupId'],
    [
      'an unknown drive',
      () => described({ drive: 'steam', propellerDiameterCm: 125 }),
      400,
      '/entries/0/equipment/drive',
    ],
    [
      'a propeller in metres',
      () => described({ drive: 'twoStroke', propellerDiameterCm: 1.25 }),
      422,
      '/entries/0/equipment/propellerDiameterCm',
    ],
  ])('is refused for %s', async (_, body, status, pointer) => {
    const answer = await post(body())
    expect(answer.status).toBe(status)
    expect(answer.body.errors.map((error: { pointer: string }) => error.pointer)).toContain(pointer)
  })
})
