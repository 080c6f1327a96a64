import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { NewRun } from '../../../src/features/submissions/run-kinds.ts'
import {
  CLIMB,
  type Desk,
  LEVEL_SPEED as LEGS,
  type Pilot,
  SINK,
  scenarioA,
  startDesk,
} from './desk.ts'

let desk: Desk
let pilot: Pilot
let setupId: string

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
  setupId = await desk.setup()
})
afterAll(() => desk.close())

const SINKS = [SINK, { ...SINK, durationS: 61 }, { ...SINK, durationS: 59 }]

function submit(runs: NewRun[]) {
  return desk.request
    .post('/v1/submissions')
    .auth(pilot.token, { type: 'bearer' })
    .send(scenarioA(setupId, runs))
}

function normalize(runs: unknown[], query = '') {
  return desk.request.post(`/v1/normalizations${query}`).send(scenarioA(setupId, runs as NewRun[]))
}

describe('sink and level speed runs', () => {
  it('are stored with their results and serve the climbs of the session', async () => {
    const { body } = await submit([CLIMB, ...SINKS, LEGS]).expect(201)
    const [climb, sink, , , legs] = body.entries[0].runs
    expect(sink.normalized).toMatchObject({ metric: 'sinkRate', unit: 'm/s' })
    expect(sink.normalized.glideRatio).toBeGreaterThan(5)
    expect(sink.normalized.glideRatioStandardUncertainty).toBeGreaterThan(0)
    expect(legs.normalized).toMatchObject({ metric: 'levelSpeed', unit: 'm/s', atTrim: true })
    expect(legs.normalized.trueAirspeedMps).toBeGreaterThan(legs.normalized.value)
    expect(legs.normalized.windMps).toBeGreaterThan(0)
    expect(climb.warnings.map(({ code }: { code: string }) => code)).toEqual([
      'trimSpeedFromLegs',
      'glideFromSink',
    ])
    expect(body.warnings.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '/wing/trimSpeedMps',
      '/wing/glideRatio',
    ])
    const read = await desk.request
      .get(`/v1/submissions/${body.id}`)
      .auth(pilot.token, { type: 'bearer' })
      .expect(200)
    expect(read.body).toEqual(body)
  })

  it('are no evidence on the set-up', async () => {
    const { body } = await submit([CLIMB, SINK, LEGS]).expect(201)
    const { rows } = await desk.db.pool.query(
      `SELECT run.kind, result.quantity, result.log_value
         FROM run JOIN run_result result ON result.run_id = run.id
         JOIN submission_revision revision ON revision.id = run.revision_id
        WHERE revision.submission_id = $1 ORDER BY run.run_index`,
      [body.id],
    )
    expect(rows).toEqual([
      { kind: 'climb', quantity: 'inducedPower', log_value: expect.any(Number) },
      { kind: 'sink', quantity: null, log_value: null },
      { kind: 'levelSpeed', quantity: null, log_value: null },
    ])
  })

  it('do not lead others to the mass or the day by airspeed and wind', async () => {
    const { body } = await submit([SINK, LEGS]).expect(201)
    const seen = await desk.request.get(`/v1/submissions/${body.id}`).expect(200)
    const [sink, legs] = seen.body.entries[0].runs
    expect(sink.normalized.glideRatio).toBe(body.entries[0].runs[0].normalized.glideRatio)
    expect(legs.normalized.value).toBe(body.entries[0].runs[1].normalized.value)
    for (const field of ['trueAirspeedMps', 'windMps', 'windFromDeg']) {
      expect(legs.normalized).not.toHaveProperty(field)
    }
  })

  it('may state the uncertainty of any reading', async () => {
    const stated = {
      ...LEGS,
      uncertainty: { heightAboveSiteM: 20 },
      legs: LEGS.legs.map((leg) => ({
        ...leg,
        uncertainty: { groundSpeedMps: 1.5, trackDeg: 10 },
      })),
    }
    const { body } = await normalize([LEGS, stated]).expect(200)
    const [usual, unsure] = body.entries[0].runs
    expect(unsure.normalized.standardUncertainty).toBeGreaterThan(
      2 * usual.normalized.standardUncertainty,
    )
    expect(unsure.legs[0].uncertainty).toEqual({ groundSpeedMps: 1.5, trackDeg: 10 })
  })

  const legsWith = (...changes: object[]) => ({
    ...LEGS,
    legs: LEGS.legs.map((leg, index) => ({ ...leg, ...changes[index] })),
  })
  const tracks = (...given: number[]) => ({
    ...LEGS,
    legs: given.map((trackDeg, i) => ({ trackDeg, groundSpeedMps: 10 + 0.3 * i })),
  })
  const run = '/entries/0/runs/0'

  it.each<[what: string, given: object, pointer: string, detail: RegExp]>([
    [
      'height loss in centimetres',
      { ...SINK, heightLossM: 8000 },
      `${run}/heightLossM`,
      /Height loss/,
    ],
    ['time in minutes', { ...SINK, durationS: 1 }, `${run}/durationS`, /looks like minutes/],
    [
      'start height beyond the air',
      { ...SINK, startHeightAboveSiteM: 9000 },
      `${run}/startHeightAboveSiteM`,
      /must lie within/,
    ],
    [
      'a loss in feet',
      { ...SINK, heightLossM: 328, durationS: 60 },
      `${run}/heightLossM`,
      /looks like feet/,
    ],
    ['a sink rate of a stone', { ...SINK, heightLossM: 900 }, `${run}/heightLossM`, /No glide/],
    [
      'a glide that no wing has',
      { ...SINK, durationS: 130 },
      `${run}/heightLossM`,
      /Air that rose or sank/,
    ],
    [
      'an uncertainty of half the loss and more',
      { ...SINK, uncertainty: { heightLossM: 60 } },
      `${run}/uncertainty/heightLossM`,
      /standard uncertainty/,
    ],
    [
      'a ground speed in feet per minute',
      legsWith({ groundSpeedMps: 2000 }),
      `${run}/legs/0/groundSpeedMps`,
      /ft\/min/,
    ],
    [
      'a ground speed below 0',
      legsWith({}, { groundSpeedMps: -1 }),
      `${run}/legs/1/groundSpeedMps`,
      /must lie within/,
    ],
    [
      'a track beyond the circle',
      legsWith({}, {}, { trackDeg: 400 }),
      `${run}/legs/2/trackDeg`,
      /Track/,
    ],
    [
      'an uncertain leg beyond belief',
      legsWith({ uncertainty: { groundSpeedMps: 5 } }),
      `${run}/legs/0/uncertainty/groundSpeedMps`,
      /standard uncertainty/,
    ],
    ['legs there and back', tracks(10, 190, 10, 190), `${run}/legs`, /there and back/],
    ['legs nearly one way', tracks(10, 40, 70), `${run}/legs`, /60°/],
    [
      'speeds in km/h',
      legsWith(
        { groundSpeedMps: 12.1 * 3.6 },
        { groundSpeedMps: 10.4 * 3.6 },
        { groundSpeedMps: 12.9 * 3.6 },
      ),
      `${run}/legs/0/groundSpeedMps`,
      /km\/h: that would be 12.1 m\/s/,
    ],
    [
      'speeds in km/h that only an airspeed shows',
      legsWith({ groundSpeedMps: 36 }, { groundSpeedMps: 36 }, { groundSpeedMps: 36 }),
      `${run}/legs`,
      /km\/h: that would be 10/,
    ],
    [
      'more wind than airspeed',
      {
        ...LEGS,
        legs: [
          { trackDeg: 90, groundSpeedMps: 24 },
          { trackDeg: 60, groundSpeedMps: 17 },
          { trackDeg: 125, groundSpeedMps: 17 },
        ],
      },
      `${run}/legs`,
      /Wind over airspeed/,
    ],
    [
      'legs that no wind explains',
      {
        ...LEGS,
        legs: [0, 60, 120, 180, 240, 300].map((trackDeg, i) => ({
          trackDeg,
          groundSpeedMps: i % 2 === 0 ? 7 : 13,
        })),
      },
      `${run}/legs`,
      /Residual of the wind fit/,
    ],
    [
      'a height above the air',
      { ...LEGS, heightAboveSiteM: 9000 },
      `${run}/heightAboveSiteM`,
      /Height/,
    ],
  ])('are refused for %s', async (_, given, pointer, detail) => {
    const { status, body } = await normalize([given])
    expect(status).toBe(422)
    expect(body.type).toBe('/problems/outside-model-range')
    const error = body.errors.find((one: { pointer: string }) => one.pointer === pointer)
    expect(error?.detail).toMatch(detail)
  })

  it.each<[what: string, given: object, pointer: string, detail: RegExp]>([
    ['two legs', { ...LEGS, legs: LEGS.legs.slice(1) }, `${run}/legs`, />=3/],
    ['thirteen legs', { ...LEGS, legs: Array(13).fill(LEGS.legs[0]) }, `${run}/legs`, /<=12/],
    [
      'a leg without speed',
      legsWith({ groundSpeedMps: undefined }),
      `${run}/legs/0/groundSpeedMps`,
      /number/,
    ],
    ['an unknown field of a leg', legsWith({ windMps: 3 }), `${run}/legs/0`, /windMps/],
    [
      'the uncertainty of what a leg has not',
      legsWith({ uncertainty: { windMps: 1 } }),
      `${run}/legs/0/uncertainty`,
      /windMps/,
    ],
    ['an engine speed in a glide', { ...SINK, rpm: 2000 }, run, /rpm/],
    [
      'a height source unheard of',
      { ...SINK, heightSource: 'eye' },
      `${run}/heightSource`,
      /barometric/,
    ],
    ['no height loss', { ...SINK, heightLossM: undefined }, `${run}/heightLossM`, /number/],
  ])('do not match the schema with %s', async (_, given, pointer, detail) => {
    const { status, body } = await normalize([given])
    expect(status).toBe(400)
    const error = body.errors.find((one: { pointer: string }) => one.pointer === pointer)
    expect(error?.detail).toMatch(detail)
  })

  it.each<[what: string, given: object[], code: string, pointer: string]>([
    [
      'wind of much of the airspeed',
      [
        {
          ...LEGS,
          legs: [
            { trackDeg: 0, groundSpeedMps: 2.5 },
            { trackDeg: 142, groundSpeedMps: 15 },
            { trackDeg: 218, groundSpeedMps: 15 },
          ],
        },
      ],
      'unusual',
      `${run}/legs`,
    ],
    [
      'a glide that ends below the field',
      [{ ...SINK, startHeightAboveSiteM: 20 }],
      'endsBelowField',
      `${run}/startHeightAboveSiteM`,
    ],
    [
      'a height source not known',
      [{ ...SINK, heightSource: 'unknown' }],
      'heightSourceUnknown',
      `${run}/heightSource`,
    ],
    ['a sink run less certain than the wing', [CLIMB, SINK], 'glideKept', '/wing/glideRatio'],
  ])('warn of %s', async (_, given, code, pointer) => {
    const { body } = await normalize(given).expect(200)
    const all = [
      ...body.warnings,
      ...body.entries[0].runs.flatMap((one: { warnings: object[] }) => one.warnings),
    ]
    expect(all.filter((one) => one.code === code).map((one) => one.pointer)).toContain(pointer)
  })
})

