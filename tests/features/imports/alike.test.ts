import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'

import type { NewRun } from '../../../src/features/submissions/run-kinds.ts'
import * as flown from '../submissions/desk.ts'
import { type Desk, type Pilot, scenarioA, startDesk } from '../submissions/desk.ts'
import { type Cells, CLIMB, csvOf, EVENING, faultsOf, sendCsv } from './notebook-file.ts'

let desk: Desk
let setupId: string
let pilot: Pilot
let club: Pilot

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
  club = await desk.signUp()
})
afterAll(() => desk.close())
/** The flights of a test meet none of another: each has a setup and names of sessions of its own. */
let tests = 0
beforeEach(async () => {
  tests += 1
  setupId = await desk.setup()
})

const row = (...cells: Cells[]): Cells =>
  Object.assign({ setup_id: setupId }, EVENING, { session: `Evening ${tests}` }, ...cells)

const climbs = (...durations: number[]): NewRun[] =>
  durations.map((durationS) => ({ ...flown.CLIMB, durationS }))

const post = async (by: Pilot, runs: NewRun[]) => {
  const { body } = await desk.request
    .post('/v1/submissions')
    .auth(by.token, { type: 'bearer' })
    .send(scenarioA(setupId, runs))
    .expect(201)
  return body
}

const bring = (by: Pilot, ...rows: Cells[]) => sendCsv(desk, csvOf(rows), by)

describe('a flight that was posted', () => {
  it('is refused out of a notebook of the same account, with where it stands', async () => {
    const { id } = await post(pilot, climbs(55))
    const { body } = await bring(pilot, row(CLIMB)).expect(422)
    expect(faultsOf(body)).toEqual([
      `2 session: Is the flight of submission ${id} once more: the same day, setup, mass, air and readings. It would count twice: leave it out here, or withdraw that submission first.`,
    ])
  })

  it('is refused out of the notebook of a club too, where its runs are several', async () => {
    await post(pilot, climbs(55, 57))
    const other = row(CLIMB, { session: `Later ${tests}`, duration_s: 70 })
    const { body } = await bring(club, other, row(CLIMB), row(CLIMB, { duration_s: 57 })).expect(
      422,
    )
    expect(faultsOf(body)).toEqual([expect.stringMatching(/^3 session: Is the flight of/)])
  })

  it.each([
    ['one run, which chance may give another pilot', {}],
    ['one run, with another mass', { all_up_mass_kg: 120 }],
    ['one run, in other air', { conditions_temperature_c: 21 }],
  ])('is taken and told where it is %s', async (_, cells) => {
    const { id } = await post(pilot, climbs(55))
    const { body } = await bring(club, row(CLIMB, cells)).expect(201)
    expect(body.warnings).toEqual([
      {
        row: 2,
        column: 'session',
        code: 'perhapsCountedTwice',
        detail: `Has the readings of submission ${id}, of the same day and setup. If it is the same flight, withdraw one of the two: it counts twice.`,
      },
    ])
  })

  it.each([
    ['another day', { flown_on: '2026-05-16' }],
    ['other readings', { duration_s: 56 }],
  ])('is not found on %s', async (_, cells) => {
    await post(pilot, climbs(55))
    const { body } = await bring(pilot, row(CLIMB, cells)).expect(201)
    expect(body.warnings).toEqual([])
  })

  it('is taken and told when it is posted once more by the same account', async () => {
    const { id } = await post(pilot, climbs(55, 57))
    const { warnings } = await post(pilot, climbs(57, 55))
    expect(warnings).toMatchObject([{ pointer: '/entries/0', code: 'perhapsCountedTwice' }])
    expect(warnings[0].detail).toContain(`You posted the same readings`)
    expect(warnings[0].detail).toContain(`as submission ${id}`)
  })

  it('is another one with other readings, and by another account', async () => {
    await post(pilot, climbs(55, 57))
    expect((await post(pilot, climbs(55, 58))).warnings).toEqual([])
    expect((await post(club, climbs(55, 57))).warnings).toEqual([])
  })

  it('may come in once it is withdrawn', async () => {
    const { id } = await post(pilot, climbs(55))
    await desk.request
      .delete(`/v1/submissions/${id}`)
      .auth(pilot.token, { type: 'bearer' })
      .expect(204)
    await bring(pilot, row(CLIMB)).expect(201)
  })

  it('is found under what a merged setup became', async () => {
    await post(pilot, climbs(55))
    const survivor = await desk.setup()
    await desk.db.pool.query('UPDATE setup SET merged_into_id = $2 WHERE id = $1', [
      setupId,
      survivor,
    ])
    await bring(pilot, row(CLIMB, { setup_id: survivor })).expect(422)
  })
})

describe('a flight that stands in the file twice', () => {
  it('is refused, unless as two runs of one session', async () => {
    const again = row(CLIMB, { session: `Later ${tests}` })
    const { body } = await bring(pilot, row(CLIMB), again).expect(422)
    expect(faultsOf(body)).toEqual([
      '3 session: Is the flight of row 2 once more: the same day, setup, mass, air and readings. It would count twice: leave it out, or put two runs of one evening into one session.',
    ])
    await bring(pilot, row(CLIMB), row(CLIMB)).expect(201)
  })

  it('by two pilots is taken and told', async () => {
    const { body } = await bring(club, row(CLIMB), row(CLIMB, { pilot: 'Rowan' })).expect(201)
    expect(body.warnings).toMatchObject([{ row: 3, code: 'perhapsCountedTwice' }])
  })
})

describe('a flight that a notebook brought in', () => {
  it('is told when its pilot posts it, with where it stands', async () => {
    const { body } = await bring(club, row(CLIMB)).expect(201)
    const [{ id }] = body.submissions
    const { warnings } = await post(pilot, climbs(55))
    expect(warnings).toMatchObject([{ pointer: '/entries/0', code: 'perhapsCountedTwice' }])
    expect(warnings[0].detail).toContain(`as submission ${id}`)
  })

  it('does not meet itself when it is corrected', async () => {
    const { body } = await bring(club, row(CLIMB)).expect(201)
    const { body: revised } = await desk.request
      .post(`/v1/submissions/${body.submissions[0].id}/revisions`)
      .auth(club.token, { type: 'bearer' })
      .send(scenarioA(setupId, climbs(55)))
      .expect(201)
    expect(revised.warnings).toEqual([])
  })
})
