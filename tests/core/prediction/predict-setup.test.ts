import { describe, expect, it } from 'vitest'

import { answerForSetup } from '../../../src/core/comparison/compare.ts'
import { OutOfRangeError } from '../../../src/core/errors.ts'
import { airAt } from '../../../src/core/normalise/model/air.ts'
import { REFERENCE } from '../../../src/core/normalise/reference.ts'
import {
  type AskedPrediction,
  completeConditions,
  stateOf,
} from '../../../src/core/prediction/asked.ts'
import { forecast, PREDICTED, type Predicted } from '../../../src/core/prediction/forecast.ts'
import { predictSetup } from '../../../src/core/prediction/predict-setup.ts'
import type { PredictedSetup } from '../../../src/core/prediction/question.ts'
import { unknownsOf } from '../../../src/core/prediction/unknowns.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { evidenceAbout } from './simulated-fits.ts'

const evidence = {
  inducedPower: evidenceAbout(Math.log(8900)),
  fuelFlow: evidenceAbout(Math.log(3)),
  electricPower: evidenceAbout(Math.log(4000)),
  staticThrust: evidenceAbout(Math.log(620)),
}
const setup: PredictedSetup = {
  setupId: 'plain',
  equipment: { drive: 'twoStroke', propellerDiameterCm: 130 },
  ratedRpm: 7800,
  reductionRatio: 2.8,
}
const asked: AskedPrediction = {
  allUpMassKg: 128,
  elevationM: 600,
  temperatureC: 25,
  qnhHPa: 1018,
  relativeHumidityPct: 0,
  wing: {
    flatAreaM2: 26,
    glideRatio: 6.8,
    glideSource: 'measured',
    trimSpeedMps: 10.8,
    trimAtAllUpMassKg: 124.8,
  },
  tank: { tankL: 12, reserve: { litres: 2 } },
  uncertainty: {},
}
const EXACT = {
  allUpMassKg: 0,
  temperatureC: 0,
  qnhHPa: 0,
  relativeHumidityPct: 0,
  glideRatio: 0,
  trimSpeedMps: 0,
  tankL: 0,
}

const predict = (change: Partial<AskedPrediction> = {}, other: Partial<PredictedSetup> = {}) =>
  predictSetup({
    setup: { ...setup, ...other },
    conditions: completeConditions({ ...asked, ...change }),
    evidence,
  })

/** The figures of a quantity that must be there. */
function figures(predictions: ReturnType<typeof predict>, name: Predicted) {
  const prediction = predictions[name]
  if (prediction.refusal !== null) throw new Error(prediction.refusal.reason)
  return prediction
}

/**
 * Everything over again from the formulas: ISO 2533 and the gas law, φ of Gagg and Ferrar with the root
 * of the temperature, level trim, induced power (bisection on the climb angle), flow in proportion to it.
 */
function byFormula() {
  const x = 9.80665 / (287.05287 * 0.0065)
  const pressure = 101325 * ((101800 / 101325) ** (1 / x) - (0.0065 * 600) / 288.15) ** x
  const temperature = 298.15
  const density = pressure / (287.05287 * temperature)
  const seaLevel = 101325 / (287.05287 * 288.15)
  const standardK = 288.15 * (pressure / 101325) ** (1 / x)
  const sigmaStandard = ((pressure / 101325) * 288.15) / standardK
  const phi = (1.132 * sigmaStandard - 0.132) * Math.sqrt(standardK / temperature)
  const weight = 128 * 9.80665
  const disc = (Math.PI * 1.3 ** 2) / 4
  const level = 10.8 * Math.sqrt((128 / 124.8) * (seaLevel / density))
  const power = (thrust: number, speed: number, rho: number) =>
    thrust * (speed / 2 + Math.sqrt(speed ** 2 / 4 + thrust / (2 * rho * disc)))
  const at = (angle: number) => {
    const thrust = weight * (Math.sin(angle) + Math.cos(angle) / 6.8)
    const speed = level * Math.sqrt(Math.cos(angle))
    return { thrust, speed, power: power(thrust, speed, density) }
  }
  const available = phi * Math.exp(evidence.inducedPower.view.logQuantityOf('plain')!)
  let low = 0
  let high = 0.7
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2
    if (at(middle).power > available) high = middle
    else low = middle
  }
  const reference = power((120 * 9.80665) / 7, 10.5, seaLevel)
  const flow =
    (Math.exp(evidence.fuelFlow.view.logQuantityOf('plain')!) *
      power(weight / 6.8, level, density)) /
    reference
  const rpm = 7800 * Math.cbrt((phi * seaLevel) / density)
  const tip = (Math.PI * 1.3 * rpm) / 2.8 / 60
  return {
    climbRate: at(low).speed * Math.sin(low),
    climbThrust: at(low).thrust,
    climbAngle: (low * 180) / Math.PI,
    airspeed: level,
    fuelFlow: flow,
    litresPer100Km: (100 * flow) / (3.6 * level),
    staticThrust:
      Math.exp(evidence.staticThrust.view.logQuantityOf('plain')!) *
      Math.cbrt((density / seaLevel) * phi ** 2),
    densityAltitude: (288.15 / 0.0065) * (1 - (density / seaLevel) ** (1 / (x - 1))),
    fullThrottlePowerRatio: phi,
    engineRpm: rpm,
    propellerRpm: rpm / 2.8,
    tipMach: Math.hypot(tip, level) / Math.sqrt(1.4 * 287.05287 * temperature),
  }
}

