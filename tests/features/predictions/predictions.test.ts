import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { Problem } from '../../../src/contract/problems.ts'
import type { PredictedQuantity, Prediction } from '../../../src/features/predictions/schema.ts'
import { type Field, openField } from '../comparisons/evenings.ts'
import { insertSetup } from '../submissions/desk.ts'

let field: Field
let quick: string
let slow: string
let once: string
let unflown: string
let electric: string

/** Three pilots, six evenings: 100 m in about 45 s and 50 s, half a litre in about 600 s and 480 s. */
beforeAll(async () => {
  field = await openField()
  ;[quick, slow, once, unflown] = await Promise.all([
    field.setup(),
    field.setup(),
    field.setup(),
    field.setup(),
  ])
  electric = await insertSetup(field.db, { drive: 'electric' })
  for (const [evening, s] of [0, 1, 2, 0.4, 1.4, 2.4].entries()) {
    await field.fly(evening % 3, [
      { setupId: quick, climbsS: [45 + s, 45.6 + s / 2], burnsS: [600 + 4 * s] },
      { setupId: slow, climbsS: [50 + s, 49.4 + s], burnsS: [480 + 3 * s] },
      { setupId: electric, climbsS: [47 + s] },
    ])
  }
  await field.fly(0, [
    { setupId: once, climbsS: [44], burnsS: [610] },
    { setupId: slow, climbsS: [50.5] },
  ])
  await field.app.fits.refresh()
})

afterAll(() => field.close())

/** Figures that must be there. */
type Figures = { [K in keyof PredictedQuantity]-?: NonNullable<PredictedQuantity[K]> }
type Answer = Omit<Prediction, 'predictions'> & {
  predictions: { [K in keyof Prediction['predictions']]: Figures }
}

const predict = (setup: string, query = '') =>
  field.get<Answer>(`/v1/setups/${setup}/predictions?${query}`)
const refused = (setup: string, query = '') =>
  field.get<Problem>(`/v1/setups/${setup}/predictions?${query}`)
const OWN_WING =
  'flatAreaM2=24&glideRatio=7&glideSource=measured&trimSpeedMps=10.5&trimAtAllUpMassKg=120'
const CALM = 'elevationM=0&temperatureC=15&qnhHPa=1013.25&relativeHumidityPct=0'
const SURE =
  'allUpMassUncertaintyKg=0&glideUncertainty=0&trimSpeedUncertaintyMps=0&temperatureUncertaintyK=0&qnhUncertaintyHPa=0&relativeHumidityUncertaintyPct=0'

