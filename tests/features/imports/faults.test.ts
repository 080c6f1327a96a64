import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { type Desk, type Pilot, startDesk } from '../submissions/desk.ts'
import {
  type Cells,
  CLIMB,
  csvOf,
  EVENING,
  faultsOf,
  STATIC_PULL,
  sendCsv,
} from './notebook-file.ts'

let desk: Desk
let pilot: Pilot
let setupId: string

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
  setupId = await desk.setup()
})
afterAll(() => desk.close())

const row = (...cells: Cells[]): Cells => Object.assign({ setup_id: setupId }, EVENING, ...cells)

async function refused(csv: string | Buffer, status = 422) {
  const { body, headers } = await sendCsv(desk, csv, pilot).expect(status)
  expect(headers['content-type']).toContain('application/problem+json')
  return body
}

const faults = async (csv: string | Buffer) => faultsOf(await refused(csv))

const counts = async () => {
  const { rows } = await desk.db.pool.query(
    `SELECT (SELECT count(*) FROM submission) AS submissions, (SELECT count(*) FROM run) AS runs,
            (SELECT count(*) FROM data_import) AS imports, (SELECT count(*) FROM guest_pilot) AS pilots,
            (SELECT count(*) FROM report) AS reports`,
  )
  return rows[0]
}

describe('a cell', () => {
  it.each([
    ['duration_s', '55 s', '"55 s" is not a number; write the number in s alone.'],
    ['duration_s', '1:15', '"1:15" looks like minutes and seconds; in s that is 75.'],
    ['duration_s', '1:15.5', '"1:15.5" looks like minutes and seconds; in s that is 75.5.'],
    ['conditions_qnh_hpa', '1:15', '"1:15" is not a number; write the number in hPa alone.'],
    ['duration_s', '1,055.5', '"1,055.5" has signs between its thousands; write 1055.5.'],
    ['duration_s', '1e999', '"1e999" is too large.'],
    [
      'duration_s',
      '55,5',
      '"55,5": in a file separated by commas the decimal sign is a point; a number with a comma is taken where semicolons separate the cells.',
    ],
    ['flown_on', '05/17/2026', '"05/17/2026" is not a day; write it as 2026-05-17.'],
    ['flown_on', '2026-02-30', 'Invalid ISO date'],
    ['flown_on', '2099-01-01', 'Must not lie in the future'],
    [
      'height_source',
      'altimeter',
      'Takes barometric, barometricTemperatureCompensated, gnss, unknown.',
    ],
    ['interest', 'some', 'Takes none, dealer, maker, sponsored.'],
    ['height_gain_m', '', 'Is needed.'],
    ['interest', '', 'Is needed: none, dealer, maker, sponsored.'],
    ['session', '', 'Is needed: which session the run belongs to.'],
    ['setup_id', 'no id', 'Invalid UUID'],
    ['wing_flat_area_m2', '', 'Give wing_flat_area_m2, or the id of a wing'],
  ])('%s that reads %j is told with row and column', async (column, text, detail) => {
    const cells = { ...row(CLIMB), [column]: text }
    const found = await faults(csvOf([row(CLIMB, { session: 'Evening 0' }), cells]))
    expect(found).toContain(`3 ${column}: ${detail}`)
  })

  it('with a decimal point in a file of decimal commas is told', async () => {
    const csv = csvOf([row(CLIMB, { duration_s: '55.5' })], ';')
    expect(await faults(csv)).toEqual([
      '2 duration_s: "55.5": in a file separated by semicolons the decimal sign is a comma.',
    ])
  })

  it('with signs between its thousands in a file of decimal commas is told', async () => {
    const csv = csvOf([row(CLIMB, { conditions_qnh_hpa: '1.018,5' })], ';')
    expect(await faults(csv)).toEqual([
      '2 conditions_qnh_hpa: "1.018,5" has signs between its thousands; write 1018,5.',
    ])
  })

  it('that looks like another unit gets the hint that a posted one gets', async () => {
    const found = await faults(csvOf([row(CLIMB, { conditions_qnh_hpa: 30.06 })]))
    expect(found.join()).toMatch(/^2 conditions_qnh_hpa: .*inches of mercury/)
  })

  it('of another kind of run must be empty', async () => {
    const found = await faults(csvOf([row(CLIMB, { thrust_n: 600 })]))
    expect(found).toEqual(['2 thrust_n: Does not belong to a run of this kind; leave it empty.'])
  })

  it('of a kind that is not known names those that are', async () => {
    const [found] = await faults(csvOf([row({ kind: 'dive' })]))
    expect(found).toMatch(/^2 kind: Kinds of run taken today: climb, /)
  })

  it('that no setup is behind is told once, also for a wing', async () => {
    const nobody = '00000000-0000-4000-8000-000000000000'
    expect(await faults(csvOf([row(CLIMB, { setup_id: nobody })]))).toEqual([
      `2 setup_id: There is no set-up ${nobody}.`,
    ])
    const {
      wing_flat_area_m2: _a,
      wing_glide_ratio: _g,
      wing_glide_source: _s,
      ...rest
    } = row(CLIMB)
    const { wing_trim_speed_mps: _t, wing_trim_at_all_up_mass_kg: _m, ...cells } = rest
    expect(await faults(csvOf([{ ...cells, wing_id: nobody }]))).toEqual([
      `2 wing_id: There is no wing ${nobody}.`,
    ])
  })
})

