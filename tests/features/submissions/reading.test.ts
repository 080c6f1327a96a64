import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { CLIMB, type Desk, FUEL_BURN, type Pilot, scenarioA, startDesk } from './desk.ts'

let desk: Desk
let owner: Pilot
let stranger: Pilot
let moderator: Pilot

beforeAll(async () => {
  desk = await startDesk()
  owner = await desk.signUp()
  stranger = await desk.signUp('researcher')
  moderator = await desk.signUp('moderator')
})
afterAll(() => desk.close())

function as(pilot: Pilot | null, method: 'get' | 'post' | 'delete', path: string) {
  const request = desk.request[method](path)
  return pilot === null ? request : request.auth(pilot.token, { type: 'bearer' })
}

async function submitted(setupId: string, change: object = {}): Promise<string> {
  const body = { ...scenarioA(setupId, [CLIMB, FUEL_BURN]), note: 'Bumpy at the lake', ...change }
  return (await as(owner, 'post', '/v1/submissions').send(body).expect(201)).body.id
}

describe('reading a submission', () => {
  it('shows its owner and moderators all of it', async () => {
    const id = await submitted(await desk.setup())
    for (const reader of [owner, moderator]) {
      const { body } = await as(reader, 'get', `/v1/submissions/${id}`).expect(200)
      expect(body).toMatchObject({
        view: 'full',
        flownOn: '2026-05-17',
        site: { name: 'Larkfield' },
        pilot: { massKg: 95 },
        note: 'Bumpy at the lake',
      })
    }
  })

  it('shows others the results, and no person, place, day or mass', async () => {
    const setupId = await desk.setup()
    const id = await submitted(setupId)
    const full = (await as(owner, 'get', `/v1/submissions/${id}`)).body
    for (const reader of [null, stranger]) {
      const { body, headers } = await as(reader, 'get', `/v1/submissions/${id}`).expect(200)
      expect(body).toEqual({
        view: 'public',
        id,
        setAside: false,
        revision: 1,
        methodVersion: full.methodVersion,
        referenceId: 'R1',
        flownIn: '2026-05',
        conditions: {
          elevationM: 600,
          temperatureC: 25,
          relativeHumidityPct: 50,
          airMotion: 'light',
        },
        interest: 'none',
        cautions: full.cautions,
        entries: [
          {
            setupId,
            runs: full.entries[0].runs.map(
              (run: {
                kind: string
                normalized: object
                warnings: { pointer: string; code: string }[]
              }) => ({
                kind: run.kind,
                normalized: run.normalized,
                warnings: run.warnings.map(({ pointer, code }) => ({ pointer, code })),
              }),
            ),
          },
        ],
      })
      expect(headers.vary).toMatch(/authorization/i)
      expect(JSON.stringify(body)).not.toMatch(/Larkfield|Bumpy|05-17|[mM]assKg/)
      expect(JSON.stringify(body)).not.toContain(owner.accountId)
    }
  })

  it('rounds the conditions for others', async () => {
    const id = await submitted(await desk.setup(), {
      site: { name: 'Larkfield', elevationM: 212 },
      conditions: { temperatureC: 14.5, relativeHumidityPct: 62, windMps: 1.4, airMotion: 'calm' },
    })
    const { body } = await as(null, 'get', `/v1/submissions/${id}`).expect(200)
    expect(body.conditions).toEqual({
      elevationM: 200,
      temperatureC: 15,
      relativeHumidityPct: 60,
      windMps: 1,
      airMotion: 'calm',
    })
  })

  it('says 404 for an unknown one, 400 for what is no id and 401 for a wrong token', async () => {
    await as(null, 'get', '/v1/submissions/00000000-0000-4000-8000-000000000000').expect(404)
    await as(null, 'get', '/v1/submissions/17').expect(400)
    const id = await submitted(await desk.setup())
    await as({ accountId: '', token: 'wrong' }, 'get', `/v1/submissions/${id}`).expect(401)
  })
})