describe('GET /v1/setups/{id}/predictions', () => {
  it('gives back about what was flown, at the conditions it was flown at', async () => {
    const { status, body } = await predict(quick, `allUpMassKg=120&${CALM}&${OWN_WING}&tankL=10`)
    expect(status).toBe(200)
    const { climbRate, fuelFlow, airspeed, endurance, range } = body.predictions
    // 100 m in about 46 s, half a litre in about 605 s; the burns were flown 100 m up with less fuel.
    expect(climbRate.value).toBeGreaterThan(100 / 48)
    expect(climbRate.value).toBeLessThan(100 / 44)
    expect(fuelFlow.value).toBeGreaterThan(2.9)
    expect(fuelFlow.value).toBeLessThan(3.1)
    expect(airspeed.value).toBeCloseTo(10.5, 6)
    expect(endurance.value).toBeGreaterThan(10 / fuelFlow.value)
    expect(range.value / endurance.value).toBeLessThan(3.6 * 10.5)
    for (const { value, interval95, interval95NextEvening } of [climbRate, fuelFlow, endurance]) {
      expect(interval95[0]).toBeLessThan(value)
      expect(interval95[1]).toBeGreaterThan(value)
      expect(interval95NextEvening[0]).toBeLessThanOrEqual(interval95[0])
      expect(interval95NextEvening[1]).toBeGreaterThanOrEqual(interval95[1])
    }
  })

  it('agrees with the comparison where the caller leaves nothing open', async () => {
    const query = `allUpMassKg=120&${CALM}&${OWN_WING}&${SURE}`
    const { climbRate, climbThrust, fuelFlow } = (await predict(quick, query)).body.predictions
    for (const [metric, prediction] of Object.entries({ climbRate, climbThrust, fuelFlow })) {
      const { body } = await field.get<{
        setups: { value: number; interval95: [number, number] }[]
      }>(`/v1/comparisons?metric=${metric}&setups=${quick},${slow}&allUpMassKg=120`)
      expect(prediction.value / body.setups[0]!.value).toBeCloseTo(1, 6)
      expect(prediction.interval95[0] / body.setups[0]!.interval95[0]).toBeCloseTo(1, 6)
      expect(prediction.interval95[1] / body.setups[0]!.interval95[1]).toBeCloseTo(1, 6)
    }
  })

  it('shows the conditions it filled in, with their uncertainties', async () => {
    const { body } = await predict(
      quick,
      'massClass=120to140&elevationM=500&tankL=12&reserveMin=30',
    )
    expect(body.conditions.allUpMassKg.value).toBe(130)
    expect(body.conditions.allUpMassKg.standardUncertainty).toBeCloseTo(20 / Math.sqrt(12), 9)
    expect(body.conditions.temperatureC.value).toBeCloseTo(15 - 0.0065 * 500, 6)
    expect(body.conditions.tank).toMatchObject({
      tankL: { value: 12, standardUncertainty: 0.24 },
      reserveMin: 30,
    })
    expect(body.conditions.assumed.length).toBeGreaterThan(3)
    expect(body.fits.inducedPower).not.toBe(body.fits.fuelFlow)
    expect(body.evidence.inducedPower).toMatchObject({ sessions: 6, pilots: 3 })
    expect(body.cautions.join(' ')).toMatch(/still air/)
    expect(body.cautions.join(' ')).not.toMatch(/No reserve/)
  })

  it('says what it does not know most of', async () => {
    const own = `allUpMassKg=120&${CALM}&${OWN_WING}`
    const budgetOf = async (query: string) =>
      (await predict(quick, query)).body.predictions.climbRate.budget
    const plain = await budgetOf(own)
    expect(plain.reduce((sum, { share }) => sum + share, 0)).toBeGreaterThan(0.99)
    expect(plain[0]!.share).toBeGreaterThanOrEqual(plain[1]!.share)
    const unsure = await budgetOf(`${own}&allUpMassUncertaintyKg=15`)
    expect(unsure[0]!.source).toBe('all-up mass')
  })

  it('flies a wing of the catalogue with its allowance for cage and pilot', async () => {
    const wingId = await insertWing({ glideRatio: 8, trimSpeedMps: 10.5, trimAtAllUpMassKg: 120 })
    const { body } = await predict(quick, `allUpMassKg=120&wingId=${wingId}`)
    expect(body.conditions.wing).toMatchObject({ id: wingId, flatAreaM2: 24 })
    expect(body.conditions.wing.glideRatio.value).toBeCloseTo(0.85 * 8, 9)
    expect(body.conditions.wing.glideRatio.standardUncertainty).toBeCloseTo(0.12 * 0.85 * 8, 9)
  })

  it('expects the engine speed of the catalogue, where it has one', async () => {
    const before = await predict(quick)
    expect(before.body.predictions.engineRpm.refused.reasonCode).toBe('ratedRpmUnknown')
    await field.db.pool.query(
      `UPDATE component SET rated_rpm = 7800, reduction_ratio = 2.6
        WHERE id = (SELECT powerplant_id FROM setup WHERE id = $1)`,
      [quick],
    )
    const { engineRpm, propellerRpm, tipMach } = (await predict(quick, CALM)).body.predictions
    expect(engineRpm.value).toBeCloseTo(7800, 3) // standard air at sea level
    expect(propellerRpm.value).toBeCloseTo(3000, 3)
    // 1.25 m at 3000/min: tip 196.35 m/s, and 10.5 m/s along the axis, over 340.294 m/s.
    expect(tipMach.value).toBeCloseTo(Math.hypot(196.3495, 10.5) / 340.294, 4)
    const high = (await predict(quick, 'elevationM=2000')).body.predictions
    expect(high.engineRpm.value).toBeLessThan(7800)
    expect(high.engineRpm.value).toBeGreaterThan(7500)
  })

  it('has the same answer again under the fits it names', async () => {
    const before = await predict(slow, 'allUpMassKg=110&tankL=9&reserveL=1')
    const { inducedPower, fuelFlow } = before.body.fits
    const id = await field.fly(1, [{ setupId: slow, climbsS: [53], burnsS: [470] }])
    await field.app.fits.refresh()
    const query = 'allUpMassKg=110&tankL=9&reserveL=1'
    const after = await predict(slow, query)
    expect(after.body.fits.inducedPower).not.toBe(inducedPower)
    expect((await predict(slow, `${query}&fitId=${inducedPower},${fuelFlow}`)).text).toBe(
      before.text,
    )
    await field.request
      .delete(`/v1/submissions/${id}`)
      .set(field.pilots[1]!.authorization)
      .expect(204)
    await field.app.fits.refresh()
  })

  it('says first that a setup is not to be flown', async () => {
    const { rows } = await field.db.pool.query(
      `INSERT INTO safety_report (setup_id, state, reason) VALUES ($1, 'doNotFly', 'The tip has touched the hoop.') RETURNING id`,
      [slow],
    )
    const { body } = await predict(slow)
    expect(body.safety.state).toBe('doNotFly')
    expect(body.cautions[0]).toMatch(/^Do not fly/)
    await field.db.pool.query('DELETE FROM safety_report WHERE id = $1', [rows[0].id])
  })
})