describe('parts of a setup', () => {
  const named = (model: string) => {
    const { setup_id: _, ...cells } = row(CLIMB)
    return {
      ...cells,
      powerplant_maker: 'Ostrava',
      powerplant_model: model,
      propeller_maker: 'Invented',
      propeller_model: 'twin',
      frame_maker: 'Invented',
      frame_model: 'lone',
    }
  }

  it('that the catalogue does not know, knows twice or never saw together are told', async () => {
    await desk.db.pool.query(`
      INSERT INTO component (kind, maker, model, diameter_cm) VALUES
        ('propeller', 'Invented', 'twin', 125), ('propeller', 'Invented', 'twin', 130),
        ('propeller', 'Invented', 'single', 120);
      INSERT INTO component (kind, maker, model, drive) VALUES ('powerplant', 'Invented', 'lone', 'twoStroke');
      INSERT INTO component (kind, maker, model) VALUES ('frame', 'Invented', 'lone');`)
    expect(await faults(csvOf([named('none')]))).toEqual([
      '2 powerplant_model: The catalogue has no powerplant Ostrava none; add it with POST /v1/components.',
      '2 propeller_model: The catalogue has 2 of kind propeller named Invented twin; give setup_id, from GET /v1/setups.',
    ])
    const apart = { ...named('lone'), powerplant_maker: 'Invented', propeller_model: 'single' }
    expect(await faults(csvOf([apart]))).toEqual([
      '2 powerplant_model: No setup is made of these three parts; add it with POST /v1/setups.',
    ])
    expect(await faults(csvOf([{ ...apart, frame_maker: '' }]))).toEqual([
      '2 frame_maker: Is needed where a setup is named by its parts.',
    ])
  })
})

describe('a session', () => {
  it('has one place, air and wing for all its rows', async () => {
    const found = await faults(
      csvOf([
        row(CLIMB),
        row(CLIMB, { site_elevation_m: 700 }),
        row(CLIMB, { all_up_mass_kg: 120, duration_s: 56 }),
      ]),
    )
    expect(found).toEqual([
      '3 site_elevation_m: 700 here, but 600 in row 2 of session Evening 1: it is one for all its rows.',
      '4 all_up_mass_kg: 120 here, but 135 in row 2 of this setup in session Evening 1: it is one for all its rows.',
    ])
  })

  it('numbers the legs of a level run without gaps', async () => {
    const legs = { kind: 'levelSpeed', legs_1_track_deg: 12, legs_3_track_deg: 250 }
    const found = await faults(csvOf([row(legs)]))
    expect(found).toContain('2 legs_2: legs are numbered without gaps.')
  })

  it('that came before with other values is told, with where it stands', async () => {
    const club = await desk.signUp()
    const first = await sendCsv(desk, csvOf([row(CLIMB)]), club).expect(201)
    const { body } = await sendCsv(desk, csvOf([row(CLIMB, { duration_s: 54 })]), club).expect(422)
    expect(faultsOf(body)).toEqual([
      `2 session: Session Evening 1 of that day came in before with other values, as submission ${first.body.submissions[0].id}: correct that one, or withdraw it first.`,
    ])
  })
})