describe('a cross-check', () => {
  it('shows the uncertainty of every run by both ways, the same each time', async () => {
    const { body } = await normalize([CLIMB, SINK, LEGS], '?crossCheck=true').expect(200)
    for (const { normalized, crossCheck } of body.entries[0].runs) {
      const { linear, monteCarlo, agrees } = crossCheck
      expect(linear.standardUncertainty / normalized.standardUncertainty).toBeCloseTo(1, 9)
      expect(
        Math.abs(monteCarlo.standardUncertainty / linear.standardUncertainty - 1),
      ).toBeLessThan(0.1)
      expect(monteCarlo.draws).toBe(10_000)
      expect(linear.interval95[0]).toBeLessThan(normalized.value)
      expect(monteCarlo.interval95[1]).toBeGreaterThan(normalized.value)
      expect(agrees).toBe(true)
    }
    const again = await normalize([CLIMB, SINK, LEGS], '?crossCheck=true').expect(200)
    expect(again.body).toEqual(body)
  })

  it('is left out unless asked for', async () => {
    const { body } = await normalize([CLIMB], '?crossCheck=false').expect(200)
    expect(body.entries[0].runs[0]).not.toHaveProperty('crossCheck')
    expect(body).toEqual((await normalize([CLIMB]).expect(200)).body)
  })

  it('is refused for more runs than it takes at a time, and for another word than true', async () => {
    const many = await normalize(Array(31).fill(CLIMB), '?crossCheck=true')
    expect(many.status).toBe(400)
    expect(many.body.errors).toEqual([
      { pointer: '/entries', detail: 'At most 30 runs are cross-checked at a time; here are 31.' },
    ])
    const word = await normalize([CLIMB], '?crossCheck=yes')
    expect(word.status).toBe(400)
    expect(word.body.errors[0].pointer).toContain('crossCheck')
  })

  it('does not hide a refusal', async () => {
    const { status } = await normalize([{ ...SINK, heightLossM: 5 }], '?crossCheck=true')
    expect(status).toBe(422)
  })
})