describe('revising a submission', () => {
  it('makes the new body count and keeps the old one', async () => {
    const setupId = await desk.setup()
    const id = await submitted(setupId)
    const path = `/v1/submissions/${id}/revisions`
    const better = scenarioA(setupId, [{ ...CLIMB, durationS: 50 }])
    const revised = await as(owner, 'post', path).send(better).expect(201)
    expect(revised.body).toMatchObject({ id, revision: 2, currentRevision: 2 })
    expect(revised.headers.location).toBe(`/v1/submissions/${id}`)
    expect(revised.body.note).toBeUndefined()

    const now = await as(owner, 'get', `/v1/submissions/${id}`).expect(200)
    expect(now.body).toEqual(revised.body)
    expect((await as(null, 'get', `/v1/submissions/${id}`)).body.revision).toBe(2)

    const history = await as(owner, 'get', path).expect(200)
    expect(history.body.nextCursor).toBeNull()
    expect(history.body.items.map((item: { revision: number }) => item.revision)).toEqual([2, 1])
    expect(history.body.items[0]).toEqual(revised.body)
    expect(history.body.items[1]).toMatchObject({
      revision: 1,
      currentRevision: 2,
      note: 'Bumpy at the lake',
      createdAt: revised.body.createdAt,
    })
    expect(history.body.items[1].entries[0].runs).toHaveLength(2)
  })

  it('is for its owner alone, its history also for moderators', async () => {
    const setupId = await desk.setup()
    const id = await submitted(setupId)
    const path = `/v1/submissions/${id}/revisions`
    await as(null, 'post', path).send(scenarioA(setupId)).expect(401)
    await as(stranger, 'post', path).send(scenarioA(setupId)).expect(403)
    await as(moderator, 'post', path).send(scenarioA(setupId)).expect(403)
    await as(null, 'get', path).expect(401)
    await as(stranger, 'get', path).expect(403)
    await as(moderator, 'get', path).expect(200)
    const unknown = '/v1/submissions/00000000-0000-4000-8000-000000000000/revisions'
    await as(owner, 'post', unknown).send(scenarioA(setupId)).expect(404)
    await as(owner, 'get', unknown).expect(404)
  })

  it('shows its history page by page', async () => {
    const setupId = await desk.setup()
    const id = await submitted(setupId)
    const path = `/v1/submissions/${id}/revisions`
    for (let i = 0; i < 4; i++) await as(owner, 'post', path).send(scenarioA(setupId)).expect(201)
    const seen: number[] = []
    let next = `${path}?limit=2`
    for (let pages = 1; ; pages++) {
      const { body } = await as(owner, 'get', next).expect(200)
      seen.push(...body.items.map((item: { revision: number }) => item.revision))
      if (body.nextCursor === null) {
        expect(pages).toBe(3)
        break
      }
      next = `${path}?limit=2&cursor=${body.nextCursor}`
    }
    expect(seen).toEqual([5, 4, 3, 2, 1])
  })
})

describe('withdrawing a submission', () => {
  it('takes it from everybody but its owner and moderators, for good', async () => {
    const setupId = await desk.setup()
    const id = await submitted(setupId)
    const path = `/v1/submissions/${id}`
    await as(owner, 'delete', path).expect(204)
    expect((await as(null, 'get', path).expect(410)).body.type).toBe('/problems/gone')
    await as(stranger, 'get', path).expect(410)
    const mine = await as(owner, 'get', path).expect(200)
    expect(Date.parse(mine.body.withdrawnAt)).toBeGreaterThan(0)
    await as(moderator, 'get', path).expect(200)

    await as(owner, 'delete', path).expect(204)
    expect((await as(owner, 'get', path)).body.withdrawnAt).toBe(mine.body.withdrawnAt)
    const revision = await as(owner, 'post', `${path}/revisions`).send(scenarioA(setupId))
    expect({ status: revision.status, type: revision.body.type }).toEqual({
      status: 409,
      type: '/problems/conflict',
    })
  })

  it('is for its owner alone', async () => {
    const id = await submitted(await desk.setup())
    const path = `/v1/submissions/${id}`
    await as(null, 'delete', path).expect(401)
    await as(stranger, 'delete', path).expect(403)
    await as(moderator, 'delete', path).expect(403)
    await as(owner, 'delete', '/v1/submissions/00000000-0000-4000-8000-000000000000').expect(404)
    await as(null, 'get', path).expect(200)
  })
})
