import { ASSUMED_HUMIDITY_PCT } from '../normalise/inputs/defaults.ts'
import { airAt } from '../normalise/model/air.ts'
import { pistonPowerRatio } from '../normalise/model/full-throttle-power.ts'
import { kelvinFromCelsius, PA_PER_HPA } from '../units.ts'
import { densityAltitudeM } from './altitude.ts'
import { densityRatio } from './density.ts'
import { pressureAltitudeM, standardPressurePa, stationPressurePa } from './pressure.ts'
import { speedOfSoundMps } from './sound.ts'

/** What is known of the air at a field. */
export interface AtmosphereQuestion {
  readonly elevationM: number
  readonly temperatureC: number
  /** Ignored where `stationPressureHPa` is given. */
  readonly qnhHPa?: number | undefined
  readonly stationPressureHPa?: number | undefined
  readonly relativeHumidityPct?: number | undefined
}

export interface AtmosphereReport {
  readonly stationPressureHPa: number
  readonly airDensityKgPerM3: number
  /** Over the standard atmosphere at sea level. */
  readonly densityRatio: number
  readonly pressureAltitudeM: number
  readonly densityAltitudeM: number
  readonly speedOfSoundMps: number
  /** Of a naturally aspirated piston engine, over that at ISA sea level, dry. */
  readonly fullThrottlePowerRatio: number
  /** What was not given and had to be assumed, in sentences. */
  readonly assumed: readonly string[]
}

/**
 * The air at a field, and what it leaves of an engine's power.
 *
 * @param question elevation [m], −1000 to 11 000; temperature [°C], −80 to 80; QNH [hPa], 700 to 1300,
 *   or station pressure [hPa], 226 to 1300, or neither; relative humidity [%], 0 to 100, or none
 * @returns pressure [hPa], density [kg/m³], altitudes [m], speed of sound [m/s], ratios [1]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source ISO 2533:1975; CIPM-2007; Gagg and Ferrar 1934 (METHOD.md, a, b, d.5)
 * @example atmosphereReport({ elevationM: 600, temperatureC: 25, qnhHPa: 1018 }).stationPressureHPa // 947.7
 */
export function atmosphereReport(question: AtmosphereQuestion): AtmosphereReport {
  const assumed: string[] = []
  const pressurePa = pressureOf(question, assumed)
  const temperatureK = kelvinFromCelsius(question.temperatureC)
  if (question.relativeHumidityPct === undefined) {
    assumed.push(`Relative humidity ${ASSUMED_HUMIDITY_PCT} %.`)
  }
  const air = airAt({
    ...question,
    stationPressureHPa: pressurePa / PA_PER_HPA,
    relativeHumidityPct: question.relativeHumidityPct ?? ASSUMED_HUMIDITY_PCT,
  })
  return {
    stationPressureHPa: pressurePa / PA_PER_HPA,
    airDensityKgPerM3: air.densityKgPerM3,
    densityRatio: densityRatio(air.densityKgPerM3),
    pressureAltitudeM: pressureAltitudeM(pressurePa),
    densityAltitudeM: densityAltitudeM(air.densityKgPerM3),
    speedOfSoundMps: speedOfSoundMps(temperatureK),
    fullThrottlePowerRatio: pistonPowerRatio(air.dryPressurePa, temperatureK),
    assumed,
  }
}

function pressureOf(question: AtmosphereQuestion, assumed: string[]): number {
  const { elevationM, qnhHPa, stationPressureHPa } = question
  if (stationPressureHPa !== undefined) return stationPressureHPa * PA_PER_HPA
  if (qnhHPa !== undefined) return stationPressurePa(qnhHPa * PA_PER_HPA, elevationM)
  assumed.push('Pressure of the standard atmosphere at the elevation.')
  return standardPressurePa(elevationM)
}
