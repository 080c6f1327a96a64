import { G0, P0, R_AIR, RHO0, T0 } from '../../../src/core/atmosphere/constants.ts'
import { pressureAltitudeM } from '../../../src/core/atmosphere/pressure.ts'

/** The air at one height, as it truly is. */
export interface TrueAir {
  readonly pressurePa: number
  readonly temperatureK: number
  readonly vapourPa: number
  readonly densityKgPerM3: number
}

/** The air over a field on one day. */
export interface TrueColumn {
  readonly elevationM: number
  readonly fieldTemperatureK: number
  readonly fieldPressurePa: number
  /** Relative humidity at the field [1]. */
  readonly relativeHumidity: number
  readonly lapseKPerM: number
}

/** The air of the reference state: standard, sea level, dry. */
export const REFERENCE_AIR: TrueAir = {
  pressurePa: P0,
  temperatureK: T0,
  vapourPa: 0,
  densityKgPerM3: RHO0,
}

/** Ratio of the molar masses of water and dry air [1]. */
const WATER_TO_AIR = 0.622

/** Saturation pressure over water by Magnus's formula (coefficients of Sonntag, from memory). */
function saturationPa(temperatureK: number): number {
  const t = temperatureK - 273.15
  return 611.2 * Math.exp((17.62 * t) / (243.12 + t))
}

/**
 * The air at a height above the field: temperature falls at the day's own rate, the mixing ratio
 * stays as at the field until saturation, pressure by hydrostatics of that very column.
 *
 *     p = p_f·(1 − λz/T_v)^(g/(R·λ))
 */
export function airAtHeight(column: TrueColumn, aboveFieldM: number): TrueAir {
  const { fieldPressurePa, fieldTemperatureK, lapseKPerM, relativeHumidity } = column
  const fieldVapourPa = relativeHumidity * saturationPa(fieldTemperatureK)
  const mixing = (WATER_TO_AIR * fieldVapourPa) / (fieldPressurePa - fieldVapourPa)
  const virtualK = fieldTemperatureK / (1 - ((1 - WATER_TO_AIR) * fieldVapourPa) / fieldPressurePa)
  const pressurePa =
    fieldPressurePa * (1 - (lapseKPerM * aboveFieldM) / virtualK) ** (G0 / (R_AIR * lapseKPerM))
  const temperatureK = fieldTemperatureK - lapseKPerM * aboveFieldM
  const mixedPa = (mixing * pressurePa) / (WATER_TO_AIR + mixing)
  const vapourPa = Math.min(mixedPa, saturationPa(temperatureK))
  const densityKgPerM3 = (pressurePa - (1 - WATER_TO_AIR) * vapourPa) / (R_AIR * temperatureK)
  return { pressurePa, temperatureK, vapourPa, densityKgPerM3 }
}

/** The gain a barometric instrument shows between two heights: it converts by the standard atmosphere. */
export function shownGainM(column: TrueColumn, fromM: number, toM: number): number {
  const shown = (aboveFieldM: number) =>
    pressureAltitudeM(airAtHeight(column, aboveFieldM).pressurePa)
  return shown(toM) - shown(fromM)
}