describe('a file', () => {
  it.each([
    ['empty', '', '- -: The file is empty; its first row names the columns.'],
    ['with a header alone', 'session,kind\n', '1 flown_on: This column is needed and missing.'],
    [
      'without rows',
      csvOf([{ setup_id: '', ...EVENING, ...CLIMB }]).split('\r\n')[0]!,
      '2 -: The file has a header and no rows.',
    ],
    [
      'with an open quote',
      'session,kind\n"a,climb\n',
      '2 -: A quoted cell that begins here or later is not closed.',
    ],
    [
      'with a stray quote',
      'session,kind\na"b,climb\n',
      '2 -: A quote stands where none may: a cell that holds quotes is quoted, and its quotes are doubled.',
    ],
    [
      'with a row too wide',
      'session,kind\na,climb,3\n',
      '2 -: Has 3 cells, the header 2; a cell that holds the delimiter needs quotes.',
    ],
  ])('%s is told', async (_what, csv, expected) => {
    expect(await faults(csv)).toContain(expected)
  })

  it('that is not UTF-8 is told by row', async () => {
    const csv = csvOf([row(CLIMB), row(CLIMB, { site_name: 'Lärchenfeld' })])
    expect(await faults(Buffer.from(csv, 'latin1'))).toEqual([
      '3 -: Is not UTF-8; save the file as CSV in UTF-8.',
    ])
  })

  it('with unknown, repeated or missing columns is told, with what may have been meant', async () => {
    const csv = csvOf([row(CLIMB)])
      .replace('height_gain_m', 'heightGainM')
      .replace('conditions_air_motion', 'air_motion')
      .replace('interest', 'session')
      .replace('duration_s', 'stopwatch')
    expect(await faults(csv)).toEqual([
      '1 air_motion: There is no such column; perhaps conditions_air_motion.',
      '1 heightgainm: There is no such column; perhaps height_gain_m.',
      '1 stopwatch: There is no such column; GET /v1/imports/columns lists them.',
      '1 session: There are two columns of that name.',
      '1 conditions_air_motion: This column is needed and missing.',
      '1 interest: This column is needed and missing.',
    ])
  })

  it('with more rows than are taken at once is refused, and so is one with too many bytes', async () => {
    const header = csvOf([row(CLIMB)]).split('\r\n')[0]!
    const long = await refused(`${header}\n${'a\n'.repeat(20_001)}`, 413)
    expect(long.detail).toContain('20001 rows; 20000 are taken at once')
    await refused(Buffer.alloc(33_554_433, 'a'), 413)
  })

  it('points at each fault, with row and column beside the pointer', async () => {
    const body = await refused(csvOf([row(CLIMB, { duration_s: 'x' })]))
    expect(body).toMatchObject({
      type: '/problems/faulty-file',
      detail: 'One fault. Nothing was imported.',
      errors: [{ pointer: '/2/duration_s', row: 2, column: 'duration_s' }],
    })
  })

  it('leaves nothing where its last row has a fault', async () => {
    const touched = await desk.setup()
    const before = await counts()
    const contact = { kind: 'tipClearance', static_clearance_mm: 28, contact_seen: 'true' }
    const rows = [
      row(CLIMB, { pilot: 'Rowan' }),
      row(contact, { setup_id: touched }),
      row(STATIC_PULL, { session: 'Evening 2', thrust_n: 'much' }),
    ]
    expect(await faults(csvOf(rows))).toHaveLength(1)
    expect(await counts()).toEqual(before)
  })

  it('lists a thousand faults at most, and says how many there are', async () => {
    const rows = Array.from({ length: 1100 }, (_, i) =>
      row(CLIMB, { session: `S${i}`, duration_s: 'x' }),
    )
    const body = await refused(csvOf(rows))
    expect(body.errors).toHaveLength(1000)
    expect(body.detail).toBe('1100 faults; the first 1000 are listed. Nothing was imported.')
  })
})

describe('who sends it', () => {
  it('needs an account, and a body that is CSV', async () => {
    await desk.request.post('/v1/imports').type('text/csv').send('a').expect(401)
    await sendCsv(desk, '{}', { ...pilot, type: 'application/json' }).expect(415)
    await sendCsv(desk, 'a', { ...pilot, type: 'text/plain' }).expect(415)
  })
})
