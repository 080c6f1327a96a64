import { randomUUID } from 'node:crypto'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { NewRun } from '../../../src/features/submissions/run-kinds.ts'
import { CLIMB, type Desk, FUEL_BURN, type Pilot, scenarioA, startDesk } from './desk.ts'

let desk: Desk
let pilot: Pilot
let moderator: Pilot

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
  moderator = await desk.signUp('moderator')
})
afterAll(() => desk?.close())

const CLEAR = {
  kind: 'tipClearance',
  staticClearanceMm: 45,
  loadedClearanceMm: 30,
  contactSeen: false,
  loadN: 110,
} satisfies NewRun
const CLOSE = { ...CLEAR, staticClearanceMm: 28, loadedClearanceMm: 12 } satisfies NewRun
const TOUCHED = { ...CLEAR, contactSeen: true } satisfies NewRun

const send = (path: string, body: object, who = pilot) =>
  desk.request.post(path).auth(who.token, { type: 'bearer' }).send(body)

const submit = (body: object, who = pilot) => send('/v1/submissions', body, who)

const revise = (id: string, body: object) => send(`/v1/submissions/${id}/revisions`, body)

const safetyOf = async (setupId: string) =>
  (await desk.request.get(`/v1/setups/${setupId}`).expect(200)).body.safety

async function reviewsOf(setupId: string, state = 'waiting') {
  const answer = await desk.request
    .get(`/v1/reviews?state=${state}&setupId=${setupId}`)
    .auth(moderator.token, { type: 'bearer' })
    .expect(200)
  return answer.body.items
}

const lift = (reviewId: string) =>
  send(`/v1/reviews/${reviewId}/decisions`, { decision: 'lift', reason: 'New mounts.' }, moderator)