describe('what is not predicted', () => {
  const codeOf = async (setup: string, query: string, name: keyof Prediction['predictions']) => {
    const { status, body } = await predict(setup, query)
    expect(status).toBe(200)
    const { refused: why, value } = body.predictions[name]
    if (why !== undefined) expect(value).toBeNull()
    return why?.reasonCode
  }

  it('is a setup nobody has flown, or one flown once', async () => {
    expect(await codeOf(unflown, 'tankL=10', 'climbRate')).toBe('noEvidence')
    expect(await codeOf(unflown, 'tankL=10', 'endurance')).toBe('noEvidence')
    expect(await codeOf(once, '', 'climbThrust')).toBe('oneSession')
    expect(await codeOf(once, '', 'fuelFlow')).toBe('oneSession')
  })

  it('is a climb that is none', async () => {
    expect(await codeOf(quick, 'allUpMassKg=300', 'climbRate')).toBe('doesNotClimb')
    expect(await codeOf(quick, 'allUpMassKg=300', 'climbThrust')).toBeUndefined()
  })

  it('is time and distance without a tank, or with nothing above the reserve', async () => {
    expect(await codeOf(quick, '', 'endurance')).toBe('tankNotGiven')
    expect(await codeOf(quick, '', 'fuelFlow')).toBeUndefined()
    expect(await codeOf(quick, 'tankL=2&reserveMin=300', 'range')).toBe('reserveExceedsTank')
  })

  it('is the fuel of an electric drive', async () => {
    expect(await codeOf(electric, 'tankL=10', 'climbRate')).toBeUndefined()
    for (const name of ['fuelFlow', 'litresPer100Km', 'endurance', 'range'] as const) {
      expect(await codeOf(electric, 'tankL=10', name)).toBe('electricDrive')
    }
  })
})

