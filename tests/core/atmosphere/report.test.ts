import { describe, expect, it } from 'vitest'

import { atmosphereReport } from '../../../src/core/atmosphere/report.ts'
import { OutOfRangeError } from '../../../src/core/errors.ts'

describe('atmosphereReport', () => {
  it('finds everything standard in the standard atmosphere', () => {
    const report = atmosphereReport({ elevationM: 0, temperatureC: 15, relativeHumidityPct: 0 })
    expect(report.stationPressureHPa).toBeCloseTo(1013.25, 9)
    expect(report.pressureAltitudeM).toBeCloseTo(0, 9)
    expect(report.fullThrottlePowerRatio).toBeCloseTo(1, 9)
    // 0.04 %, or 4 m: CIPM-2007 makes dry air that much denser than the gas law of ISO 2533.
    expect(Math.abs(report.densityRatio - 1)).toBeLessThan(5e-4)
    expect(Math.abs(report.densityAltitudeM)).toBeLessThan(5)
    expect(report.assumed).toEqual(['Pressure of the standard atmosphere at the elevation.'])
  })

  // Scenario A of the specification at the field; regression values computed by the team.
  it('turns QNH into the pressure at the field', () => {
    const report = atmosphereReport({
      elevationM: 600,
      temperatureC: 25,
      qnhHPa: 1018,
      relativeHumidityPct: 50,
    })
    expect(report.stationPressureHPa).toBeCloseTo(947.699, 3)
    expect(report.assumed).toEqual([])
    expect(report.densityAltitudeM).toBeGreaterThan(report.pressureAltitudeM)
    expect(report.fullThrottlePowerRatio).toBeGreaterThan(report.densityRatio)
  })

  it('says what it assumed, and prefers the pressure at the field to QNH', () => {
    const report = atmosphereReport({
      elevationM: 600,
      temperatureC: 25,
      qnhHPa: 1018,
      stationPressureHPa: 940,
    })
    expect(report.stationPressureHPa).toBe(940)
    expect(report.assumed).toEqual(['Relative humidity 50 %.'])
  })

  it('refuses what is no number', () => {
    expect(() => atmosphereReport({ elevationM: Number.NaN, temperatureC: 15 })).toThrow(
      OutOfRangeError,
    )
    expect(() => atmosphereReport({ elevationM: 0, temperatureC: Number.NaN })).toThrow(
      OutOfRangeError,
    )
  })
})
