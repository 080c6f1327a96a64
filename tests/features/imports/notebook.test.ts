import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { type Desk, scenarioA, startDesk } from '../submissions/desk.ts'
import {
  type Cells,
  CLIMB,
  csvOf,
  EVENING,
  STATIC_PULL,
  sendCsv,
  TIP_CLEARANCE,
} from './notebook-file.ts'

let desk: Desk
let setupId: string

beforeAll(async () => {
  desk = await startDesk()
  setupId = await desk.setup()
})
afterAll(() => desk.close())

const row = (...cells: Cells[]): Cells => Object.assign({ setup_id: setupId }, EVENING, ...cells)

const read = async (token: string, id: string) => {
  const answer = await desk.request
    .get(`/v1/submissions/${id}`)
    .set('authorization', `Bearer ${token}`)
    .expect(200)
  return answer.body
}

describe('a notebook', () => {
  it('gives the very results that the same sessions give when they are posted', async () => {
    const pilot = await desk.signUp()
    const posted = await desk.request
      .post('/v1/submissions')
      .set('authorization', `Bearer ${pilot.token}`)
      .send(scenarioA(setupId))
      .expect(201)
    const club = await desk.signUp()
    const { body } = await sendCsv(desk, csvOf([row(CLIMB)]), club).expect(201)
    expect(body).toMatchObject({ kind: 'notebook', rows: 1, sessions: 1, pilots: 1 })

    const imported = await read(club.token, body.submissions[0].id)
    expect(imported.entries).toEqual(posted.body.entries)
    expect(imported.warnings).toEqual(posted.body.warnings)
    expect(imported).toMatchObject({
      importId: body.id,
      site: { name: 'Larkfield', elevationM: 600 },
    })
  })

  it('keeps sessions, setups and runs together, wherever their rows stand', async () => {
    const pilot = await desk.signUp()
    const other = await desk.setup()
    const { body } = await sendCsv(
      desk,
      csvOf([
        row(CLIMB),
        row(STATIC_PULL, { session: 'Evening 2', flown_on: '2026-05-18' }),
        { session: 'Evening 1', setup_id: other, all_up_mass_kg: 130, ...CLIMB, duration_s: 60 },
        { session: 'Evening 1', setup_id: setupId, ...CLIMB, duration_s: 56 },
      ]),
      pilot,
    ).expect(201)
    expect(body.submissions.map(({ row: first }: { row: number }) => first)).toEqual([2, 3])
    const evening = await read(pilot.token, body.submissions[0].id)
    expect(evening.entries).toMatchObject([
      { setupId, allUpMassKg: 135, runs: [{ durationS: 55 }, { durationS: 56 }] },
      { setupId: other, allUpMassKg: 130, runs: [{ durationS: 60 }] },
    ])
  })

  it('takes semicolons with a decimal comma, a byte order mark, dotted days and LF alone', async () => {
    const pilot = await desk.signUp()
    const german = csvOf([row(CLIMB, { duration_s: 55.5, flown_on: '7.5.2026' })], ';')
    expect(german).toContain('55,5')
    const text = `\uFEFF${german.replaceAll('\r\n', '\n')}`
    const { body } = await sendCsv(desk, text, pilot).expect(201)
    const { flownOn, entries } = await read(pilot.token, body.submissions[0].id)
    expect(flownOn).toBe('2026-05-07')
    expect(entries[0].runs[0].durationS).toBe(55.5)
  })

  it('takes a first line that tells a spreadsheet the delimiter, and does not count it', async () => {
    const pilot = await desk.signUp()
    const german = csvOf(
      [row(CLIMB, { duration_s: 55.5 }), row(CLIMB, { duration_s: '56.5' })],
      ';',
    )
    const { body } = await sendCsv(desk, `\uFEFFsep=;\r\n${german}`, pilot).expect(422)
    expect(body.errors).toMatchObject([{ row: 3, column: 'duration_s' }])
    await sendCsv(desk, `SEP=;\n${german.replace('56.5', '56,5')}`, pilot).expect(201)
  })

  it('passes over blank rows, and over columns that have neither a name nor a cell', async () => {
    const pilot = await desk.signUp()
    const [header, first] = csvOf([row(CLIMB)])
      .trim()
      .split('\r\n')
    const width = header!.split(',').length
    const text = [`${header},,`, ','.repeat(width + 1), `${first},,`, '', ''].join('\r\n')
    const { body } = await sendCsv(desk, text, pilot).expect(201)
    expect(body.submissions).toMatchObject([{ row: 3 }])
  })

  it('undoes the apostrophe that keeps spreadsheets from running a cell, and reads quoted cells', async () => {
    const pilot = await desk.signUp()
    const note = 'first line,\n"second" line'
    const { body } = await sendCsv(
      desk,
      csvOf([row(CLIMB, { site_name: "'=Larkfield", note })]),
      pilot,
    ).expect(201)
    const submission = await read(pilot.token, body.submissions[0].id)
    expect(submission.site.name).toBe('=Larkfield')
    expect(submission.note).toBe(note)
  })

  it('names a setup by its parts, whatever the case of the letters', async () => {
    const pilot = await desk.signUp()
    const { rows } = await desk.db.pool.query(
      `SELECT p.model AS engine, q.model AS propeller, f.model AS frame
         FROM setup JOIN component p ON p.id = powerplant_id JOIN component q ON q.id = propeller_id
         JOIN component f ON f.id = frame_id WHERE setup.id = $1`,
      [setupId],
    )
    const { engine, propeller, frame } = rows[0]
    const { setup_id: _, ...cells } = row(CLIMB)
    const named = {
      powerplant_maker: 'invented',
      powerplant_model: engine.toUpperCase(),
      propeller_maker: 'Invented',
      propeller_model: propeller,
      frame_maker: 'Invented',
      frame_model: frame,
    }
    const { body } = await sendCsv(desk, csvOf([{ ...cells, ...named }]), pilot).expect(201)
    const { entries } = await read(pilot.token, body.submissions[0].id)
    expect(entries[0].setupId).toBe(setupId)
  })

  it('reads legs of a level run, in columns that are numbered', async () => {
    const pilot = await desk.signUp()
    const level = {
      kind: 'levelSpeed',
      ...{ legs_1_track_deg: 12, legs_1_ground_speed_mps: 12.1 },
      ...{ legs_2_track_deg: 131, legs_2_ground_speed_mps: 10.4 },
      ...{ legs_3_track_deg: 250, legs_3_ground_speed_mps: 12.9 },
      legs_3_ground_speed_mps_uncertainty: 0.2,
      at_trim: 'TRUE',
    }
    const { body } = await sendCsv(desk, csvOf([row(level)]), pilot).expect(201)
    const { entries } = await read(pilot.token, body.submissions[0].id)
    expect(entries[0].runs[0]).toMatchObject({
      atTrim: true,
      legs: [
        { trackDeg: 12 },
        { trackDeg: 131 },
        { trackDeg: 250, groundSpeedMps: 12.9, uncertainty: { groundSpeedMps: 0.2 } },
      ],
    })
  })

  it('reports what is doubtful with row and column, and takes it', async () => {
    const pilot = await desk.signUp()
    const close = { kind: 'tipClearance', staticClearanceMm: 28, loadedClearanceMm: 12 } as const
    const posted = await desk.request
      .post('/v1/normalizations')
      .send(scenarioA(setupId, [{ ...close, contactSeen: false }]))
    const told: { code: string; detail: string }[] = posted.body.entries[0].runs[0].warnings
    const alone = { setup_id: await desk.setup() }
    const rows = [row(CLIMB, alone), row(TIP_CLEARANCE, alone, { loaded_clearance_mm: 12 })]
    const { body } = await sendCsv(desk, csvOf(rows), pilot).expect(201)
    expect(body.warnings).toEqual(
      told.map(({ code, detail }) => ({ row: 3, column: expect.any(String), code, detail })),
    )
    expect(body.warnings[0].column).toBe('loaded_clearance_mm')
  })

  it('grounds a setup whose propeller touched, and says so', async () => {
    const pilot = await desk.signUp()
    const touched = await desk.setup()
    const contact = row(TIP_CLEARANCE, { setup_id: touched, contact_seen: true })
    const { body } = await sendCsv(desk, csvOf([contact]), pilot).expect(201)
    expect(body.cautions[0]).toContain(`Do not fly set-up ${touched}`)
    const setup = await desk.request.get(`/v1/setups/${touched}`).expect(200)
    expect(setup.body.safety.state).toBe('doNotFly')
  })
})

