import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import {
  airDensityKgPerM3,
  climbAt,
  fuelFlowAt,
  REFERENCE,
  referenceWingFor,
} from '../../../src/core/normalise/predict.ts'

const setup = { inducedPowerW: 8900, propellerDiameterCm: 125, drive: 'twoStroke' } as const
const flow = { fuelFlowLPerH: 3, propellerDiameterCm: 125 } as const

describe('climbAt', () => {
  it('gives a sink rate as a negative climb to a set-up too weak to hold height', () => {
    const weak = climbAt({ ...setup, inducedPowerW: 1500 }, REFERENCE)
    expect(weak.climbRateMps).toBeLessThan(0)
    expect(weak.climbRateElasticity).toBeNull()
    expect(weak.climbRateSlopeMps).toBeGreaterThan(0)
    expect(weak.thrustElasticity).toBeGreaterThan(0)
  })

  it('says so when the power is past its model, instead of throwing', () => {
    const light = climbAt({ ...setup, inducedPowerW: 40_000 }, REFERENCE)
    expect(light.withinModel).toBe(false)
    expect(light.climbAngleDeg).toBeCloseTo(45, 9)
  })

  // Analytic derivatives against central differences of the same function.
  it('has the derivatives it claims', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 4000, max: 14_000, noNaN: true }),
        fc.double({ min: 90, max: 200, noNaN: true }),
        (inducedPowerW, allUpMassKg) => {
          const state = { ...REFERENCE, allUpMassKg, wing: referenceWingFor(allUpMassKg) }
          const at = (change: number) =>
            climbAt({ ...setup, inducedPowerW: inducedPowerW * Math.exp(change) }, state)
          const here = at(0)
          const step = 1e-4
          const slope = (at(step).climbRateMps - at(-step).climbRateMps) / (2 * step)
          const thrust = Math.log(at(step).thrustN / at(-step).thrustN) / (2 * step)
          expect(Math.abs(here.climbRateSlopeMps - slope)).toBeLessThan(1e-5)
          expect(Math.abs(here.thrustElasticity - thrust)).toBeLessThan(1e-5)
          if (here.climbRateElasticity === null) expect(here.climbRateMps).toBeLessThanOrEqual(0)
          else expect(here.climbRateElasticity * here.climbRateMps).toBeCloseTo(slope, 4)
        },
      ),
    )
  })

  it('climbs better with more power, worse with mass, height and heat', () => {
    const rate = (change: object, power = 8900) =>
      climbAt(
        { ...setup, inducedPowerW: power },
        { ...REFERENCE, stationPressureHPa: undefined, ...change },
      ).climbRateMps
    const plain = rate({})
    expect(rate({}, 9500)).toBeGreaterThan(plain)
    expect(rate({ allUpMassKg: 140 })).toBeLessThan(plain)
    expect(rate({ elevationM: 1500 })).toBeLessThan(plain)
    expect(rate({ temperatureC: 35 })).toBeLessThan(plain)
  })

  it('spares an electric drive the loss of power, not the loss of density', () => {
    const high = { ...REFERENCE, stationPressureHPa: 800 }
    const electric = climbAt({ ...setup, drive: 'electric' }, high)
    expect(electric.climbRateMps).toBeGreaterThan(climbAt(setup, high).climbRateMps)
    expect(electric.thrustN).toBeLessThan(climbAt(setup, REFERENCE).thrustN)
  })

  it.each([
    ['power', () => climbAt({ ...setup, inducedPowerW: Number.NaN }, REFERENCE)],
    ['diameter', () => climbAt({ ...setup, propellerDiameterCm: Number.NaN }, REFERENCE)],
    ['mass', () => climbAt(setup, { ...REFERENCE, allUpMassKg: Number.NaN })],
    [
      'elevation',
      () => climbAt(setup, { ...REFERENCE, stationPressureHPa: undefined, elevationM: Number.NaN }),
    ],
    ['temperature', () => climbAt(setup, { ...REFERENCE, temperatureC: Number.NaN })],
    ['humidity', () => climbAt(setup, { ...REFERENCE, relativeHumidityPct: Number.NaN })],
    ['flow', () => fuelFlowAt({ ...flow, fuelFlowLPerH: Number.NaN }, REFERENCE)],
  ])('refuses a %s that is no number', (_, act) => {
    expect(act).toThrow(OutOfRangeError)
  })
})

describe('fuelFlowAt', () => {
  it('is the flow at the reference state there', () => {
    expect(fuelFlowAt(flow, REFERENCE)).toBeCloseTo(3, 12)
  })

  it('scales as W^1.5·ρ^−0.5 for one wing', () => {
    const state = { ...REFERENCE, allUpMassKg: 135, temperatureC: 30, stationPressureHPa: 950 }
    const expected =
      3 * (135 / 120) ** 1.5 * Math.sqrt(airDensityKgPerM3(REFERENCE) / airDensityKgPerM3(state))
    expect(fuelFlowAt(flow, state)).toBeCloseTo(expected, 12)
  })
})

describe('the reference', () => {
  it('is its own wing at its own mass', () => {
    expect(referenceWingFor(REFERENCE.allUpMassKg)).toEqual(REFERENCE.wing)
  })

  it('keeps loading and trim speed at any mass', () => {
    const { flatAreaM2, trimSpeedMps, trimAtAllUpMassKg } = referenceWingFor(90)
    expect(90 / flatAreaM2).toBeCloseTo(5, 12)
    expect([trimSpeedMps, trimAtAllUpMassKg]).toEqual([10.5, 90])
  })

  it('has the air of ISO 2533 at sea level', () => {
    expect(airDensityKgPerM3(REFERENCE)).toBeCloseTo(1.225, 6)
  })
})