describe('predictSetup', () => {
  it.each(Object.entries(byFormula()) as [Predicted, number][])(
    'gives the %s of the formulas',
    (name, expected) => {
      expect(figures(predict(), name).value / expected).toBeCloseTo(1, 9)
    },
  )

  it('flies the tank down to its reserve in small steps', () => {
    const { fuelFlow, airspeed } = byFormula()
    // 12 L less 2 L at 25 °C are 10 × 0.98785 L at 15 °C (D1250: α = 1.21315e−3/K at 745 kg/m³).
    const alphaT = (346.4228 / 745 ** 2 + 0.4388 / 745) * 10
    const usable = 10 * Math.exp(-alphaT * (1 + 0.8 * alphaT))
    const steps = 20_000
    let hours = 0
    let km = 0
    for (let i = 0; i < steps; i++) {
      const share = 1 - (0.745 * usable * (i + 0.5)) / steps / 128
      const step = usable / steps / (fuelFlow * share ** 1.5)
      hours += step
      km += step * 3.6 * airspeed * Math.sqrt(share)
    }
    expect(figures(predict(), 'endurance').value / hours).toBeCloseTo(1, 8)
    expect(figures(predict(), 'range').value / km).toBeCloseTo(1, 8)
  })

  it('keeps a reserve of time in hand, flown last and lightest', () => {
    const whole = predict({ tank: { tankL: 12, reserve: { litres: 0 } } })
    const less = predict({ tank: { tankL: 12, reserve: { minutes: 30 } } })
    expect(figures(less, 'endurance').value).toBeCloseTo(figures(whole, 'endurance').value - 0.5, 9)
    const lost = figures(whole, 'range').value - figures(less, 'range').value
    const { airspeed } = byFormula()
    expect(lost).toBeLessThan(0.5 * 3.6 * airspeed)
    expect(lost).toBeGreaterThan(0.5 * 3.6 * airspeed * Math.sqrt(1 - (0.745 * 12) / 128))
  })

  it('is the comparison’s own answer at the reference state where the caller leaves nothing open', () => {
    const predictions = predict({
      ...{ allUpMassKg: 120, elevationM: 0, temperatureC: 15, qnhHPa: 1013.25 },
      wing: { ...REFERENCE.wing, glideSource: 'measured' },
      uncertainty: EXACT,
    })
    const candidate = { setupId: 'plain', equipment: setup.equipment }
    for (const [metric, name, basis] of [
      ['climbRate', 'climbRate', 'inducedPower'],
      ['climbThrust', 'climbThrust', 'inducedPower'],
      ['fuelFlow', 'fuelFlow', 'fuelFlow'],
      ['staticThrust', 'staticThrust', 'staticThrust'],
    ] as const) {
      const fit = evidence[basis].view
      const answer = answerForSetup({ metric, state: REFERENCE, fit }, candidate)
      if (answer.refusal !== null) throw new Error('refused')
      const prediction = figures(predictions, name)
      expect(prediction.value / answer.value).toBeCloseTo(1, 9)
      expect(prediction.interval95[0] / answer.interval95[0]).toBeCloseTo(1, 9)
      expect(prediction.interval95[1] / answer.interval95[1]).toBeCloseTo(1, 9)
      // One goes by the slope, the other by a finite step of one standard uncertainty.
      expect(prediction.standardUncertainty / answer.standardUncertainty).toBeCloseTo(1, 3)
      expect(prediction.budget.map(({ source }) => source)).toEqual([
        `${metric === 'staticThrust' ? 'pulls' : 'flights'} behind the estimate`,
      ])
    }
  })

  it.each([
    ['allUpMassKg', 4, ['climbRate', 'climbThrust', 'airspeed', 'fuelFlow', 'endurance']],
    ['glideRatio', 1, ['climbRate', 'climbAngle', 'fuelFlow', 'range']],
    ['trimSpeedMps', 1, ['climbRate', 'airspeed', 'fuelFlow', 'litresPer100Km', 'tipMach']],
    ['temperatureC', 6, ['climbRate', 'densityAltitude', 'fullThrottlePowerRatio', 'engineRpm']],
    ['qnhHPa', 9, ['climbRate', 'densityAltitude', 'fullThrottlePowerRatio']],
    ['relativeHumidityPct', 30, ['climbRate', 'densityAltitude', 'fullThrottlePowerRatio']],
    ['tankL', 1, ['endurance', 'range']],
  ] as const)('knows less where the caller knows less of %s', (field, u, names) => {
    const change = { relativeHumidityPct: 50 }
    const sure = predict({ ...change, uncertainty: { ...EXACT, [field]: u / 4 } })
    const unsure = predict({ ...change, uncertainty: { ...EXACT, [field]: u } })
    for (const name of names) {
      const [narrow, wide] = [figures(sure, name), figures(unsure, name)]
      expect(wide.value).toBe(narrow.value)
      expect(wide.standardUncertainty).toBeGreaterThan(narrow.standardUncertainty)
      expect(wide.interval95[0]).toBeLessThan(narrow.interval95[0])
      expect(wide.interval95[1]).toBeGreaterThan(narrow.interval95[1])
    }
  })

  it('is wider for a next evening than for the mean, and only where flights stand behind it', () => {
    const predictions = predict()
    for (const name of ['climbRate', 'climbThrust', 'fuelFlow', 'endurance', 'range'] as const) {
      const { interval95, interval95NextEvening } = figures(predictions, name)
      expect(interval95NextEvening![0]).toBeLessThan(interval95[0])
      expect(interval95NextEvening![1]).toBeGreaterThan(interval95[1])
    }
    expect(figures(predictions, 'airspeed').interval95NextEvening).toBeNull()
    expect(figures(predictions, 'densityAltitude').interval95NextEvening).toBeNull()
  })

  it('climbs less and burns more with mass, height and heat', () => {
    const value = (change: Partial<AskedPrediction>, name: Predicted) =>
      figures(predict({ uncertainty: EXACT, ...change }), name).value
    for (const change of [{ allUpMassKg: 140 }, { elevationM: 1500 }, { temperatureC: 35 }]) {
      expect(value(change, 'climbRate')).toBeLessThan(value({}, 'climbRate'))
      expect(value(change, 'fuelFlow')).toBeGreaterThan(value({}, 'fuelFlow'))
    }
    expect(value({ allUpMassKg: 140 }, 'range')).toBeLessThan(value({}, 'range'))
    const more = { tank: { tankL: 14, reserve: { litres: 2 } } }
    expect(value(more, 'endurance')).toBeGreaterThan(value({}, 'endurance'))
  })

  it('says why there is no figure', () => {
    const reasons = (predictions: ReturnType<typeof predict>, ...names: Predicted[]) =>
      names.map((name) => predictions[name].refusal?.code)
    expect(reasons(predict({}, { setupId: 'nobody' }), 'climbRate', 'fuelFlow')).toEqual([
      'noEvidence',
      'noEvidence',
    ])
    expect(reasons(predict({}, { setupId: 'once' }), 'climbThrust', 'range')).toEqual([
      'oneSession',
      'oneSession',
    ])
    const heavy = predict({ allUpMassKg: 300 })
    expect(reasons(heavy, 'climbRate', 'climbAngle', 'climbThrust', 'fuelFlow')).toEqual([
      'doesNotClimb',
      'doesNotClimb',
      undefined,
      undefined,
    ])
    expect(reasons(predict({ allUpMassKg: 25 }), 'climbRate', 'climbThrust')).toEqual([
      'outsideModel',
      'outsideModel',
    ])
    expect(reasons(predict({ tank: null }), 'fuelFlow', 'endurance', 'range')).toEqual([
      undefined,
      'tankNotGiven',
      'tankNotGiven',
    ])
    const allReserve = predict({ tank: { tankL: 2, reserve: { minutes: 120 } } })
    expect(reasons(allReserve, 'endurance', 'range')).toEqual([
      'reserveExceedsTank',
      'reserveExceedsTank',
    ])
    expect(
      reasons(predict({}, { ratedRpm: null }), 'engineRpm', 'propellerRpm', 'tipMach'),
    ).toEqual(['ratedRpmUnknown', 'ratedRpmUnknown', 'ratedRpmUnknown'])
    expect(
      reasons(predict({}, { reductionRatio: null }), 'engineRpm', 'propellerRpm', 'tipMach'),
    ).toEqual([undefined, 'reductionUnknown', 'reductionUnknown'])
  })

  it('gives an electric drive its climb and refuses its fuel', () => {
    const electric = predict({}, { equipment: { drive: 'electric', propellerDiameterCm: 130 } })
    expect(figures(electric, 'climbRate').value).toBeGreaterThan(0)
    for (const name of ['fuelFlow', 'litresPer100Km', 'endurance', 'range'] as const) {
      expect(electric[name].refusal?.code).toBe('electricDrive')
    }
    expect(predict().electricPower.refusal?.code).toBe('combustionDrive')
  })

  it('gives an electric drive the power of level flight, as load goes', () => {
    const equipment = { drive: 'electric', propellerDiameterCm: 130 } as const
    const electric = predict({}, { equipment })
    const burning = predict()
    const perEstimate = (basis: 'electricPower' | 'fuelFlow', value: number) =>
      value / Math.exp(evidence[basis].view.logQuantityOf('plain')!)
    // Both go as T(V + v), so each stands in the same ratio to its own figure at the reference state.
    expect(perEstimate('electricPower', figures(electric, 'electricPower').value)).toBeCloseTo(
      perEstimate('fuelFlow', figures(burning, 'fuelFlow').value),
      9,
    )
    const share = (of: typeof electric, name: Predicted, source: string) =>
      figures(of, name).budget.find((line) => line.source === source)!.standardUncertainty /
      figures(of, name).value
    // METHOD.md, sections e and j: a motor is off by up to 0.05 of |ln W| and 0.05 of |ln ρ|, an engine by more.
    const { densityKgPerM3: density } = airAt(stateOf(completeConditions(asked)))
    const [ofMass, ofAir] = [Math.log(128 / 120), Math.abs(Math.log(density / 1.225))]
    const ofMotor = share(electric, 'electricPower', 'drive at part load')
    expect(ofMotor).toBeCloseTo(0.05 * ofMass + 0.05 * ofAir, 4)
    expect(share(burning, 'fuelFlow', 'engine at part load')).toBeGreaterThan(2 * ofMotor)
  })

  it('lets static thrust follow two thirds of what the power in this air is off by', () => {
    const relative = (name: 'fullThrottlePowerRatio' | 'staticThrust') => {
      const { budget, value } = figures(predict({ uncertainty: EXACT }), name)
      const line = budget.find(({ source }) => source === 'engine power in this air')!
      return line.standardUncertainty / value
    }
    expect(relative('staticThrust') / relative('fullThrottlePowerRatio')).toBeCloseTo(2 / 3, 3)
  })

  it('gives no figure without a standard error', () => {
    const { view } = evidence.inducedPower
    const unknown = { ...view.contrast([{ setup: 'plain', weight: 1 }]), standardError: Infinity }
    const predictions = predictSetup({
      setup,
      conditions: completeConditions(asked),
      evidence: {
        ...evidence,
        inducedPower: { ...evidence.inducedPower, view: { ...view, contrast: () => unknown } },
      },
    })
    expect(predictions.climbRate.refusal?.code).toBe('notEstimable')
    expect(predictions.fuelFlow.refusal).toBeNull()
  })

  // JCGM 101: all unknowns drawn, 20 000 times. The ends of the drawn interval scatter by about 1.5 % of
  // its half-width; the rest of the tolerance is what a quadrature of one-sided reaches may be off.
  it('agrees with drawing all unknowns at once', () => {
    const question = {
      setup,
      conditions: completeConditions({ ...asked, relativeHumidityPct: 50 }),
      evidence,
    }
    const predictions = predictSetup(question)
    const unknowns = unknownsOf(question, 'mean')
    const { reductionRatio, equipment } = setup
    const { elevationM, flatAreaM2, reserve } = question.conditions
    const context = { equipment, reductionRatio, elevationM, flatAreaM2, reserve }
    const random = new Pcg32(5)
    const names = ['climbRate', 'climbThrust', 'fuelFlow', 'endurance', 'range', 'tipMach'] as const
    const drawn = names.map((): number[] => [])
    for (let draw = 0; draw < 20_000; draw++) {
      const x = Float64Array.from(unknowns, (unknown) => {
        const { value, standardUncertainty, degreesOfFreedom = 1e9 } = unknown
        // Student's t as a normal over the root of a mean of squares (degrees rounded down).
        let squares = 0
        const degrees = Math.floor(degreesOfFreedom)
        if (degrees < 200) for (let i = 0; i < degrees; i++) squares += random.normal() ** 2
        const divisor = degrees < 200 ? Math.sqrt(squares / degrees) : 1
        const wanted = value + (standardUncertainty * random.normal()) / divisor
        return Math.min(unknown.max ?? Infinity, Math.max(unknown.min ?? -Infinity, wanted))
      })
      const y = forecast(x, context)
      for (const [k, name] of names.entries()) drawn[k]!.push(y[PREDICTED.indexOf(name)]!)
    }
    for (const [k, name] of names.entries()) {
      const sorted = drawn[k]!.sort((a, b) => a - b)
      const { interval95 } = figures(predictions, name)
      const half = (interval95[1] - interval95[0]) / 2
      expect(Math.abs(interval95[0] - sorted[500]!) / half).toBeLessThan(0.08)
      expect(Math.abs(interval95[1] - sorted[19_500]!) / half).toBeLessThan(0.08)
    }
  })

  it('does not answer for a wing outside the model', () => {
    const wing = { flatAreaM2: 24, glideRatio: 4.5, glideSource: 'catalogue' } as const
    expect(() => predict({ wing })).toThrow(OutOfRangeError)
  })
})

