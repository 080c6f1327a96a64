import { setTimeout as sleep } from 'node:timers/promises'

import { afterAll, beforeAll, beforeEach, expect, it, vi } from 'vitest'

import { ATTEMPTS, LOOK_MS } from '../../../src/features/datasets/release/maker.ts'
import { insertScheduledRequest } from '../../../src/features/datasets/release/requests-repository.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'

let test: TestApp

beforeAll(async () => {
  test = await startTestApp()
})
afterAll(() => test.close())
beforeEach(() => test.db.pool.query('DELETE FROM dataset_request'))

const requests = async () => {
  const { rows } = await test.db.pool.query<{ state: string; step: string }>(
    'SELECT state, step FROM dataset_request ORDER BY created_at, id',
  )
  return rows
}

/** The schedule looks on its own time; what it asked for is worked off when this resolves. */
const untilRequests = async (count: number) => {
  while ((await requests()).length < count) await sleep(10)
  await test.app.releases.workOff()
  return requests()
}

it('a request whose making ended the service each time is given up, and says so', async () => {
  const { rows } = await test.db.pool.query(
    `INSERT INTO dataset_request (state, attempts) VALUES ('running', $1) RETURNING id`,
    [ATTEMPTS],
  )
  await test.app.releases.workOff()
  const { body } = await test.request.get(`/v1/dataset-requests/${rows[0].id}`).expect(200)
  expect(body).toMatchObject({ state: 'failed', release: null })
  expect(body.step).toContain('given up')
  expect(body.finishedAt).not.toBeNull()
})

it('one that was left once is made', async () => {
  await test.db.pool.query(`INSERT INTO dataset_request (state, attempts) VALUES ('running', 1)`)
  await test.app.releases.workOff()
  expect(await requests()).toEqual([
    { state: expect.stringMatching(/published|unchanged/), step: expect.any(String) },
  ])
})

const age = (days: number) =>
  test.db.pool.query(
    'UPDATE dataset_request SET created_at = created_at - make_interval(secs => 86400 * $1)',
    [days],
  )
const isAsked = (days: number) => insertScheduledRequest(test.db.pool, days)

it('the schedule asks once in its time', async () => {
  expect(await isAsked(30)).toBe(true)
  expect(await isAsked(30)).toBe(false)
  await age(29)
  expect(await isAsked(30)).toBe(false)
  await age(2)
  expect(await isAsked(30)).toBe(true)
})

it('the schedule asks again a day after a failure', async () => {
  await test.db.pool.query(
    `INSERT INTO dataset_request (state, finished_at) VALUES ('failed', now())`,
  )
  expect(await isAsked(30)).toBe(false)
  await age(1)
  expect(await isAsked(30)).toBe(true)
})

it('the schedule is looked at when the service starts, and every hour', async () => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] })
  try {
    test.app.releases.start(30)
    expect(await untilRequests(1)).toHaveLength(1)
    await age(31)
    expect(await requests()).toHaveLength(1)
    vi.advanceTimersByTime(LOOK_MS)
    expect(await untilRequests(2)).toHaveLength(2)
  } finally {
    vi.useRealTimers()
  }
})
