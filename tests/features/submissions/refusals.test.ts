import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { NewSubmission } from '../../../src/features/submissions/schema.ts'
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

const UNKNOWN = '00000000-0000-4000-8000-000000000000'

/** A path into the body and what stands there instead; undefined removes it. */
type Change = readonly [path: string, value: unknown]

function changed(changes: readonly Change[]): object {
  const body = structuredClone(scenarioA(setupId, [CLIMB, FUEL_BURN])) as NewSubmission
  for (const [path, value] of changes) {
    const keys = path.split('/').slice(1)
    const last = keys.pop()!
    let parent = body as unknown as Record<string, unknown>
    for (const key of keys) parent = parent[key] as Record<string, unknown>
    if (value === undefined) delete parent[last]
    else parent[last] = value
  }
  return body
}

async function refusal(changes: readonly Change[]) {
  const { status, body } = await desk.request
    .post('/v1/submissions')
    .auth(pilot.token, { type: 'bearer' })
    .send(changed(changes))
  return { status, type: body.type, errors: body.errors as { pointer: string; detail: string }[] }
}

describe('a submission that does not match the schema', () => {
  const tomorrowButOne = new Date(Date.now() + 2 * 86_400_000).toISOString().slice(0, 10)

  it.each<[what: string, changes: Change[], pointer: string, detail: RegExp]>([
    ['a day to come', [['/flownOn', tomorrowButOne]], '/flownOn', /future/],
    ['a day that is none', [['/flownOn', '2026-02-30']], '/flownOn', /date/],
    ['the year zero', [['/flownOn', '0000-01-01']], '/flownOn', /before|date/],
    ['a field left out', [['/site/elevationM', undefined]], '/site/elevationM', /number/],
    ['a number as text', [['/pilot/massKg', '95']], '/pilot/massKg', /number/],
    ['NaN as text', [['/entries/0/allUpMassKg', 'NaN']], '/entries/0/allUpMassKg', /number/],
    ['an unknown field', [['/pilot/heightM', 1.8]], '/pilot', /heightM/],
    ['a name with NUL', [['/site/name', 'Lark\0field']], '/site/name', /NUL/],
    ['half a surrogate pair', [['/note', 'a \ud83e']], '/note', /Unicode/],
    ['a note too long', [['/note', 'a'.repeat(501)]], '/note', /500/],
    [
      'two pressures',
      [['/conditions/stationPressureHPa', 950]],
      '/conditions/stationPressureHPa',
      /not both/,
    ],
    ['no wing at all', [['/wing', {}]], '/wing/flatAreaM2', /id of a wing/],
    ['a wing twice', [['/wing/id', UNKNOWN]], '/wing/flatAreaM2', /beside id/],
    ['an interest unheard of', [['/interest', 'friend']], '/interest', /none/],
    ['no entries', [['/entries', []]], '/entries', />=1/],
    ['no runs', [['/entries/0/runs', []]], '/entries/0/runs', />=1/],
    ['too many runs', [['/entries/0/runs', Array(61).fill(CLIMB)]], '/entries/0/runs', /<=60/],
    ['an id that is none', [['/entries/0/setupId', 'mine']], '/entries/0/setupId', /UUID/],
    [
      'a kind not taken today',
      [['/entries/0/runs/1', { kind: 'loop', thrustN: 640 }]],
      '/entries/0/runs/1/kind',
      /climb, fuelBurn, energyUse, staticPull, soundLevel/,
    ],
    [
      'a run without kind',
      [['/entries/0/runs/1/kind', undefined]],
      '/entries/0/runs/1/kind',
      /taken/,
    ],
    [
      'a field of the other kind',
      [['/entries/0/runs/0/volumeMl', 500]],
      '/entries/0/runs/0',
      /volumeMl/,
    ],
    [
      'the uncertainty of what is no field',
      [['/entries/0/runs/0/uncertainty', { thrustN: 1 }]],
      '/entries/0/runs/0/uncertainty',
      /thrustN/,
    ],
    [
      'the uncertainty of what is not given',
      [['/entries/0/runs/0/uncertainty', { rpm: 50 }]],
      '/entries/0/runs/0/uncertainty/rpm',
      /not given/,
    ],
    [
      'no uncertainty',
      [['/entries/0/runs/0/uncertainty', { durationS: 0 }]],
      '/entries/0/runs/0/uncertainty/durationS',
      />0/,
    ],
    ['hours run backwards', [['/entries/0/engineHours', -1]], '/entries/0/engineHours', />=0/],
  ])('is refused with 400 for %s', async (_, changes, pointer, detail) => {
    const { status, type, errors } = await refusal(changes)
    expect({ status, type }).toEqual({ status: 400, type: '/problems/invalid-request' })
    const found = errors.find((error) => error.pointer === pointer)
    expect(found?.detail, JSON.stringify(errors)).toMatch(detail)
  })

  it('is refused for a set-up named twice, in whatever case', async () => {
    const twin = { ...scenarioA(setupId.toUpperCase()).entries[0] }
    const { status, errors } = await refusal([['/entries/1', twin]])
    expect(status).toBe(400)
    expect(errors).toEqual([
      { pointer: '/entries/1/setupId', detail: 'Same set-up as entry 0; put its runs there' },
    ])
  })

  it('tells all faults at once', async () => {
    const { errors } = await refusal([
      ['/site/elevationM', 'high'],
      ['/entries/0/runs/1/volumeMl', null],
    ])
    expect(errors.map((error) => error.pointer)).toEqual([
      '/site/elevationM',
      '/entries/0/runs/1/volumeMl',
    ])
  })

  it('is refused as a text that is no JSON, as another type and as too large', async () => {
    const send = (type: string, text: string) =>
      desk.request
        .post('/v1/submissions')
        .auth(pilot.token, { type: 'bearer' })
        .set('content-type', type)
        .send(text)
    await send('application/json', '{"flownOn":').expect(400)
    await send('application/json', '').expect(400)
    await send('application/json', '{"__proto__":{}}').expect(400)
    await send('application/xml', '<submission/>').expect(415)
    await send('application/json', JSON.stringify({ note: 'a'.repeat(1_048_576) })).expect(413)
    await send('application/json', '['.repeat(200_000) + ']'.repeat(200_000)).expect(400)
    await send(
      'application/json',
      JSON.stringify(scenarioA(setupId)).replace(':600', ':1e999'),
    ).expect(400)
  })
})

