import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { densityAltitudeM } from '../../../src/core/atmosphere/altitude.ts'
import { standardDensityKgPerM3 } from '../../../src/core/atmosphere/density.ts'
import { moistAirDensityKgPerM3 } from '../../../src/core/atmosphere/humidity.ts'
import {
  pressureAltitudeM,
  qnhPa,
  standardPressurePa,
  stationPressurePa,
} from '../../../src/core/atmosphere/pressure.ts'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const heightM = between(-5000, 20_000)

describe('the standard atmosphere', () => {
  // Tolerance: 20 km and its pressure carry 16 digits; the exponential costs a few of them.
  it('is undone by pressure altitude to a micrometre', () => {
    fc.assert(
      fc.property(heightM, (h) => {
        expect(Math.abs(pressureAltitudeM(standardPressurePa(h)) - h)).toBeLessThan(1e-6)
      }),
    )
  })

  it('is undone by density altitude in the troposphere', () => {
    fc.assert(
      fc.property(between(-5000, 11_000), (h) => {
        expect(Math.abs(densityAltitudeM(standardDensityKgPerM3(h)) - h)).toBeLessThan(1e-6)
      }),
    )
  })

  // The power function rounds: two heights a picometre apart may come out in the wrong order by one
  // unit in the last place, 2e-16.
  it('never gains pressure or density with height', () => {
    fc.assert(
      fc.property(heightM, heightM, (a, b) => {
        const [low, high] = a < b ? [a, b] : [b, a]
        expect(standardPressurePa(high)).toBeLessThanOrEqual(standardPressurePa(low) * (1 + 1e-15))
        expect(standardDensityKgPerM3(high)).toBeLessThanOrEqual(
          standardDensityKgPerM3(low) * (1 + 1e-15),
        )
      }),
    )
  })
})

describe('QNH and station pressure', () => {
  it('undo each other', () => {
    fc.assert(
      fc.property(between(87_000, 108_500), between(-430, 5500), (qnh, elevationM) => {
        const back = qnhPa(stationPressurePa(qnh, elevationM), elevationM)
        expect(Math.abs(back - qnh)).toBeLessThan(1e-6)
      }),
    )
  })
})

describe('moist air', () => {
  it('grows lighter with warmth and with humidity, heavier with pressure', () => {
    fc.assert(
      fc.property(
        between(50_000, 108_500),
        between(233, 328),
        between(0, 0.99),
        (pressurePa, temperatureK, humidity) => {
          const density = moistAirDensityKgPerM3(pressurePa, temperatureK, humidity)
          expect(moistAirDensityKgPerM3(pressurePa, temperatureK + 0.1, humidity)).toBeLessThan(
            density,
          )
          expect(moistAirDensityKgPerM3(pressurePa, temperatureK, humidity + 0.01)).toBeLessThan(
            density,
          )
          expect(moistAirDensityKgPerM3(pressurePa + 10, temperatureK, humidity)).toBeGreaterThan(
            density,
          )
        },
      ),
    )
  })
})
