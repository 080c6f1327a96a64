import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { NewRun } from '../../../src/features/submissions/run-kinds.ts'
import {
  CLIMB,
  type Desk,
  ENERGY_USE,
  FUEL_BURN,
  type Pilot,
  type SetupParts,
  SOUND_LEVEL,
  STATIC_PULL,
  scenarioA,
  startDesk,
} from './desk.ts'

let desk: Desk
let pilot: Pilot
let petrol: string
let electric: string

beforeAll(async () => {
  desk = await startDesk()
  pilot = await desk.signUp()
  petrol = await desk.setup({ reductionRatio: 2.8, ratedPowerKw: 15 })
  electric = await desk.setup({ drive: 'electric', reductionRatio: 1 })
})
afterAll(() => desk.close())

/** A run that may break its schema: what a client might send. */
type SentRun = Readonly<Record<string, unknown>>

async function submit(runs: readonly SentRun[], setupId = petrol) {
  const { status, body, headers } = await desk.request
    .post('/v1/submissions')
    .auth(pilot.token, { type: 'bearer' })
    .send(scenarioA(setupId, runs as unknown as NewRun[]))
  return { status, body, location: headers.location }
}

async function resultOf(run: SentRun, setupId = petrol) {
  const { status, body } = await submit([run], setupId)
  expect(status, JSON.stringify(body)).toBe(201)
  return body.entries[0].runs[0]
}

async function evidenceOf(submissionId: string) {
  const { rows } = await desk.db.pool.query(
    `SELECT quantity, log_value AS "logValue", own_standard_uncertainty AS own,
            shared_standard_uncertainty AS shared
       FROM run_result JOIN run ON run.id = run_id JOIN submission_revision r ON r.id = run.revision_id
      WHERE submission_id = $1 ORDER BY run_index`,
    [submissionId],
  )
  return rows
}

const codes = (run: { warnings: { pointer: string; code: string }[] }) =>
  run.warnings.map(({ pointer, code }) => `${pointer.split('/').slice(5).join('/')} ${code}`)

describe('a static pull', () => {
  it('comes back in newtons at sea level, with what follows from the engine speed', async () => {
    const { normalized, derived, warnings } = await resultOf(STATIC_PULL)
    expect(normalized).toMatchObject({ metric: 'staticThrust', unit: 'N' })
    expect(normalized.thrustN).toBe(normalized.value)
    // Thin and warm air at 600 m and 25 °C: the correction is some 10 %.
    expect(normalized.value / 600).toBeGreaterThan(1.1)
    expect(normalized.value / 600).toBeLessThan(1.16)
    expect(derived.propellerRpm).toBeCloseTo(8300 / 2.8, 9)
    expect(derived.tipSpeedMps).toBeCloseTo((Math.PI * 1.25 * 8300) / 2.8 / 60, 9)
    expect(Object.keys(derived).sort()).toEqual([
      'figureOfMerit',
      'helicalTipMach',
      'propellerRpm',
      'thrustCoefficient',
      'tipSpeedMps',
    ])
    expect(warnings).toEqual([])
  })

  it('is evidence of static thrust', async () => {
    const { body } = await submit([STATIC_PULL])
    const [row] = await evidenceOf(body.id)
    expect(row.quantity).toBe('staticThrust')
    expect(row.logValue).toBeCloseTo(Math.log(body.entries[0].runs[0].normalized.value), 12)
  })

  it('says what it assumed', async () => {
    expect(codes(await resultOf({ kind: 'staticPull', thrustN: 600 }))).toEqual([
      'headwindMps headwindAssumed',
    ])
    expect(codes(await resultOf({ ...STATIC_PULL, rpm: 2600 }, electric))).toEqual([
      ' electricPowerAssumed',
    ])
  })

  it('shows the public no figure that leads to the air or the mass', async () => {
    const { location } = await submit([STATIC_PULL, { ...CLIMB, rpm: 8400 }])
    const { body } = await desk.request.get(location!).expect(200)
    for (const run of body.entries[0].runs) {
      expect(run.derived.propellerRpm).toBeGreaterThan(0)
      expect(run.derived).not.toHaveProperty('thrustCoefficient')
      expect(run.derived).not.toHaveProperty('helicalTipMach')
    }
  })
})

