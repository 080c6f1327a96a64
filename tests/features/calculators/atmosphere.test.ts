import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { startTestApp, type TestApp } from '../../support/app.ts'

let service: TestApp

beforeAll(async () => {
  service = await startTestApp()
})

afterAll(async () => service?.close())

const METRES_PER_FOOT = 0.3048

const ask = (query: Record<string, number | string>) =>
  service.request.get('/v1/atmosphere').query(query)

describe('GET /v1/atmosphere', () => {
  it('gives the standard atmosphere at sea level for its dry air', async () => {
    const query = { elevationM: 0, temperatureC: 15, qnhHPa: 1013.25, relativeHumidityPct: 0 }
    const { body } = await ask(query).expect(200)
    // Source: ISO 2533:1975, sea level: p 1013.25 hPa, rho 1.225 kg/m3, a 340.294 m/s, all by
    // definition or to the printed digits; tolerances are half a unit of the last digit.
    expect(body.stationPressureHPa).toBeCloseTo(1013.25, 8)
    expect(body.airDensityKgPerM3).toBeCloseTo(1.225, 5)
    expect(body.speedOfSoundMps).toBeCloseTo(340.294, 3)
    // Computed from these: nothing to correct, up to rounding of floating point.
    expect(body.densityRatio).toBeCloseTo(1, 6)
    expect(body.pressureAltitudeM).toBeCloseTo(0, 6)
    expect(Math.abs(body.densityAltitudeM)).toBeLessThan(0.01)
    expect(body.fullThrottlePowerRatio).toBeCloseTo(1, 8)
    expect(body.assumed).toEqual([])
  })

  // Source: docstring of std_atm.py in the public repository khorton/AeroCalc_Package (method of
  // wahiduddin.net): dry air at a pressure altitude of 7000 ft. Tolerance: 1 ft, because its
  // constants are those of the US Standard Atmosphere 1976 in imperial units.
  it.each([
    [15, 8595.3466],
    [(85 - 32) / 1.8, 10_159.107],
  ])(
    'gives the published density altitude of dry air at 7000 ft and %d °C',
    async (temperatureC, feet) => {
      const elevationM = 7000 * METRES_PER_FOOT
      const { body } = await ask({ elevationM, temperatureC, relativeHumidityPct: 0 }).expect(200)
      expect(Math.abs(body.densityAltitudeM / METRES_PER_FOOT - feet)).toBeLessThan(1)
    },
  )

  it('reduces a QNH to the place', async () => {
    // Computed by the team from the definition of QNH, twice, independently: 94 769.9 Pa.
    const { body } = await ask({ elevationM: 600, temperatureC: 25, qnhHPa: 1018 }).expect(200)
    expect(body.stationPressureHPa).toBeCloseTo(947.699, 3)
    expect(body.assumed).toHaveLength(1)
    expect(body.assumed[0]).toContain('50 %')
  })

  it('answers the same for the station pressure as for the QNH that it stands for', async () => {
    const place = { elevationM: 1200, temperatureC: 21, relativeHumidityPct: 40 }
    const byQnh = (await ask({ ...place, qnhHPa: 1021 }).expect(200)).body
    const { stationPressureHPa } = byQnh
    const byStation = (await ask({ ...place, stationPressureHPa }).expect(200)).body
    expect(byStation).toEqual(byQnh)
  })

  it('says what it assumed where only elevation and temperature are given', async () => {
    const { body } = await ask({ elevationM: 300, temperatureC: 20 }).expect(200)
    expect(body.assumed).toHaveLength(2)
    expect(body.pressureAltitudeM).toBeCloseTo(300, 6)
  })

  it('makes humid air lighter and an engine weaker', async () => {
    const place = { elevationM: 300, temperatureC: 30 }
    const dry = (await ask({ ...place, relativeHumidityPct: 5 }).expect(200)).body
    const humid = (await ask({ ...place, relativeHumidityPct: 95 }).expect(200)).body
    expect(humid.airDensityKgPerM3).toBeLessThan(dry.airDensityKgPerM3)
    expect(humid.densityAltitudeM).toBeGreaterThan(dry.densityAltitudeM)
    expect(humid.fullThrottlePowerRatio).toBeLessThan(dry.fullThrottlePowerRatio)
  })

  it.each([
    [{ temperatureC: 15 }, 'elevationM'],
    [{ elevationM: 100 }, 'temperatureC'],
    [{ elevationM: '', temperatureC: 15 }, 'elevationM'],
    [{ elevationM: 100, temperatureC: 'warm' }, 'temperatureC'],
    [{ elevationM: 9000, temperatureC: 15 }, 'elevationM'],
    [{ elevationM: 100, temperatureC: 15, relativeHumidityPct: 101 }, 'relativeHumidityPct'],
    [
      { elevationM: 100, temperatureC: 15, qnhHPa: 1013, stationPressureHPa: 1001 },
      'stationPressureHPa',
    ],
    [{ elevationM: 2000, temperatureC: 15, stationPressureHPa: 1018 }, 'stationPressureHPa'],
  ])('refuses %j at its field', async (query, field) => {
    const answer = await ask(query)
    expect(answer.status).toBe(400)
    expect(answer.body.errors.map((e: { pointer: string }) => e.pointer)).toEqual([`/${field}`])
  })

  it.each([
    [{ qnhHPa: 101_325 }, 'read as Pa it is 1013 hPa'],
    [{ qnhHPa: 29.92 }, 'read as inHg it is 1013 hPa'],
    [{ temperatureC: 288.15 }, 'read as K it is 15 °C'],
    [{ stationPressureHPa: 1018, elevationM: 2000 }, 'is it a QNH'],
  ])('says so where %j looks like a mistake', async (part, hint) => {
    const answer = await ask({ elevationM: 100, temperatureC: 15, ...part })
    expect(answer.status).toBe(400)
    expect(answer.body.errors[0].detail).toContain(hint)
  })
})
