import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { RHO0 } from '../../../src/core/atmosphere/constants.ts'
import { pistonPowerRatio } from '../../../src/core/normalise/model/full-throttle-power.ts'
import { discAreaM2, inducedVelocityMps } from '../../../src/core/normalise/model/induced-power.ts'
import {
  helicalTipMach,
  staticFigureOfMerit,
  tipSpeedMps,
} from '../../../src/core/normalise/model/propeller.ts'
import {
  idealStaticThrustN,
  thrustAlongAxisN,
} from '../../../src/core/normalise/model/static-thrust.ts'
import { staticThrustAt } from '../../../src/core/normalise/predict.ts'
import { normaliseRun } from '../../../src/core/normalise/run.ts'
import type { Equipment, RunInput, StaticPullRun } from '../../../src/core/normalise/types.ts'
import { checkValue, expectRow } from './check-values.ts'
import { SCENARIO_A } from './scenario-a.ts'

const disc = { densityKgPerM3: RHO0, areaM2: discAreaM2(1.25) }
const PULL: StaticPullRun = { kind: 'staticPull', thrustN: 600, headwindMps: 0 }

/** A pull in dry air of 95 000 Pa and 30 °C: the air of the row static-std. */
function dryPull(
  change: Partial<StaticPullRun> = {},
  equipment: Partial<Equipment> = {},
): RunInput {
  return {
    ...SCENARIO_A,
    session: {
      ...SCENARIO_A.session,
      conditions: {
        temperatureC: 30,
        stationPressureHPa: 950,
        relativeHumidityPct: 0,
        airMotion: 'calm',
      },
    },
    equipment: { ...SCENARIO_A.equipment, ...equipment },
    run: { ...PULL, ...change },
  }
}

const thrust = (input: RunInput) => normaliseRun(input).normalized.value