describe('pilots of a notebook', () => {
  const rows = () => [
    row(CLIMB),
    row(CLIMB, { pilot: 'Rowan', duration_s: 57 }),
    row(CLIMB, { pilot: 'rowan', session: 'Evening 2', duration_s: 58 }),
    row(CLIMB, { pilot: 'Linnet', duration_s: 59 }),
  ]

  it('stay apart in the statistics, each under a pseudonym of the account', async () => {
    const club = await desk.signUp()
    const { body } = await sendCsv(desk, csvOf(rows()), club).expect(201)
    expect(body).toMatchObject({ sessions: 4, pilots: 3 })
    const guests = await Promise.all(
      body.submissions.map(
        async ({ id }: { id: string }) => (await read(club.token, id)).guestPilotId,
      ),
    )
    expect(guests[0]).toBeUndefined()
    expect(guests[1]).toBe(guests[2])
    expect(new Set(guests).size).toBe(3)

    const grown = [...rows(), row(CLIMB, { pilot: 'ROWAN', session: 'Evening 3', duration_s: 60 })]
    const second = await sendCsv(desk, csvOf(grown), club).expect(201)
    const [added] = second.body.submissions
    expect((await read(club.token, added.id)).guestPilotId).toBe(guests[1])
  })

  it('are kept without their labels, and closing the account cuts the last link', async () => {
    const club = await desk.signUp()
    const { body } = await sendCsv(desk, csvOf(rows()), club).expect(201)
    const everything = await desk.request
      .get('/v1/me/export')
      .set('authorization', `Bearer ${club.token}`)
      .expect(200)
    expect(everything.body.imports).toMatchObject([{ id: body.id, kind: 'notebook' }])
    expect(everything.body.submissions).toHaveLength(4)
    expect(JSON.stringify(everything.body)).not.toMatch(/rowan/i)

    await desk.request.delete('/v1/me').set('authorization', `Bearer ${club.token}`).expect(204)
    const { rows: guests } = await desk.db.pool.query(
      'SELECT label_hash FROM guest_pilot WHERE account_id = $1',
      [club.accountId],
    )
    expect(guests).toEqual([{ label_hash: null }, { label_hash: null }])
  })

  it('are pilots of their own in a fit', async () => {
    const club = await desk.signUp()
    const fresh = await desk.setup()
    const flown = rows().map((cells) => ({ ...cells, setup_id: fresh }))
    await sendCsv(desk, csvOf(flown), club).expect(201)
    await desk.app.fits.publish()
    const { body } = await desk.request
      .get(`/v1/comparisons?metric=climbRate&setups=${fresh},${setupId}`)
      .expect(200)
    const shown = body.setups.find((setup: { setupId: string }) => setup.setupId === fresh)
    expect(shown.evidence).toMatchObject({ sessions: 4, pilots: 3, runs: 4 })
  })
})
