import { setTimeout as wait } from 'node:timers/promises'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { submit } from '../../../src/features/submissions/service.ts'
import { CLIMB, type Desk, FUEL_BURN, type Pilot, scenarioA, startDesk } from './desk.ts'

let desk: Desk
let pilot: Pilot
let setupId: string

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
  setupId = await desk.setup()
})
afterAll(() => desk.close())

function post(key: string | undefined, body: object, path = '/v1/submissions') {
  const request = desk.request.post(path).auth(pilot.token, { type: 'bearer' })
  return (key === undefined ? request : request.set('idempotency-key', key)).send(body)
}

async function counts() {
  const tables = ['submission', 'submission_revision', 'run', 'run_result', 'idempotency_record']
  const rows = await Promise.all(
    tables.map((table) => desk.db.pool.query(`SELECT count(*)::int AS n FROM ${table}`)),
  )
  return rows.map((result) => result.rows[0].n)
}

/** Makes the last rows of a write fail inside the database, while `work` runs. */
async function withFailingFuelResults(work: () => Promise<void>) {
  await desk.db.pool.query(`
    CREATE FUNCTION fail_fuel() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN RAISE EXCEPTION 'disk on fire'; END $$;
    CREATE TRIGGER fail_fuel BEFORE INSERT ON run_result FOR EACH ROW
      WHEN (NEW.quantity = 'fuelFlow') EXECUTE FUNCTION fail_fuel()`)
  await work().finally(() =>
    desk.db.pool.query('DROP TRIGGER fail_fuel ON run_result; DROP FUNCTION fail_fuel()'),
  )
}

describe('a write that fails half way', () => {
  it('leaves nothing behind, tells nothing of the cause, and can be sent again', async () => {
    const body = scenarioA(setupId, [CLIMB, FUEL_BURN])
    const before = await counts()
    await withFailingFuelResults(async () => {
      const answer = await post('half-way', body).expect(500)
      expect(JSON.stringify(answer.body)).not.toContain('fire')
      expect(await counts()).toEqual(before)
    })
    const again = await post('half-way', body).expect(201)
    expect(again.body.entries[0].runs).toHaveLength(2)
  })

  it('leaves the revision before as the one that counts', async () => {
    const { id } = (await post(undefined, scenarioA(setupId)).expect(201)).body
    const before = await counts()
    await withFailingFuelResults(async () => {
      await post(
        undefined,
        scenarioA(setupId, [FUEL_BURN]),
        `/v1/submissions/${id}/revisions`,
      ).expect(500)
    })
    expect(await counts()).toEqual(before)
    const read = await desk.request.get(`/v1/submissions/${id}`).expect(200)
    expect(read.body.revision).toBe(1)
  })
})

describe('an Idempotency-Key', () => {
  it('replays the first answer and writes once', async () => {
    const first = await post('again', scenarioA(setupId)).expect(201)
    const before = await counts()
    const second = await post('again', scenarioA(setupId)).expect(201)
    expect(second.body).toEqual(first.body)
    expect(second.headers.location).toBe(first.headers.location)
    expect(await counts()).toEqual(before)
  })

  it('is refused with another body', async () => {
    await post('other', scenarioA(setupId)).expect(201)
    const answer = await post('other', { ...scenarioA(setupId), interest: 'dealer' }).expect(422)
    expect(answer.body.type).toBe('/problems/idempotency-key-reused')
  })

  it('is refused for another target', async () => {
    const { id } = (await post('target', scenarioA(setupId)).expect(201)).body
    await post('target', scenarioA(setupId), `/v1/submissions/${id}/revisions`).expect(422)
  })

  it('belongs to its account', async () => {
    const other = await desk.signUp()
    const first = await post('mine', scenarioA(setupId)).expect(201)
    const second = await desk.request
      .post('/v1/submissions')
      .auth(other.token, { type: 'bearer' })
      .set('idempotency-key', 'mine')
      .send(scenarioA(setupId))
      .expect(201)
    expect(second.body.id).not.toBe(first.body.id)
  })

  it('must not be empty or endless', async () => {
    await post('', scenarioA(setupId)).expect(400)
    await post('k'.repeat(256), scenarioA(setupId)).expect(400)
  })

  it('keeps a second request out while the first is being worked on', async () => {
    const blocker = await desk.db.pool.connect()
    await blocker.query('BEGIN; LOCK TABLE submission IN EXCLUSIVE MODE')
    const first = post('in flight', scenarioA(setupId)).then((answer) => answer)
    await waitUntilSomebodyWaits()
    const second = await post('in flight', scenarioA(setupId)).expect(409)
    expect(second.body.type).toBe('/problems/request-in-flight')
    await blocker.query('COMMIT')
    blocker.release()
    const { status, body } = await first
    expect(status).toBe(201)
    const third = await post('in flight', scenarioA(setupId)).expect(201)
    expect(third.body).toEqual(body)
  })
})

/** Until a request of the app stands before a lock. */
async function waitUntilSomebodyWaits() {
  for (;;) {
    const { rowCount } = await desk.db.pool.query(
      `SELECT 1 FROM pg_locks JOIN pg_database ON pg_database.oid = database
        WHERE NOT granted AND datname = current_database()`,
    )
    if (rowCount! > 0) return
    await wait(10)
  }
}

describe('two revisions at once', () => {
  it('get two numbers', async () => {
    const { id } = (await post(undefined, scenarioA(setupId)).expect(201)).body
    const path = `/v1/submissions/${id}/revisions`
    const answers = await Promise.all(
      [1, 2, 3, 4, 5].map((n) => post(undefined, { ...scenarioA(setupId), note: `${n}` }, path)),
    )
    expect(answers.map((answer) => answer.status)).toEqual([201, 201, 201, 201, 201])
    expect(answers.map((answer) => answer.body.revision).sort()).toEqual([2, 3, 4, 5, 6])
    const read = await desk.request.get(`/v1/submissions/${id}`)
    expect(read.body.revision).toBe(6)
  })
})

describe('the evidence', () => {
  it('is announced once per write, after the commit, and not for a replay or a refusal', async () => {
    const seen: number[] = []
    let pending: Promise<unknown> = Promise.resolve()
    const service = {
      db: desk.db,
      onEvidenceChanged: () => {
        pending = desk.db.pool
          .query('SELECT count(*)::int AS n FROM submission')
          .then(({ rows }) => seen.push(rows[0].n))
      },
    }
    const before = (await counts())[0]
    const caller = { accountId: pilot.accountId, role: 'pilot' as const }
    const write = { caller, idempotencyKey: 'evidence', body: scenarioA(setupId) }
    await submit(service, write)
    await submit(service, write)
    const unknown = scenarioA('00000000-0000-4000-8000-000000000000')
    await expect(
      submit(service, { caller, idempotencyKey: undefined, body: unknown }),
    ).rejects.toThrow()
    await pending
    expect(seen).toEqual([before + 1])
  })
})