describe('a submission with a tip clearance', () => {
  it('stores it like every run, and it counts for no comparison', async () => {
    const setupId = await desk.setup()
    const { body } = await submit(scenarioA(setupId, [CLEAR])).expect(201)
    const [run] = body.entries[0].runs
    expect(run).toMatchObject({
      ...CLEAR,
      normalized: { metric: 'tipClearance', value: 30, unit: 'mm', movementMm: 15 },
      warnings: [],
    })
    expect((await desk.request.get(`/v1/submissions/${body.id}`).expect(200)).body).toMatchObject({
      view: 'public',
      entries: [{ runs: [{ kind: 'tipClearance', normalized: { value: 30 } }] }],
    })
    const { rows } = await desk.db.pool.query(
      `SELECT result.quantity FROM run JOIN run_result result ON result.run_id = run.id
        WHERE run.setup_id = $1`,
      [setupId],
    )
    expect(rows).toEqual([{ quantity: null }])
    expect((await safetyOf(setupId)).state).toBe('none')
  })

  it('grounds the set-up at once where the propeller touched, and tells the moderators', async () => {
    const setupId = await desk.setup()
    const { body } = await submit(scenarioA(setupId, [CLIMB, TOUCHED])).expect(201)
    expect(await safetyOf(setupId)).toMatchObject({
      state: 'doNotFly',
      reports: [{ state: 'doNotFly', reason: expect.stringMatching(/touched/) }],
    })
    expect(body.cautions[0]).toBe(
      `Do not fly set-up ${setupId}: it was reported unsafe; see its reports.`,
    )
    const [review] = await reviewsOf(setupId)
    expect(review).toMatchObject({
      origin: 'measurement',
      kind: 'unsafe',
      accountId: pilot.accountId,
      submissionId: body.id,
      setupId,
      findings: [{ state: 'doNotFly' }],
    })
    const trail = await desk.request
      .get(`/v1/audit-events?subjectId=${setupId}`)
      .auth(moderator.token, { type: 'bearer' })
    expect(trail.body.items).toMatchObject([
      {
        actorId: pilot.accountId,
        action: 'safety.raised',
        detail: { submissionId: body.id, state: 'doNotFly' },
      },
    ])
  })

  it('grounds it also for a gap that is gone, and advises for one that is small', async () => {
    const gone = await desk.setup()
    await submit(scenarioA(gone, [{ ...CLEAR, loadedClearanceMm: 0 }])).expect(201)
    expect((await safetyOf(gone)).state).toBe('doNotFly')
    const small = await desk.setup()
    await submit(scenarioA(small, [CLOSE, { ...CLOSE, loadedClearanceMm: 13 }])).expect(201)
    expect(await safetyOf(small)).toMatchObject({
      state: 'advisory',
      reports: [{ reason: expect.stringMatching(/18 mm are advised/) }],
    })
    const rest = await desk.setup()
    const atRest = { kind: 'tipClearance', staticClearanceMm: 8, contactSeen: false } as const
    await submit(scenarioA(rest, [atRest])).expect(201)
    expect((await safetyOf(rest)).reports).toMatchObject([
      { state: 'advisory', reason: expect.stringMatching(/At rest/) },
    ])
  })

  it('leaves nothing behind where the submission is refused', async () => {
    const setupId = await desk.setup()
    const impossible = { ...CLIMB, heightGainM: 5 }
    await submit(scenarioA(setupId, [TOUCHED, impossible])).expect(422)
    expect((await safetyOf(setupId)).state).toBe('none')
    expect(await reviewsOf(setupId)).toEqual([])
  })

  it('reports once for the same Idempotency-Key, and once more for another submission', async () => {
    const setupId = await desk.setup()
    const key = randomUUID()
    const body = scenarioA(setupId, [TOUCHED])
    await submit(body).set('idempotency-key', key).expect(201)
    await submit(body).set('idempotency-key', key).expect(201)
    expect((await safetyOf(setupId)).reports).toHaveLength(1)
    await submit(body, await desk.signUp()).expect(201)
    expect((await safetyOf(setupId)).reports).toHaveLength(2)
    const [first] = await reviewsOf(setupId)
    await lift(first.id).expect(201)
    expect((await safetyOf(setupId)).state).toBe('doNotFly') // the other one holds
  })

  it('grounds it through a revision, and a revision never lifts', async () => {
    const setupId = await desk.setup()
    const { id } = (await submit(scenarioA(setupId, [CLOSE])).expect(201)).body
    expect((await safetyOf(setupId)).state).toBe('advisory')
    await revise(id, scenarioA(setupId, [TOUCHED])).expect(201)
    expect((await safetyOf(setupId)).state).toBe('doNotFly')
    await revise(id, scenarioA(setupId, [TOUCHED])).expect(201)
    const { body } = await revise(id, scenarioA(setupId, [CLEAR])).expect(201)
    const safety = await safetyOf(setupId)
    expect(safety.state).toBe('doNotFly')
    expect(safety.reports.map((r: { state: string }) => r.state).sort()).toEqual([
      'advisory',
      'doNotFly',
    ])
    expect(body.cautions[0]).toMatch(/^Do not fly/)
    expect(await reviewsOf(setupId)).toHaveLength(1)
  })

  it('keeps what it said when it is withdrawn or moved to another set-up', async () => {
    const setupId = await desk.setup()
    const { id } = (await submit(scenarioA(setupId, [TOUCHED])).expect(201)).body
    const other = await desk.setup()
    await revise(id, scenarioA(other, [TOUCHED])).expect(201)
    await desk.request
      .delete(`/v1/submissions/${id}`)
      .auth(pilot.token, { type: 'bearer' })
      .expect(204)
    expect((await safetyOf(setupId)).state).toBe('doNotFly')
    expect((await safetyOf(other)).state).toBe('doNotFly')
  })

  it('comes back to the moderators when it says again what they lifted', async () => {
    const setupId = await desk.setup()
    const { id } = (await submit(scenarioA(setupId, [TOUCHED])).expect(201)).body
    const [review] = await reviewsOf(setupId)
    await lift(review.id).expect(201)
    expect((await safetyOf(setupId)).state).toBe('none')
    await revise(id, scenarioA(setupId, [CLEAR])).expect(201)
    expect((await safetyOf(setupId)).state).toBe('none')
    await revise(id, scenarioA(setupId, [TOUCHED])).expect(201)
    expect((await safetyOf(setupId)).state).toBe('doNotFly')
    const [again] = await reviewsOf(setupId)
    expect(again.id).toBe(review.id)
    expect(again.findings).toMatchObject([{ liftedReason: 'New mounts.' }, { liftedAt: null }])
    expect(again.decisions).toHaveLength(1)
  })

  it('reaches the set-up that a merged one became', async () => {
    const merged = await desk.setup()
    const survivor = await desk.setup()
    await desk.db.pool.query('UPDATE setup SET merged_into_id = $2 WHERE id = $1', [
      merged,
      survivor,
    ])
    const { body } = await submit(scenarioA(merged, [TOUCHED])).expect(201)
    expect((await safetyOf(survivor)).state).toBe('doNotFly')
    expect(body.cautions[0]).toContain(survivor)
  })

  it.each<[what: string, run: object, status: number, pointer: string]>([
    ['a clearance left out', { staticClearanceMm: undefined }, 400, '/staticClearanceMm'],
    ['contact left out', { contactSeen: undefined }, 400, '/contactSeen'],
    ['contact as a word', { contactSeen: 'no' }, 400, '/contactSeen'],
    ['a field of another kind', { rpm: 8000 }, 400, ''],
    ['the uncertainty of no field', { uncertainty: { gapMm: 1 } }, 400, '/uncertainty'],
    ['a negative gap', { staticClearanceMm: -1 }, 422, '/staticClearanceMm'],
    ['a gap wider than a cage', { staticClearanceMm: 501 }, 422, '/staticClearanceMm'],
    ['a negative gap under load', { loadedClearanceMm: -1 }, 422, '/loadedClearanceMm'],
    ['a load of tons', { loadN: 9000 }, 422, '/loadN'],
    ['a load without its gap', { loadedClearanceMm: undefined }, 422, '/loadN'],
    [
      'an uncertainty beyond the gap',
      { uncertainty: { loadedClearanceMm: 25 } },
      422,
      '/uncertainty/loadedClearanceMm',
    ],
  ])('is refused for %s', async (_, change, status, pointer) => {
    const setupId = await desk.setup()
    const answer = await submit(scenarioA(setupId, [{ ...CLEAR, ...change } as NewRun]))
    expect(answer.status).toBe(status)
    expect(answer.body.errors.map((e: { pointer: string }) => e.pointer)).toEqual([
      `/entries/0/runs/0${pointer}`,
    ])
  })
})

