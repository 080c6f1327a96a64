import { describe, expect, it } from 'vitest'

import {
  densityAltitudeM,
  geometricM,
  geopotentialM,
} from '../../../src/core/atmosphere/altitude.ts'
import { P0, RHO0 } from '../../../src/core/atmosphere/constants.ts'
import {
  dryAirDensityKgPerM3,
  standardDensityKgPerM3,
} from '../../../src/core/atmosphere/density.ts'
import {
  pressureAltitudeM,
  qnhPa,
  standardPressurePa,
  stationPressurePa,
} from '../../../src/core/atmosphere/pressure.ts'
import { speedOfSoundMps } from '../../../src/core/atmosphere/sound.ts'
import {
  standardTemperatureAtPressureK,
  standardTemperatureK,
} from '../../../src/core/atmosphere/temperature.ts'
import { OutOfRangeError } from '../../../src/core/errors.ts'
import {
  celsiusFromFahrenheit,
  kelvinFromCelsius,
  METRES_PER_FOOT,
  MPS_PER_KNOT,
} from '../../../src/core/units.ts'
import { checkValue, checkValues, expectRow } from '../normalise/check-values.ts'

// Sources and tolerances of every row stand in tests/reference/check-values.json: half a unit of the
// last digit printed, since the published tables give five or six figures.
describe('the standard atmosphere', () => {
  // ISO 2533 / US Standard Atmosphere 1976, published rows seen; the argument is geometric height.
  it.each(checkValues('isa-h'))('gives the published row $id', (row) => {
    const { h_geometric_m, H_geopotential_m } = row.inputs
    const exact = geopotentialM(h_geometric_m!)
    // The table prints geopotential height to the metre.
    expect(Math.abs(exact - H_geopotential_m!)).toBeLessThan(0.6)
    // Row 11019 is H = 11 000 m exactly; its geometric height is the rounded one.
    const heightM = row.id === 'isa-h11019' ? 11_000 : exact
    const temperatureK = standardTemperatureK(heightM)
    expectRow(row, [
      temperatureK,
      standardPressurePa(heightM),
      standardDensityKgPerM3(heightM),
      speedOfSoundMps(temperatureK),
    ])
  })

  // Same source as those rows, from the table in the specification (airinnova/ambiance tests).
  // Tolerance: one unit of the last printed digit.
  it.each([
    [2000, 275.154, 79501.4, 1.00655],
    [20063, 216.65, 5474.87, 0.0880345],
  ])('gives the published row at %d m', (geometric, temperatureK, pressurePa, density) => {
    const heightM = geometric === 20063 ? 20_000 : geopotentialM(geometric)
    expect(Math.abs(standardTemperatureK(heightM) - temperatureK)).toBeLessThan(1e-3)
    expect(Math.abs(standardPressurePa(heightM) / pressurePa - 1)).toBeLessThan(2e-6)
    expect(Math.abs(standardDensityKgPerM3(heightM) / density - 1)).toBeLessThan(6e-6)
  })

  // PDAS table of US 1976, published rows seen; again geometric height.
  it.each(checkValues('isa76-'))('gives the published row $id', (row) => {
    const heightM = geopotentialM(row.inputs.h_geometric_km! * 1000)
    const pressurePa = standardPressurePa(heightM)
    const density = standardDensityKgPerM3(heightM)
    expectRow(row, [pressurePa / P0, density / RHO0, pressurePa, density])
  })

  // Trap named in the specification: that table is geometric, so 5000 m is not 54 048 Pa here.
  // Regression value computed by the team, not evidence.
  it('takes geopotential height, not geometric height', () => {
    expect(standardPressurePa(5000)).toBeCloseTo(54_019.9, 1)
  })

  // Regression value computed by the team, not evidence.
  it('turns geometric into geopotential height and back', () => {
    expectRow(checkValue('geopot-5000'), [geopotentialM(5000)])
    expect(geometricM(geopotentialM(5000))).toBeCloseTo(5000, 9)
  })

  it('has the sea-level density of ISO 2533, 1.225 kg/m³', () => {
    expect(Math.abs(RHO0 - 1.225)).toBeLessThan(1e-6)
  })

  it('finds its temperature from its pressure', () => {
    expect(standardTemperatureAtPressureK(standardPressurePa(3000))).toBeCloseTo(
      standardTemperatureK(3000),
      10,
    )
  })
})

describe('altitudes', () => {
  // AeroCalc docstrings, published values seen; altitudes in feet.
  it.each([
    ['da-7000ft-15C', kelvinFromCelsius(15)],
    ['da-7000ft-85F', kelvinFromCelsius(celsiusFromFahrenheit(85))],
  ])('gives the published density altitude %s', (id, temperatureK) => {
    const pressurePa = standardPressurePa(7000 * METRES_PER_FOOT)
    const altitudeM = densityAltitudeM(dryAirDensityKgPerM3(pressurePa, temperatureK))
    expectRow(checkValue(id), [altitudeM / METRES_PER_FOOT])
  })

  it('gives the published altitude of half the pressure and of half the density', () => {
    expectRow(checkValue('hp-ratio05'), [pressureAltitudeM(P0 / 2) / METRES_PER_FOOT])
    expectRow(checkValue('rho-ratio05'), [densityAltitudeM(RHO0 / 2) / METRES_PER_FOOT])
  })

  it('gives the published speed of sound at 15 °C', () => {
    expectRow(checkValue('sos-15C'), [speedOfSoundMps(288.15) / MPS_PER_KNOT])
  })

  // Regression value computed by the team, not evidence.
  it('gives the station pressure of a QNH and the way back', () => {
    expectRow(checkValue('qnh-station-600m-1018'), [stationPressurePa(101_800, 600)])
    expect(qnhPa(stationPressurePa(101_800, 600), 600)).toBeCloseTo(101_800, 6)
  })

  it('shows the elevation when the altimeter is set to QNH', () => {
    // Definition of QNH: the altimeter on the ground shows the elevation of the field. An altimeter
    // set to q shows Hp(p) − Hp(q).
    const station = stationPressurePa(99_000, 850)
    expect(pressureAltitudeM(station) - pressureAltitudeM(99_000)).toBeCloseTo(850, 8)
  })
})

describe('ranges', () => {
  // Found by the property tests: at this height the density came out one unit in the last place above
  // that at −5000 m, and its inverse refused it.
  it('do not refuse what rounding carries past their ends', () => {
    expect(densityAltitudeM(standardDensityKgPerM3(-4999.9999999999945))).toBeCloseTo(-5000, 6)
    for (const height of [-5000, 11_000, 20_000]) {
      expect(pressureAltitudeM(standardPressurePa(height))).toBeCloseTo(height, 6)
    }
  })

  it.each([
    ['NaN height', () => standardPressurePa(Number.NaN)],
    ['height above 20 km', () => standardTemperatureK(20_001)],
    ['height below −5 km', () => standardPressurePa(-5001)],
    ['pressure of no height', () => pressureAltitudeM(1)],
    ['NaN QNH', () => stationPressurePa(Number.NaN, 0)],
    ['QNH in Pascal taken for hectopascal', () => stationPressurePa(1013, 0)],
    ['negative temperature', () => speedOfSoundMps(-1)],
    ['density of no height', () => densityAltitudeM(3)],
  ])('refuses a %s', (_, act) => {
    expect(act).toThrow(OutOfRangeError)
  })
})
