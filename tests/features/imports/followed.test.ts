import { afterAll, beforeAll, expect, it } from 'vitest'

import { type Desk, type Pilot, startDesk } from '../submissions/desk.ts'
import { type Cells, CLIMB, csvOf, EVENING, sendCsv } from './notebook-file.ts'

let desk: Desk
let pilot: Pilot
let setupId: string

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
  setupId = await desk.setup()
})
afterAll(() => desk.close())

const csv = (...cells: Cells[]) =>
  csvOf([Object.assign({ setup_id: setupId }, EVENING, CLIMB, ...cells)])

const send = (text: string) => sendCsv(desk, text, pilot).set('prefer', 'respond-async, wait=10')

const look = async (path: string, { token }: Pilot = pilot) =>
  desk.request.get(path).auth(token, { type: 'bearer' })

const finished = async (path: string) => {
  await expect.poll(async () => (await look(path)).body.finishedAt).not.toBeNull()
  return (await look(path)).body
}

it('an import that is not waited for says where it can be followed, and comes to the same', async () => {
  const asked = await send(csv()).expect(202)
  expect(asked.headers).toMatchObject({
    location: `/v1/import-requests/${asked.body.id}`,
    'preference-applied': 'respond-async',
  })
  expect(asked.body).toMatchObject({ state: 'running', import: null, problem: null })
  const done = await finished(asked.headers.location as string)
  expect(done).toMatchObject({ state: 'done', progress: 1, problem: null })
  const { body } = await look(done.url)
  expect(body).toMatchObject({ id: done.import, rows: 1, sessions: 1 })

  const again = await send(csv()).expect(202)
  expect((await finished(again.headers.location as string)).import).toBe(done.import)
})

it('one that is refused says why, as if it had been waited for', async () => {
  const faulty = csv({ session: 'Evening 2', duration_s: 'x' })
  const { body: waited } = await sendCsv(desk, faulty, pilot).expect(422)
  const asked = await send(faulty).expect(202)
  const refused = await finished(asked.headers.location as string)
  expect(refused).toMatchObject({ state: 'refused', import: null, url: null })
  const { instance: _, ...problem } = waited
  expect(refused.problem).toMatchObject(problem)
})

it('shows how far it is while it waits for its turn, and to nobody else', async () => {
  const holder = await desk.db.pool.connect()
  try {
    const turn = 'SELECT pg_advisory_lock(hashtextextended($1, 7310005))'
    await holder.query(turn, [pilot.accountId])
    const asked = await send(csv({ session: 'Evening 3', duration_s: 58 })).expect(202)
    const path = asked.headers.location as string
    await expect.poll(async () => (await look(path)).body.step).toBe('reading')
    const running = await look(path)
    expect(running.body.state).toBe('running')
    expect(running.headers['retry-after']).toBe('1')
    expect((await look(path, await desk.signUp())).status).toBe(404)
    await holder.query(turn.replace('_lock', '_unlock'), [pilot.accountId])
    expect((await finished(path)).state).toBe('done')
  } finally {
    holder.release()
  }
})

it('is known to have failed where the process that worked on it ended', async () => {
  const { rows } = await desk.db.pool.query(
    `INSERT INTO import_request (account_id, progress, step) VALUES ($1, 0.4, 'checking') RETURNING id`,
    [pilot.accountId],
  )
  const { body } = await look(`/v1/import-requests/${rows[0].id}`)
  expect(body).toMatchObject({ state: 'failed', progress: 0.4, import: null })
  expect(body.step).toContain('nothing was imported')
})

it('goes with the account', async () => {
  const leaver = await desk.signUp()
  const asked = await sendCsv(desk, csv({ duration_s: 'x' }), leaver)
    .set('prefer', 'respond-async')
    .expect(202)
  const path = asked.headers.location as string
  await expect.poll(async () => (await look(path, leaver)).body.finishedAt).not.toBeNull()
  await desk.request.delete('/v1/me').auth(leaver.token, { type: 'bearer' })
  const { rows } = await desk.db.pool.query('SELECT FROM import_request WHERE account_id = $1', [
    leaver.accountId,
  ])
  expect(rows).toEqual([])
})
