import { describe, expect, it } from 'vitest'

import {
  DERIVED_LIMITS,
  FIELD_LIMITS,
  isInside,
  LATER_LIMITS,
  type Limit,
} from '../../../src/core/plausibility/limits.ts'
import { unitMistake } from '../../../src/core/plausibility/unit-mistakes.ts'

const all: [string, Limit][] = Object.entries({
  ...FIELD_LIMITS,
  ...DERIVED_LIMITS,
  ...LATER_LIMITS,
})

describe('limits', () => {
  it.each(all)('of %s have their soft range inside the hard one', (_, { hard, soft }) => {
    expect(soft.min).toBeLessThan(soft.max)
    expect(soft.min).toBeGreaterThanOrEqual(hard.min)
    expect(soft.max).toBeLessThanOrEqual(hard.max)
  })

  it('count a bound as inside unless it is open, and NaN as outside', () => {
    expect(isInside(0, { min: 0, max: 1 })).toBe(true)
    expect(isInside(0, { min: 0, max: 1, minOpen: true })).toBe(false)
    expect(isInside(1, { min: 0, max: 1, maxOpen: true })).toBe(false)
    expect(isInside(Number.NaN, { min: 0, max: 1 })).toBe(false)
  })
})

describe('unitMistake', () => {
  // The contract names ratios near 3.6, 0.3048, 9.81 and 100; the brief adds 1000, 2.2046 and °F.
  it.each([
    [FIELD_LIMITS.trimSpeedMps, 37.8, 'km/h', '10.5 m/s'],
    [FIELD_LIMITS.heightGainM, 5000, 'centimetres', '50 m'],
    [FIELD_LIMITS.heightGainM, 1200, 'feet', '365.8 m'],
    [FIELD_LIMITS.massKg, 187.4, 'pounds', '85 kg'],
    [FIELD_LIMITS.massKg, 882, 'newtons', '89.94 kg'],
    [FIELD_LIMITS.stationPressureHPa, 94_770, 'pascals', '947.7 hPa'],
    [FIELD_LIMITS.qnhHPa, 29.92, 'inches of mercury', '1013 hPa'],
    [FIELD_LIMITS.temperatureC, 77, 'degrees Fahrenheit', '25 °C'],
    [FIELD_LIMITS.temperatureC, 288.15, 'kelvin', '15 °C'],
    [FIELD_LIMITS.relativeHumidityPct, 0.62, 'a fraction of 1', '62 %'],
    [FIELD_LIMITS.propellerDiameterCm, 1.25, 'metres', '125 cm'],
    [FIELD_LIMITS.propellerDiameterCm, 49, 'inches', '124.5 cm'],
    [FIELD_LIMITS.volumeMl, 0.5, 'litres', '500 mL'],
    [FIELD_LIMITS.burnDurationS, 9.2, 'minutes', '552 s'],
    [FIELD_LIMITS.flatAreaM2, 258, 'square feet', '23.97 m²'],
    [FIELD_LIMITS.thrustN, 62, 'kilograms-force', '608 N'],
    [FIELD_LIMITS.thrustN, 140, 'pounds-force', '622.8 N'],
    [FIELD_LIMITS.energyWh, 0.7, 'kilowatt-hours', '700 Wh'],
    [FIELD_LIMITS.batteryV, 54_000, 'millivolts', '54 V'],
    [FIELD_LIMITS.ratedPowerKw, 14_000, 'watts', '14 kW'],
    [DERIVED_LIMITS.fuelFlow, 0.8, 'US gallons per hour', '3.028 L/h'],
  ])('of %o: %d looks like %s', (limit, value, unit, converted) => {
    expect(isInside(value, limit.soft)).toBe(false)
    // The likeliest unit wins: 5000 m are 1524 m in feet, still out of the ordinary.
    expect(unitMistake(value, limit)).toBe(`It looks like ${unit}: that would be ${converted}.`)
  })

  it('says nothing where no unit explains the value', () => {
    expect(unitMistake(1e9, FIELD_LIMITS.heightGainM)).toBe('')
    expect(unitMistake(Number.NaN, FIELD_LIMITS.heightGainM)).toBe('')
  })
})
