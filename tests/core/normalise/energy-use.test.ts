import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { prepareEnergyUse } from '../../../src/core/normalise/energy-use.ts'
import { fuelFlowAt } from '../../../src/core/normalise/predict.ts'
import { knownSession, normaliseRun } from '../../../src/core/normalise/run.ts'
import type { EnergyUseRun, FuelBurnRun, RunInput } from '../../../src/core/normalise/types.ts'
import { KELVIN_OFFSET, PA_PER_HPA } from '../../../src/core/units.ts'
import { type Everyday, everyday } from './arbitraries.ts'
import { SCENARIO_A } from './scenario-a.ts'

const RUN: EnergyUseRun = {
  kind: 'energyUse',
  energyWh: 700,
  durationS: 540,
  heightAboveSiteM: 150,
  heightChangeM: 0,
  batteryStartV: 54,
  batteryEndV: 52.5,
}
const ELECTRIC = { ...SCENARIO_A.equipment, drive: 'electric' } as const

const used = (change: Partial<EnergyUseRun> = {}) =>
  normaliseRun({ ...SCENARIO_A, equipment: ELECTRIC, run: { ...RUN, ...change } })

/** The same everyday flight, on a battery. */
const onBattery = (given: Everyday): RunInput & { readonly run: EnergyUseRun } => ({
  ...given,
  equipment: { ...given.equipment, drive: 'electric' },
  run: {
    ...RUN,
    durationS: given.burn.durationS,
    heightAboveSiteM: given.burn.heightAboveSiteM,
    heightChangeM: given.burn.heightChangeM,
  },
})

describe('an energy use', () => {
  it('is electric power at the reference state, and evidence of it', () => {
    const { normalized, evidence } = used()
    expect(normalized).toMatchObject({ metric: 'electricPower', unit: 'W' })
    expect(normalized.electricPowerW).toBe(normalized.value)
    expect(evidence!.quantity).toBe('electricPower')
    expect(evidence!.logValue).toBeCloseTo(Math.log(normalized.value), 12)
  })

  // Same wing, so the exponents of section e hold exactly: (120/135)^1.5·(ρ/ρ0)^0.5, with the trim
  // speed of another wing than the reference wing's beside it.
  it('scales with mass as W^1.5', () => {
    const at = (allUpMassKg: number) => {
      const entry = { ...SCENARIO_A.entry, allUpMassKg }
      return normaliseRun({ ...SCENARIO_A, entry, equipment: ELECTRIC, run: RUN }).normalized.value
    }
    expect(at(120) / at(135)).toBeCloseTo((135 / 120) ** 1.5, 9)
  })

  it('comes back as flown when predicted for the same air and wing', () => {
    fc.assert(
      fc.property(everyday, (given) => {
        const input = onBattery(given)
        const known = knownSession(input.session, input.entry.allUpMassKg)
        const { flown } = prepareEnergyUse(known, input)
        const { session, entry, equipment } = given
        const back = fuelFlowAt(
          { fuelFlowLPerH: flown.referencePowerW / 1000, ...equipment },
          {
            allUpMassKg: entry.allUpMassKg,
            elevationM: session.site.elevationM,
            temperatureC: flown.air.temperatureK - KELVIN_OFFSET,
            stationPressureHPa: flown.air.pressurePa / PA_PER_HPA,
            relativeHumidityPct: session.conditions.relativeHumidityPct,
            wing: {
              flatAreaM2: session.wing.flatAreaM2,
              glideRatio: session.wing.glideRatio!,
              trimSpeedMps: session.wing.trimSpeedMps!,
              trimAtAllUpMassKg: session.wing.trimAtAllUpMassKg!,
            },
          },
        )
        // Flow and power follow mass, wing and air alike; a kilowatt stands in for a litre per hour.
        const levelKw = (flown.electricPowerW * flown.levelFactor) / 1000
        expect(Math.abs(back / levelKw - 1)).toBeLessThan(1e-9)
      }),
    )
  })

  it('counts more energy as more power, and height gained against it', () => {
    expect(used({ energyWh: 710 }).normalized.value).toBeGreaterThan(used().normalized.value)
    expect(used({ heightChangeM: 20 }).normalized.value).toBeLessThan(used().normalized.value)
  })

  it('has the time, the energy and the flying in its budget', () => {
    const sources = used().normalized.budget.map((line) => line.source)
    expect(sources).toEqual(
      expect.arrayContaining([
        'energy out of the battery',
        'time between the energy readings',
        'speed and bank held by hand',
        'drive at part load',
      ]),
    )
  })

  it('is nothing a piston engine has', () => {
    const petrol = { ...SCENARIO_A, run: RUN }
    expect(() => normaliseRun(petrol)).toThrow(OutOfRangeError)
  })
})

describe('a refill', () => {
  const burn: FuelBurnRun = {
    kind: 'fuelBurn',
    volumeMl: 2000,
    durationS: 2400,
    heightAboveSiteM: 200,
    heightChangeM: 0,
    fuelTemperatureC: 20,
  }
  const measured = (change: Partial<FuelBurnRun>) =>
    normaliseRun({ ...SCENARIO_A, run: { ...burn, ...change } }).normalized
  const line = (normalized: ReturnType<typeof measured>, source: string) =>
    normalized.budget.find((one) => one.source === source)

  it('has the same value as a measured filling', () => {
    expect(measured({ method: 'refill' }).value).toBe(measured({}).value)
  })

  // Section j: 20 mL at the pump, whatever the volume; no instant of starvation.
  it('is uncertain by 20 mL of any volume, and by the stopwatch alone', () => {
    const small = measured({ method: 'refill', volumeMl: 1000, durationS: 1200 })
    const big = measured({ method: 'refill' })
    const share = (n: typeof big) => line(n, 'fuel volume')!.standardUncertainty / n.value
    // Fuel burned makes the wing lighter, which adds 1 % to the sensitivity.
    expect(share(big) / (20 / 2000)).toBeCloseTo(1, 1)
    expect(share(small) / (20 / 1000)).toBeCloseTo(1, 1)
    expect(line(big, 'burn time and instant of starvation')).toBeUndefined()
    expect(line(big, 'burn time')!.standardUncertainty / big.value).toBeCloseTo(0.1 / 2400, 6)
  })

  it('takes a stated uncertainty before its own', () => {
    const stated = measured({ method: 'refill', uncertainty: { volumeMl: 5 } })
    expect(line(stated, 'fuel volume')!.standardUncertainty / stated.value).toBeCloseTo(0.0025, 3)
  })
})