describe('the cautions of an answer', () => {
  it('go with the kinds of run, defer to others, and are the same wherever it is read', async () => {
    const setupId = await desk.setup()
    const { body } = await submit(scenarioA(setupId, [CLIMB, FUEL_BURN])).expect(201)
    expect(body.cautions.join(' ')).toMatch(/full-throttle climb.*engine out/s)
    expect(body.cautions.at(-1)).toMatch(/Local rules and codes.*licensed practice/)
    const own = await desk.request
      .get(`/v1/submissions/${body.id}`)
      .auth(pilot.token, { type: 'bearer' })
    expect(own.body).toEqual(body)
    const seen = await desk.request.get(`/v1/submissions/${body.id}`)
    expect(seen.body.cautions).toEqual(body.cautions)
  })

  it('hold for static pulls: people clear, frame tied down, ears', async () => {
    const setupId = await desk.setup()
    const pull = { kind: 'staticPull', thrustN: 560 } as NewRun
    const { body } = await submit(scenarioA(setupId, [pull])).expect(201)
    expect(body.cautions.join(' ')).toMatch(/tied down/)
    expect(body.cautions.join(' ')).toMatch(/plane of the propeller or in its blast/)
    expect(body.cautions.join(' ')).toMatch(/hours and limits of the place/)
  })

  it('speak of a set-up that is grounded now, also in what was submitted before', async () => {
    const setupId = await desk.setup()
    const before = (await submit(scenarioA(setupId, [CLIMB])).expect(201)).body
    expect(before.cautions[0]).not.toMatch(/Do not fly/)
    await submit(scenarioA(setupId, [TOUCHED]), await desk.signUp()).expect(201)
    for (const path of [`/v1/submissions/${before.id}`, `/v1/submissions?setupId=${setupId}`]) {
      const { body } = await desk.request.get(path).expect(200)
      const shown = body.items?.find((item: { id: string }) => item.id === before.id) ?? body
      expect(shown.cautions[0]).toMatch(/^Do not fly/)
    }
  })

  it('come with a normalisation too, which stores nothing and so grounds nothing', async () => {
    const setupId = await desk.setup()
    const body = scenarioA(setupId, [CLIMB, TOUCHED])
    const touched = await desk.request.post('/v1/normalizations').send(body).expect(200)
    expect(touched.body.cautions[0]).toMatch(/propeller touched\. Nothing was stored/)
    expect((await safetyOf(setupId)).state).toBe('none')
    await submit(body).expect(201)
    const climb = scenarioA(setupId, [CLIMB])
    const known = await desk.request.post('/v1/normalizations').send(climb).expect(200)
    expect(known.body.cautions[0]).toMatch(/^Do not fly .* reported unsafe/)
    const { setupId: _, ...entry } = body.entries[0]!
    const equipment = { drive: 'twoStroke', propellerDiameterCm: 125 }
    const described = { ...body, entries: [{ ...entry, equipment }] }
    const own = await desk.request.post('/v1/normalizations').send(described).expect(200)
    expect(own.body.cautions[0]).toMatch(/the set-up of entry 0/)
  })
})