describe('a sound level', () => {
  it('of full throttle at the ear is evidence, as a natural logarithm of pressure', async () => {
    const { status, body } = await submit([SOUND_LEVEL])
    expect(status).toBe(201)
    const { normalized } = body.entries[0].runs[0]
    expect(normalized).toMatchObject({
      metric: 'soundLevel',
      value: 98,
      unit: 'dB',
      position: 'pilotEar',
      power: 'full',
    })
    const [row] = await evidenceOf(body.id)
    expect(row.quantity).toBe('soundAtEar')
    expect(row.logValue).toBeCloseTo((98 * Math.LN10) / 20, 12)
  })

  it('at a distance is brought to 20 m and is evidence of its own kind', async () => {
    const run = {
      ...SOUND_LEVEL,
      position: 'distance',
      distanceM: 10,
      directionDeg: 90,
      surface: 'grass',
      levelDbA: 90,
    }
    const { body } = await submit([run])
    const { normalized, warnings } = body.entries[0].runs[0]
    expect(normalized.value).toBeCloseTo(90 - 20 * Math.log10(2), 9)
    expect(normalized.distanceM).toBe(20)
    expect(warnings).toEqual([])
    expect((await evidenceOf(body.id))[0].quantity).toBe('soundAtDistance')
  })

  it('nearer than 2.5 m stays as it was measured and is no evidence', async () => {
    const run = { ...SOUND_LEVEL, position: 'distance', distanceM: 1, directionDeg: 0 }
    const { body } = await submit([run])
    const result = body.entries[0].runs[0]
    expect(result.normalized).toMatchObject({ value: 98, distanceM: 1 })
    expect(codes(result)).toEqual(['distanceM tooNear'])
    expect((await evidenceOf(body.id))[0]).toEqual({
      quantity: null,
      logValue: null,
      own: null,
      shared: null,
    })
  })

  it('of level flight is kept and is no evidence', async () => {
    const { body, location } = await submit([{ ...SOUND_LEVEL, power: 'level', levelDbA: 88 }])
    expect((await evidenceOf(body.id))[0].quantity).toBeNull()
    const read = await desk.request.get(location!).auth(pilot.token, { type: 'bearer' }).expect(200)
    expect(read.body.entries).toEqual(body.entries)
    expect(read.body.entries[0].runs[0].normalized).toMatchObject({ value: 88, power: 'level' })
  })

  it('close to the background is an upper bound, with a wide uncertainty', async () => {
    const clear = await resultOf({ ...SOUND_LEVEL, backgroundDbA: 90 })
    const close = await resultOf({ ...SOUND_LEVEL, backgroundDbA: 95 })
    expect(codes(clear)).not.toContain('backgroundDbA upperBound')
    expect(codes(close)).toContain('backgroundDbA upperBound')
    // K1(8) = 0.75 dB is taken off the clear one, K1(6) = 1.26 dB off the close one.
    expect(clear.normalized.value).toBeCloseTo(97.25, 2)
    expect(close.normalized.value).toBeCloseTo(96.74, 2)
    expect(close.normalized.standardUncertainty).toBeGreaterThan(
      clear.normalized.standardUncertainty,
    )
  })

  it('takes the example of the contract, and says what it assumed', async () => {
    const run = { kind: 'soundLevel', levelDbA: 98, position: 'pilotEar', power: 'full' }
    expect(codes(await resultOf(run))).toEqual([
      'backgroundDbA backgroundAssumed',
      'instrument instrumentAssumed',
    ])
  })
})

