import { LAPSE_RATE } from '../../atmosphere/constants.ts'
import { qnhPa, standardPressurePa, stationPressurePa } from '../../atmosphere/pressure.ts'
import type { UncertainInput } from '../../uncertainty/propagate.ts'
import { kelvinFromCelsius, PA_PER_HPA } from '../../units.ts'
import { type Air, moistAir } from '../model/air.ts'
import type { AirConditions, FlightSession, Warning } from '../types.ts'
import { ASSUMED_HUMIDITY_PCT, DEFAULT_U } from './defaults.ts'
import { statedOr } from './stated.ts'

/** The air of a session with every gap filled, and what had to be assumed for that. */
export interface KnownAir {
  readonly elevationM: UncertainInput
  readonly temperatureC: UncertainInput
  readonly lapseKPerM: UncertainInput
  /** QNH or station pressure [hPa], as `pressureIsQnh` tells. */
  readonly pressureHPa: UncertainInput
  readonly pressureIsQnh: boolean
  readonly relativeHumidityPct: UncertainInput
  readonly warnings: readonly Warning[]
}

/**
 * Fills the gaps of a session's air.
 *
 * @param session the session as described
 * @returns elevation [m], temperature [°C], lapse rate [K/m], pressure [hPa] and humidity [%] as
 *   uncertain inputs, with warnings
 * @throws {OutOfRangeError} if no pressure is given and the elevation has no standard pressure
 * @source METHOD.md, sections a, b and j
 */
export function knownAir({ site, conditions }: FlightSession): KnownAir {
  const warnings: Warning[] = []
  const shared = { sharedWithinSession: true } as const
  const pressure = pressureInput(site.elevationM, conditions, warnings)
  return {
    ...pressure,
    elevationM: {
      source: 'elevation of the field',
      value: site.elevationM,
      standardUncertainty: statedOr(site.uncertainty, 'elevationM', 0),
      ...shared,
    },
    temperatureC: {
      source: 'air temperature',
      value: conditions.temperatureC,
      standardUncertainty: statedOr(conditions.uncertainty, 'temperatureC', DEFAULT_U.temperatureC),
      ...shared,
    },
    lapseKPerM: {
      source: 'temperature between field and run',
      value: LAPSE_RATE,
      standardUncertainty: DEFAULT_U.lapseKPerM,
      ...shared,
    },
    relativeHumidityPct: humidityInput(conditions, warnings),
    warnings,
  }
}

function pressureInput(elevationM: number, conditions: AirConditions, warnings: Warning[]) {
  const { qnhHPa, stationPressureHPa, uncertainty } = conditions
  const label = { source: 'air pressure', sharedWithinSession: true } as const
  if (stationPressureHPa !== undefined) {
    const standardUncertainty = statedOr(
      uncertainty,
      'stationPressureHPa',
      DEFAULT_U.stationPressureHPa,
    )
    return {
      pressureIsQnh: false,
      pressureHPa: { ...label, value: stationPressureHPa, standardUncertainty },
    }
  }
  if (qnhHPa !== undefined) {
    const standardUncertainty = statedOr(uncertainty, 'qnhHPa', DEFAULT_U.qnhHPa)
    return { pressureIsQnh: true, pressureHPa: { ...label, value: qnhHPa, standardUncertainty } }
  }
  warnings.push({
    pointer: '/conditions/qnhHPa',
    code: 'pressureAssumed',
    detail: `No pressure given: that of the standard atmosphere is assumed, ±${DEFAULT_U.assumedPressureHPa} hPa.`,
  })
  return {
    pressureIsQnh: false,
    pressureHPa: {
      ...label,
      value: standardPressurePa(elevationM) / PA_PER_HPA,
      standardUncertainty: DEFAULT_U.assumedPressureHPa,
    },
  }
}

function humidityInput({ relativeHumidityPct, uncertainty }: AirConditions, warnings: Warning[]) {
  const label = {
    source: 'relative humidity',
    sharedWithinSession: true,
    min: 0,
    max: 100,
  } as const
  if (relativeHumidityPct !== undefined) {
    return {
      ...label,
      value: relativeHumidityPct,
      standardUncertainty: statedOr(
        uncertainty,
        'relativeHumidityPct',
        DEFAULT_U.relativeHumidityPct,
      ),
    }
  }
  warnings.push({
    pointer: '/conditions/relativeHumidityPct',
    code: 'humidityAssumed',
    detail: `No humidity given: ${ASSUMED_HUMIDITY_PCT} % is assumed, anything from 0 to 100 % being possible.`,
  })
  return {
    ...label,
    distribution: 'rectangular' as const,
    value: ASSUMED_HUMIDITY_PCT,
    standardUncertainty: DEFAULT_U.assumedHumidityPct,
  }
}

/** Values of the air at the field, as they stand or displaced by their uncertainty. */
export interface FieldAir {
  readonly elevationM: number
  readonly temperatureC: number
  readonly lapseKPerM: number
  readonly pressureHPa: number
  readonly relativeHumidityPct: number
}

/**
 * The air at a height above the field.
 *
 *     T = T_field − λ·Δz;  p from the QNH at elevation + Δz;  relative humidity as at the field
 *
 * @param field values of the air at the field
 * @param heightAboveSiteM height above the field Δz [m]
 * @param pressureIsQnh whether the pressure is a QNH, else that at the field
 * @returns the air there
 * @throws {OutOfRangeError} if a value lies outside the range of the standard atmosphere or CIPM-2007
 * @source METHOD.md, section a
 */
export function airAbove(field: FieldAir, heightAboveSiteM: number, pressureIsQnh: boolean): Air {
  const givenPa = field.pressureHPa * PA_PER_HPA
  const qnh = pressureIsQnh ? givenPa : qnhPa(givenPa, field.elevationM)
  const temperatureC = field.temperatureC - field.lapseKPerM * heightAboveSiteM
  return moistAir(
    stationPressurePa(qnh, field.elevationM + heightAboveSiteM),
    kelvinFromCelsius(temperatureC),
    field.relativeHumidityPct / 100,
  )
}