describe('what is refused', () => {
  it.each([
    ['a mass and a class', 'allUpMassKg=100&massClass=tandem', '/massClass'],
    ['a mass no one flies', 'allUpMassKg=5', '/allUpMassKg'],
    ['a temperature in °F', 'temperatureC=77', '/temperatureC'],
    ['a QNH in inches', 'qnhHPa=29.92', '/qnhHPa'],
    ['a wing of one’s own without its area', 'glideRatio=7', '/flatAreaM2'],
    ['a source of no glide ratio', 'flatAreaM2=24&glideSource=measured', '/glideSource'],
    ['a mass of no trim speed', 'flatAreaM2=24&trimAtAllUpMassKg=120', '/trimAtAllUpMassKg'],
    ['two reserves', 'tankL=10&reserveL=1&reserveMin=20', '/reserveMin'],
    ['a reserve of no tank', 'reserveMin=20', '/tankL'],
    ['less than nothing in the tank', 'tankL=-3', '/tankL'],
    ['a reserve as large as the tank', 'tankL=10&reserveL=10', '/reserveL'],
    ['an uncertainty of no tank', 'tankUncertaintyL=1', '/tankUncertaintyL'],
    ['a negative uncertainty', 'allUpMassUncertaintyKg=-1', '/allUpMassUncertaintyKg'],
    [
      'five fits',
      `fitId=${Array(5)
        .fill(`fit_${'0'.repeat(32)}`)
        .join(',')}`,
      '/fitId',
    ],
  ])('%s: 400 with that field and no other', async (_what, query, pointer) => {
    const { status, body } = await refused(quick, query)
    expect(status).toBe(400)
    expect(body.errors?.map((error) => error.pointer.split('/').slice(0, 2).join('/'))).toEqual([
      pointer,
    ])
  })

  it('a wing of the catalogue beside one’s own: 400', async () => {
    const wingId = await insertWing({ glideRatio: 8 })
    const { status, body } = await refused(quick, `wingId=${wingId}&flatAreaM2=24`)
    expect(status).toBe(400)
    expect(body.errors?.map((error) => error.pointer)).toEqual(['/wingId'])
  })

  it.each([
    ['a wing that is not in the catalogue', () => `wingId=${quick}`, '/wingId'],
    [
      'a glide ratio below the model',
      () => 'flatAreaM2=24&glideRatio=4.2&glideSource=catalogue',
      '/glideRatio',
    ],
    ['a loading nobody flies at', () => 'allUpMassKg=200&flatAreaM2=9', '/flatAreaM2'],
    ['two fits of one quantity', () => `fitId=${fits.inducedPower},${fits.inducedPower}`, '/fitId'],
  ])('%s: 422 with the pointer', async (_what, query, pointer) => {
    fits = (await predict(quick)).body.fits
    const { status, body } = await refused(quick, query())
    expect(status).toBe(422)
    expect(body.errors?.map((error) => error.pointer)).toEqual([pointer])
  })
  let fits: Prediction['fits']

  it('a wing of the catalogue that glides worse than the model holds for: 422 at the wing', async () => {
    const wingId = await insertWing({ glideRatio: 4.2 })
    for (const path of [
      `/v1/setups/${quick}/predictions?wingId=${wingId}`,
      `/v1/comparisons?metric=climbRate&setups=${quick},${slow}&wingId=${wingId}`,
      `/v1/rankings?metric=climbRate&wingId=${wingId}`,
    ]) {
      const { status, body } = await field.get<Problem>(path)
      expect(status).toBe(422)
      expect(body.errors?.map((error) => error.pointer)).toEqual(['/wingId'])
    }
  })

  it('no air that is asked for in the allowed ranges with a server error', async () => {
    for (const temperatureC of [-40, 55]) {
      for (const elevationM of [-430, 5500]) {
        for (const qnhHPa of [870, 1085]) {
          const query = `temperatureC=${temperatureC}&elevationM=${elevationM}&qnhHPa=${qnhHPa}&relativeHumidityPct=100&temperatureUncertaintyK=10&tankL=60`
          const { status } = await refused(quick, query)
          expect([200, 422]).toContain(status)
        }
      }
    }
  })

  it('a setup or a fit that does not exist: 404', async () => {
    expect((await refused('00000000-0000-4000-8000-000000000000')).status).toBe(404)
    expect((await refused(quick, `fitId=fit_${'0'.repeat(32)}`)).status).toBe(404)
    expect((await refused('nonsense')).status).toBe(400)
  })
})

let wings = 0

/** A wing of 24 m². */
async function insertWing(figures: {
  glideRatio?: number
  trimSpeedMps?: number
  trimAtAllUpMassKg?: number
}): Promise<string> {
  wings += 1
  const { rows } = await field.db.pool.query(
    `INSERT INTO component (kind, maker, model, flat_area_m2, glide_ratio, trim_speed_mps, trim_at_all_up_mass_kg)
     VALUES ('wing', 'Invented', $1, 24, $2, $3, $4) RETURNING id`,
    [`Wing ${wings}`, figures.glideRatio, figures.trimSpeedMps, figures.trimAtAllUpMassKg],
  )
  return rows[0].id
}