describe('a level flight', () => {
  it('on a battery comes back in watts and is evidence of electric power', async () => {
    const { status, body } = await submit([ENERGY_USE], electric)
    expect(status, JSON.stringify(body)).toBe(201)
    const { normalized } = body.entries[0].runs[0]
    expect(normalized).toMatchObject({ metric: 'electricPower', unit: 'W' })
    expect(normalized.electricPowerW).toBe(normalized.value)
    // 4667 W at 135 kg in thin air; less at 120 kg in dense air, by about 1.5·ln(120/135).
    expect(normalized.value).toBeGreaterThan(3300)
    expect(normalized.value).toBeLessThan(4300)
    expect((await evidenceOf(body.id))[0].quantity).toBe('electricPower')
  })

  it('on a battery that fell by more than 5 % is taken with a warning', async () => {
    const tired = { ...ENERGY_USE, batteryEndV: 50 }
    const fresh = await resultOf(ENERGY_USE, electric)
    expect(codes(fresh)).not.toContain('batteryEndV batteryVoltageChanged')
    expect(codes(await resultOf(tired, electric))).toContain('batteryEndV batteryVoltageChanged')
  })

  it('refilled to the mark is uncertain by the mark, not by the instant of starvation', async () => {
    const burn = { ...FUEL_BURN, fuelTemperatureC: 20 }
    const sources = async (run: SentRun) =>
      Object.fromEntries(
        (await resultOf(run)).normalized.budget.map(
          (line: { source: string; standardUncertainty: number }) => [
            line.source,
            line.standardUncertainty,
          ],
        ),
      )
    const filled = await sources(burn)
    const refilled = await sources({ ...burn, method: 'refill' })
    expect(refilled['fuel volume'] / filled['fuel volume']).toBeCloseTo(20 / 5, 2)
    expect(Object.keys(filled)).toContain('burn time and instant of starvation')
    expect(Object.keys(refilled)).toContain('burn time')
    expect(await sources({ ...burn, method: 'measuredTank' })).toEqual(filled)
  })
})