describe('completeConditions', () => {
  const complete = (change: Partial<AskedPrediction>) => completeConditions({ ...asked, ...change })

  it('puts the documented uncertainties where the caller states none', () => {
    const conditions = complete({})
    expect(conditions.allUpMassKg.u).toBe(2)
    expect(conditions.temperatureC.u).toBe(1.5)
    expect(conditions.relativeHumidityPct.u).toBe(15)
    expect(conditions.glideRatio.u).toBeCloseTo(0.07 * 6.8, 12)
    expect(conditions.trimSpeedMps.u).toBeCloseTo(0.04 * 10.8, 12)
    expect(conditions.tankL?.u).toBeCloseTo(0.24, 12)
    expect(conditions.assumed).toEqual([])
    // 2 hPa of QNH at 600 m: dp/dQNH by a difference of the barometric formula itself.
    const up = complete({ qnhHPa: 1019 }).stationPressureHPa.value
    const down = complete({ qnhHPa: 1017 }).stationPressureHPa.value
    expect(conditions.stationPressureHPa.u).toBeCloseTo(up - down, 5)
  })

  it('takes 15 % off a catalogue’s glide ratio, 12 % uncertain', () => {
    const wing = { flatAreaM2: 24, glideRatio: 8.2, glideSource: 'catalogue' } as const
    const { glideRatio } = complete({ wing })
    expect(glideRatio.value).toBeCloseTo(0.85 * 8.2, 12)
    expect(glideRatio.u).toBeCloseTo(0.12 * 0.85 * 8.2, 12)
  })

  it('knows a mass class only as well as it is narrow', () => {
    const { allUpMassKg } = complete({ allUpMassKg: undefined, massClass: '120to140' })
    expect(allUpMassKg.value).toBe(130)
    expect(allUpMassKg.u).toBeCloseTo(20 / Math.sqrt(12), 12)
  })

  it('says what it took for granted', () => {
    const { assumed } = completeConditions({
      elevationM: 0,
      wing: null,
      tank: null,
      uncertainty: {},
    })
    expect(assumed.join(' ')).toMatch(
      /120 kg.*standard atmosphere.*Pressure.*humidity.*glide.*trim/s,
    )
  })
})