describe('a static pull', () => {
  // Regression value of the specification. Its density is that of the gas law, ours that of CIPM-2007,
  // 0.04 % denser: σ^(−⅓) moves by 0.013 %, 0.09 N.
  it('comes to sea level as σ^(−⅓)·φ^(−⅔)', () => {
    const row = checkValue('static-std')
    expect(Math.abs(thrust(dryPull()) - (row.expected as number))).toBeLessThan(0.11)
    const sigma = 95_000 / (287.05287 * 303.15) / RHO0
    const phi = pistonPowerRatio(95_000, 303.15)
    expectRow(row, [600 * sigma ** (-1 / 3) * phi ** (-2 / 3)])
  })

  it('takes the wind and the angle of the line out', () => {
    // Derived: the first metre per second costs w/(3v) of the thrust.
    const v = inducedVelocityMps(600, 0, disc)
    expectRow(checkValue('static-wind'), [-1 / (3 * v)])
    const slope = Math.log(thrust(dryPull({ headwindMps: 0.01 })) / thrust(dryPull())) / 0.01
    const air = { densityKgPerM3: 1.0917, areaM2: disc.areaM2 }
    expect(slope).toBeCloseTo(1 / (3 * inducedVelocityMps(600, 0, air)), 3)
    expect(thrust(dryPull({ lineAngleDeg: 60 })) / thrust(dryPull())).toBeCloseTo(2, 9)
    expect(thrustAlongAxisN(600, -10)).toBe(thrustAlongAxisN(600, 10))
  })

  it('comes back from sea level as it was pulled', () => {
    fc.assert(
      fc.property(
        fc.record({
          thrustN: fc.double({ min: 200, max: 1200, noNaN: true }),
          temperatureC: fc.double({ min: -15, max: 38, noNaN: true }),
          stationPressureHPa: fc.double({ min: 750, max: 1040, noNaN: true }),
          relativeHumidityPct: fc.double({ min: 5, max: 100, noNaN: true }),
          drive: fc.constantFrom('twoStroke' as const, 'fourStroke' as const, 'electric' as const),
        }),
        ({ thrustN, drive, ...conditions }) => {
          const plain = dryPull({ thrustN }, { drive })
          const session = { ...plain.session, conditions: { ...conditions, airMotion: 'calm' } }
          const elevationM = session.site.elevationM
          const standard = thrust({ ...plain, session } as RunInput)
          const back = staticThrustAt(
            { staticThrustN: standard, drive },
            { ...conditions, elevationM },
          )
          expect(Math.abs(back / thrustN - 1)).toBeLessThan(1e-9)
        },
      ),
    )
  })

  it('shows more when it pulled more, into more wind, or in thinner air', () => {
    const wind = fc.double({ min: 0, max: 2.9, noNaN: true })
    fc.assert(
      fc.property(fc.double({ min: 100, max: 1500, noNaN: true }), wind, (thrustN, headwindMps) => {
        const here = thrust(dryPull({ thrustN, headwindMps }))
        expect(thrust(dryPull({ thrustN: thrustN + 1, headwindMps }))).toBeGreaterThan(here)
        expect(thrust(dryPull({ thrustN, headwindMps: headwindMps + 0.1 }))).toBeGreaterThan(here)
      }),
    )
  })

  it('is evidence of static thrust; thrust cell, wind and line are its own errors', () => {
    const { normalized, evidence } = normaliseRun(dryPull({ lineAngleDeg: 10 }))
    expect(evidence!.quantity).toBe('staticThrust')
    expect(evidence!.logValue).toBeCloseTo(Math.log(normalized.value), 12)
    const own = normalized.budget.filter((line) => !line.sharedWithinSession)
    expect(own.map((line) => line.source).sort()).toEqual([
      'angle of the line',
      'headwind',
      'pull on the load cell',
    ])
    // u(ln T) of the cell, wind and line: 3 N of 600, 1/(3v) and tan θ·3°; within the curvature of a step.
    const expected = Math.hypot(0.005, 0.0223, Math.tan(Math.PI / 18) * (Math.PI / 60))
    expect(evidence!.ownStandardUncertainty / expected).toBeCloseTo(1, 1)
  })

  it('carries what the model of constant power leaves out, 0.05·|ln σ|', () => {
    const { budget, value } = normaliseRun(dryPull()).normalized
    const line = budget.find(({ source }) => source === 'static thrust in this air')!
    const sigma = 95_000 / (287.05287 * 303.15) / RHO0
    expect(line.standardUncertainty / value).toBeCloseTo(0.05 * Math.abs(Math.log(sigma)), 4)
  })

  it('takes a stronger wind at the field for a wider uncertainty where no headwind is given', () => {
    const windy = (windMps: number) => {
      const input = dryPull({ headwindMps: undefined })
      const conditions = { ...input.session.conditions, windMps }
      return normaliseRun({ ...input, session: { ...input.session, conditions } })
    }
    const u = (windMps: number) => windy(windMps).evidence!.ownStandardUncertainty
    expect(u(1)).toBe(u(0))
    expect(u(4)).toBeGreaterThan(1.5 * u(0))
    expect(windy(1).warnings.map(({ code }) => code)).toContain('headwindAssumed')
  })
})

describe('the propeller', () => {
  it('has no more static thrust than an ideal one', () => {
    expectRow(checkValue('static-ideal'), [idealStaticThrustN(11_000, disc)])
    expect(staticFigureOfMerit(idealStaticThrustN(11_000, disc), 11_000, disc)).toBeCloseTo(1, 12)
  })

  // Regression value of the specification, section i.
  it('has the tip Mach number of the specification', () => {
    const tip = tipSpeedMps(1.25, 9000 / 3)
    expect(helicalTipMach(tip, 10.5, 288.15)).toBeCloseTo(0.5778, 4)
  })

  it('shows its figures only where they can be worked out', () => {
    const derived = (change: Partial<StaticPullRun>, equipment: Partial<Equipment>) =>
      normaliseRun(dryPull(change, equipment)).derived
    expect(derived({ rpm: 8300 }, {})).toBeUndefined()
    expect(derived({}, { reductionRatio: 2.8 })).toBeUndefined()
    expect(Object.keys(derived({}, { ratedPowerKw: 15 })!)).toEqual(['figureOfMerit'])
    const all = derived({ rpm: 8300 }, { reductionRatio: 2.8, ratedPowerKw: 15 })!
    expect(all.propellerRpm).toBeCloseTo(2964.29, 2)
    // 600 N in air of about 1.092 kg/m³: T/(ρ·n²·D⁴), written out once more.
    expect(all.thrustCoefficient).toBeCloseTo(600 / (1.0922 * (2964.29 / 60) ** 2 * 1.25 ** 4), 3)
    expect(all.figureOfMerit).toBeGreaterThan(0.5)
    expect(all.figureOfMerit).toBeLessThan(0.8)
  })
})