describe('a run that its kind or its set-up refuses', () => {
  it.each<[what: string, run: SentRun, setup: 'petrol' | 'electric', status: number, at: string]>([
    ['a pull without thrust', { kind: 'staticPull' }, 'petrol', 400, 'thrustN'],
    ['thrust in kilograms-force', { ...STATIC_PULL, thrustN: 45 }, 'petrol', 422, 'thrustN'],
    ['too much headwind', { ...STATIC_PULL, headwindMps: 3.5 }, 'petrol', 422, 'headwindMps'],
    ['a line straight up', { ...STATIC_PULL, lineAngleDeg: 80 }, 'petrol', 422, 'lineAngleDeg'],
    ['a pull beyond its power', { ...STATIC_PULL, thrustN: 1100 }, 'petrol', 422, 'thrustN'],
    ['tips near the speed of sound', { ...STATIC_PULL, rpm: 15500 }, 'petrol', 422, 'rpm'],
    ['an idling propeller', { ...STATIC_PULL, rpm: 600 }, 'petrol', 422, 'rpm'],
    [
      'a battery in a piston drive',
      { ...STATIC_PULL, batteryStartV: 54 },
      'petrol',
      422,
      'batteryStartV',
    ],
    [
      'a battery in a climb with petrol',
      { ...CLIMB, batteryEndV: 50 },
      'petrol',
      422,
      'batteryEndV',
    ],
    [
      'a voltage in millivolts',
      { ...ENERGY_USE, batteryStartV: 54000 },
      'electric',
      422,
      'batteryStartV',
    ],
    ['energy of a piston drive', ENERGY_USE, 'petrol', 422, 'kind'],
    ['fuel of an electric drive', FUEL_BURN, 'electric', 422, 'kind'],
    [
      'energy without voltage',
      { ...ENERGY_USE, batteryEndV: undefined },
      'electric',
      400,
      'batteryEndV',
    ],
    ['energy in kilowatt-hours', { ...ENERGY_USE, energyWh: 0.7 }, 'electric', 422, 'energyWh'],
    ['energy for nothing', { ...ENERGY_USE, energyWh: 60 }, 'electric', 422, 'energyWh'],
    [
      'a level flight that fell',
      { ...ENERGY_USE, durationS: 400, heightChangeM: -500 },
      'electric',
      422,
      '',
    ],
    ['a way of measuring fuel', { ...FUEL_BURN, method: 'dipstick' }, 'petrol', 400, 'method'],
    [
      'a level without position',
      { ...SOUND_LEVEL, position: undefined },
      'petrol',
      400,
      'position',
    ],
    ['a level without power', { ...SOUND_LEVEL, power: undefined }, 'petrol', 400, 'power'],
    ['a distance left out', { ...SOUND_LEVEL, position: 'distance' }, 'petrol', 400, 'distanceM'],
    ['a distance at the ear', { ...SOUND_LEVEL, distanceM: 0.3 }, 'petrol', 400, 'distanceM'],
    [
      'a microphone a kilometre away',
      { ...SOUND_LEVEL, position: 'distance', distanceM: 1000 },
      'petrol',
      422,
      'distanceM',
    ],
    ['a level of a jet', { ...SOUND_LEVEL, levelDbA: 150 }, 'petrol', 422, 'levelDbA'],
    ['a background as loud', { ...SOUND_LEVEL, backgroundDbA: 98 }, 'petrol', 422, 'backgroundDbA'],
    ['a direction of 400°', { ...SOUND_LEVEL, directionDeg: 400 }, 'petrol', 422, 'directionDeg'],
    ['a surface unheard of', { ...SOUND_LEVEL, surface: 'lava' }, 'petrol', 400, 'surface'],
    ['a meter unheard of', { ...SOUND_LEVEL, instrument: 'ear' }, 'petrol', 400, 'instrument'],
    [
      'an uncertainty of nothing measured',
      { ...STATIC_PULL, uncertainty: { levelDbA: 1 } },
      'petrol',
      400,
      'uncertainty',
    ],
    [
      'an uncertainty beyond reason',
      { ...SOUND_LEVEL, uncertainty: { levelDbA: 40 } },
      'petrol',
      422,
      'uncertainty/levelDbA',
    ],
  ])('is refused for %s', async (_, run, setup, status, at) => {
    const answer = await submit([run], setup === 'petrol' ? petrol : electric)
    expect({ status: answer.status, errors: answer.body.errors }).toMatchObject({ status })
    const pointers = answer.body.errors.map((error: { pointer: string }) => error.pointer)
    expect(pointers).toContain(`/entries/0/runs/0${at === '' ? '' : `/${at}`}`)
  })

  it.each<[what: string, run: SentRun, hint: RegExp]>([
    ['kilograms-force', { ...STATIC_PULL, thrustN: 45 }, /kilograms-force: that would be 441\.3 N/],
    ['kilonewtons', { ...STATIC_PULL, thrustN: 0.6 }, /kilonewtons: that would be 600 N/],
  ])('names the likely unit: %s', async (_, run, hint) => {
    const { body } = await submit([run])
    expect(body.errors[0].detail).toMatch(hint)
  })

  it('points at the set-up for a reduction ratio that is none', async () => {
    const odd = await desk.setup({ reductionRatio: 0.3 } satisfies SetupParts)
    const { status, body } = await submit([STATIC_PULL], odd)
    expect(status).toBe(422)
    expect(body.errors.map((error: { pointer: string }) => error.pointer)).toContain(
      '/entries/0/setupId',
    )
  })

  it('points at the described equipment in the calculator', async () => {
    const { entries, ...session } = scenarioA(petrol, [STATIC_PULL])
    const equipment = { drive: 'twoStroke', propellerDiameterCm: 125, reductionRatio: 28 }
    const [{ setupId: _, ...entry }] = entries as [(typeof entries)[number]]
    const { status, body } = await desk.request
      .post('/v1/normalizations')
      .send({ ...session, entries: [{ ...entry, equipment }] })
    expect(status).toBe(422)
    expect(body.errors.map((error: { pointer: string }) => error.pointer)).toContain(
      '/entries/0/equipment/reductionRatio',
    )
  })
})

describe('runs of one entry', () => {
  it('are refused when the climb shows far more thrust than the ground', async () => {
    const { status, body } = await submit([CLIMB, { ...STATIC_PULL, thrustN: 330, rpm: undefined }])
    expect(status).toBe(422)
    expect(body.errors).toHaveLength(1)
    expect(body.errors[0].pointer).toBe('/entries/0/runs/1/thrustN')
    expect(body.errors[0].detail).toMatch(/Climb thrust over static thrust/)
  })

  it('are doubted when thrusts or engine speeds do not go together', async () => {
    const { status, body } = await submit([
      { ...CLIMB, rpm: 7000 },
      { ...STATIC_PULL, thrustN: 430 },
    ])
    expect(status, JSON.stringify(body)).toBe(201)
    expect(codes(body.entries[0].runs[1])).toEqual(['thrustN unusual', 'rpm unusual'])
  })

  it('agree when all is well', async () => {
    const { body } = await submit([{ ...CLIMB, rpm: 8700 }, STATIC_PULL])
    expect(body.entries[0].runs.flatMap(codes)).toEqual([])
  })
})