describe('a submission that names what does not exist', () => {
  it.each<[what: string, changes: Change[], pointer: string]>([
    ['set-up', [['/entries/0/setupId', UNKNOWN]], '/entries/0/setupId'],
    ['wing', [['/wing', { id: UNKNOWN }]], '/wing/id'],
  ])('is refused with 422 for an unknown %s', async (_, changes, pointer) => {
    const { status, type, errors } = await refusal(changes)
    expect({ status, type }).toEqual({ status: 422, type: '/problems/unknown-reference' })
    expect(errors.map((error) => error.pointer)).toEqual([pointer])
  })

  it('is refused for a component that is no wing', async () => {
    const { rows } = await desk.db.pool.query(
      `SELECT id FROM component WHERE kind = 'frame' LIMIT 1`,
    )
    const { status, errors } = await refusal([['/wing', { id: rows[0].id }]])
    expect(status).toBe(422)
    expect(errors[0]!.pointer).toBe('/wing/id')
  })

  it('is refused for two set-ups that were merged into one', async () => {
    const merged = await desk.setup()
    await desk.db.pool.query('UPDATE setup SET merged_into_id = $2 WHERE id = $1', [
      merged,
      setupId,
    ])
    const { status, errors } = await refusal([['/entries/1', scenarioA(merged).entries[0]]])
    expect(status).toBe(400)
    expect(errors.map((error) => error.pointer)).toEqual(['/entries/1/setupId'])
  })
})

