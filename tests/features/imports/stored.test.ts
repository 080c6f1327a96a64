import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { rawFieldsOf } from '../../../src/features/datasets/tables/raw-fields.ts'
import { notebookColumns } from '../../../src/features/imports/notebook/columns.ts'
import { NewRun } from '../../../src/features/submissions/run-kinds.ts'
import { NewSubmission } from '../../../src/features/submissions/schema.ts'
import { type Desk, type Pilot, startDesk } from '../submissions/desk.ts'
import { type Cells, CLIMB, csvOf, EVENING, sendCsv } from './notebook-file.ts'

let desk: Desk
let setupId: string

beforeAll(async () => {
  desk = await startDesk()
  setupId = await desk.setup()
})
afterAll(() => desk.close())

const row = (...cells: Cells[]): Cells => Object.assign({ setup_id: setupId }, EVENING, ...cells)
const as = ({ token }: Pilot) => ({ authorization: `Bearer ${token}` })

const own = async (pilot: Pilot) =>
  (await desk.request.get('/v1/submissions?mine=true').set(as(pilot)).expect(200)).body.items

describe('the same again', () => {
  it('of a file gives the import it made, and adds nothing', async () => {
    const pilot = await desk.signUp()
    const csv = csvOf([row(CLIMB)])
    const first = await sendCsv(desk, csv, pilot).expect(201)
    const second = await sendCsv(desk, csv, pilot).expect(200)
    expect(second.body).toEqual(first.body)
    expect(second.headers.location).toBe(`/v1/imports/${first.body.id}`)
    expect(await own(pilot)).toHaveLength(1)
  })

  it('under a key replays the first answer; another file under it is refused', async () => {
    const pilot = await desk.signUp()
    const csv = csvOf([row(CLIMB)])
    const first = await sendCsv(desk, csv, { ...pilot, key: 'one' }).expect(201)
    const second = await sendCsv(desk, csv, { ...pilot, key: 'one' }).expect(201)
    expect(second.body).toEqual(first.body)
    const other = csvOf([row(CLIMB, { session: 'Evening 2' })])
    const { body } = await sendCsv(desk, other, { ...pilot, key: 'one' }).expect(422)
    expect(body.type).toBe('/problems/idempotency-key-reused')
  })

  it('sent twice at once is taken once', async () => {
    const pilot = await desk.signUp()
    const csv = csvOf([row(CLIMB)])
    const answers = await Promise.all([1, 2, 3].map(() => sendCsv(desk, csv, pilot)))
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 200, 201])
    expect(await own(pilot)).toHaveLength(1)
  })

  it('of a notebook that grew adds the sessions that are new', async () => {
    const pilot = await desk.signUp()
    await sendCsv(desk, csvOf([row(CLIMB)]), pilot).expect(201)
    const grown = csvOf([row(CLIMB), row(CLIMB, { session: 'Evening 2', duration_s: 57 })])
    const { body } = await sendCsv(desk, grown, pilot).expect(201)
    expect(body).toMatchObject({ rows: 2, sessions: 1, sessionsKnown: 1 })
    expect(await own(pilot)).toHaveLength(2)
  })
})

describe('what came in', () => {
  it('is listed for its owner, read by moderators and unknown to others', async () => {
    const pilot = await desk.signUp()
    const { body } = await sendCsv(desk, csvOf([row(CLIMB)]), pilot).expect(201)
    const list = await desk.request.get('/v1/imports').set(as(pilot)).expect(200)
    expect(list.body).toEqual({ items: [body], nextCursor: null })
    expect(body.files).toMatchObject([
      { part: 'notebook', sha256: expect.stringMatching(/^[0-9a-f]{64}$/) },
    ])

    const moderator = await desk.signUp('moderator')
    await desk.request.get(`/v1/imports/${body.id}`).set(as(moderator)).expect(200)
    const other = await desk.signUp()
    await desk.request.get(`/v1/imports/${body.id}`).set(as(other)).expect(404)
    await desk.request.delete(`/v1/imports/${body.id}`).set(as(other)).expect(404)
    const others = await desk.request.get('/v1/imports').set(as(other)).expect(200)
    expect(others.body.items).toEqual([])
    const everybody = await desk.request
      .get(`/v1/submissions/${body.submissions[0].id}`)
      .expect(200)
    expect(everybody.body).not.toHaveProperty('importId')
  })

  it('comes in pages', async () => {
    const pilot = await desk.signUp()
    for (const [index, session] of ['A', 'B', 'C'].entries()) {
      const cells = row(CLIMB, { session, duration_s: 55 + index })
      await sendCsv(desk, csvOf([cells]), pilot).expect(201)
    }
    const first = await desk.request.get('/v1/imports?limit=2').set(as(pilot)).expect(200)
    const { nextCursor } = first.body
    const rest = await desk.request
      .get(`/v1/imports?limit=2&cursor=${nextCursor}`)
      .set(as(pilot))
      .expect(200)
    expect([first.body.items.length, rest.body.items.length]).toEqual([2, 1])
    expect(rest.body.nextCursor).toBeNull()
    await desk.request.get('/v1/imports?cursor=abc').set(as(pilot)).expect(400)
  })

  it('is withdrawn as a whole, and may come again', async () => {
    const pilot = await desk.signUp()
    const csv = csvOf([row(CLIMB), row(CLIMB, { session: 'Evening 2', duration_s: 57 })])
    const { body } = await sendCsv(desk, csv, pilot).expect(201)
    await desk.request.delete(`/v1/imports/${body.id}`).set(as(pilot)).expect(204)
    await desk.request.delete(`/v1/imports/${body.id}`).set(as(pilot)).expect(204)
    for (const submission of await own(pilot)) expect(submission.withdrawnAt).not.toBeNull()
    const again = await sendCsv(desk, csv, pilot).expect(201)
    expect(again.body.sessions).toBe(2)
    expect(again.body.id).not.toBe(body.id)
  })

  it('stands in the audit trail', async () => {
    const pilot = await desk.signUp()
    const { body } = await sendCsv(desk, csvOf([row(CLIMB)]), pilot).expect(201)
    const moderator = await desk.signUp('moderator')
    const trail = await desk.request
      .get(`/v1/audit-events?subjectId=${body.id}`)
      .set(as(moderator))
      .expect(200)
    expect(trail.body.items).toMatchObject([
      { action: 'import.made', subjectKind: 'import', actorId: pilot.accountId },
    ])
  })

  it('is corrected like any submission, and keeps its pilot', async () => {
    const club = await desk.signUp()
    const made = await sendCsv(desk, csvOf([row(CLIMB, { pilot: 'Rowan' })]), club).expect(201)
    const { id } = made.body.submissions[0]
    const { rows } = await desk.db.pool.query(
      'SELECT body FROM submission_revision WHERE submission_id = $1',
      [id],
    )
    const corrected = { ...rows[0].body, note: 'stopwatch read again' }
    await desk.request
      .post(`/v1/submissions/${id}/revisions`)
      .set(as(club))
      .send(corrected)
      .expect(201)
    const shown = await desk.request.get(`/v1/submissions/${id}`).set(as(club)).expect(200)
    expect(shown.body).toMatchObject({
      revision: 2,
      importId: made.body.id,
      guestPilotId: expect.any(String),
    })
  })
})

describe('the columns', () => {
  it('of runs are those of the dataset, and every field of a submission has one', () => {
    const columns = notebookColumns(NewSubmission)
    const names = columns.map(({ name }) => name)
    for (const { column, itemNumbers } of rawFieldsOf(NewRun)) {
      if (itemNumbers === null) expect(names).toContain(column.name)
      else expect(names).toContain(`${column.name}_1_track_deg`)
    }
    expect(names.filter((name) => name.startsWith('legs_12_'))).toHaveLength(4)
    expect(columns.find(({ name }) => name === 'duration_s')?.kinds).toEqual([
      'climb',
      'fuelBurn',
      'energyUse',
      'sink',
    ])
  })

  it('are told, and a blank notebook has the common ones', async () => {
    const { body } = await desk.request.get('/v1/imports/columns').expect(200)
    const common = body.items.filter(({ common: is }: { common: boolean }) => is)
    const { text, headers } = await desk.request.get('/v1/imports/template.csv').expect(200)
    expect(headers['content-type']).toContain('text/csv')
    expect(text).toBe(`\uFEFF${common.map(({ name }: { name: string }) => name).join(',')}\r\n`)
    const german = await desk.request
      .get('/v1/imports/template.csv?delimiter=semicolon')
      .expect(200)
    expect(german.text.split(';')).toHaveLength(common.length)
  })

  it('of the template are all that a notebook needs', async () => {
    const pilot = await desk.signUp()
    const { text } = await desk.request.get('/v1/imports/template.csv?delimiter=semicolon')
    const cells = row(CLIMB)
    const filled = text
      .trim()
      .split(';')
      .map((name) => String(cells[name.replace('\uFEFF', '')] ?? '').replace('.', ','))
    await sendCsv(desk, `${text}${filled.join(';')}`, pilot).expect(201)
  })
})