describe('a submission outside what the model is valid for', () => {
  it.each<[what: string, changes: Change[], pointer: string]>([
    ['temperature', [['/conditions/temperatureC', 77]], '/conditions/temperatureC'],
    ['pressure', [['/conditions/qnhHPa', 30.06]], '/conditions/qnhHPa'],
    ['humidity', [['/conditions/relativeHumidityPct', 101]], '/conditions/relativeHumidityPct'],
    ['elevation', [['/site/elevationM', 6000]], '/site/elevationM'],
    ['pilot', [['/pilot/massKg', 300]], '/pilot/massKg'],
    ['wing', [['/wing/flatAreaM2', 280]], '/wing/flatAreaM2'],
    ['glide ratio', [['/wing/glideRatio', 40]], '/wing/glideRatio'],
    ['trim speed', [['/wing/trimSpeedMps', 39]], '/wing/trimSpeedMps'],
    ['all-up mass', [['/entries/0/allUpMassKg', 700]], '/entries/0/allUpMassKg'],
    ['height gain', [['/entries/0/runs/0/heightGainM', 5]], '/entries/0/runs/0/heightGainM'],
    ['duration', [['/entries/0/runs/0/durationS', 4000]], '/entries/0/runs/0/durationS'],
    ['fuel', [['/entries/0/runs/1/volumeMl', 5]], '/entries/0/runs/1/volumeMl'],
    ['engine speed', [['/entries/0/runs/1/rpm', 57]], '/entries/0/runs/1/rpm'],
  ])('is refused with 422 for its %s', async (_, changes, pointer) => {
    const { status, type, errors } = await refusal(changes)
    expect({ status, type }).toEqual({ status: 422, type: '/problems/outside-model-range' })
    expect(errors.map((error) => error.pointer)).toContain(pointer)
  })

  it('is refused for fuel burned by an electric drive', async () => {
    const electric = await desk.setup({ drive: 'electric' })
    const { status, errors } = await refusal([['/entries/0/setupId', electric]])
    expect(status).toBe(422)
    expect(errors.map((error) => error.pointer)).toEqual(['/entries/0/runs/1/kind'])
  })

  it('points at what the body says, not at what the catalogue knows', async () => {
    const tiny = await desk.setup({ propellerDiameterCm: 12 })
    const { rows } = await desk.db.pool.query(
      `INSERT INTO component (kind, maker, model, flat_area_m2) VALUES ('wing', 'Invented', 'Tent', 90) RETURNING id`,
    )
    const { status, errors } = await refusal([
      ['/entries/0/setupId', tiny],
      ['/wing', { id: rows[0].id }],
    ])
    expect(status).toBe(422)
    const pointers = errors.map((error) => error.pointer)
    expect(pointers).toContain('/entries/0/setupId')
    expect(pointers).toContain('/wing/id')
  })

  it('names the likely unit where a value looks like a unit mistake', async () => {
    const { errors } = await refusal([['/conditions/temperatureC', 77]])
    expect(errors[0]!.detail).toMatch(/°F|Fahrenheit/)
  })

  it('is refused, not answered with nonsense, for uncertainties beyond reason', async () => {
    const { status, errors } = await refusal([
      ['/entries/0/runs/0/uncertainty', { heightGainM: 1e308 }],
    ])
    expect(status).toBe(422)
    expect(errors[0]!.pointer).toMatch(/^\/entries\/0\/runs\/0/)
  })
})

describe('a submission by nobody', () => {
  it('is refused with 401, whatever it says', async () => {
    await desk.request.post('/v1/submissions').send(scenarioA(setupId)).expect(401)
    await desk.request.post('/v1/submissions').send({}).expect(401)
    await desk.request
      .post('/v1/submissions')
      .auth('nonsense', { type: 'bearer' })
      .send(scenarioA(setupId))
      .expect(401)
  })
})
