import {
  HEIGHT_RANGE_M,
  LAPSE_RATE,
  P0,
  P11,
  PRESSURE_EXPONENT,
  ROUNDING,
  T0,
  T11,
  TROPOPAUSE_M,
} from './constants.ts'
import { requireInRange } from './range.ts'

/**
 * Temperature of the standard atmosphere.
 *
 *     T(H) = T0 − L·H  up to 11 km,  T11 above
 *
 * @param heightM geopotential height H [m], −5000 to 20 000
 * @returns temperature [K]
 * @throws {OutOfRangeError} if H is NaN or lies outside the range
 * @source ISO 2533:1975, temperature and vertical gradient of the layers
 * @example standardTemperatureK(1000) // 281.65
 */
export function standardTemperatureK(heightM: number): number {
  requireInRange('heightM', heightM, HEIGHT_RANGE_M)
  return heightM <= TROPOPAUSE_M ? T0 - LAPSE_RATE * heightM : T11
}

const TROPOSPHERE_PRESSURE_PA = { min: P11 * (1 - ROUNDING), max: 177_000 } as const

/**
 * Temperature of the standard atmosphere at the height where it has this pressure, troposphere only.
 *
 *     T = T0·(p/p0)^(R·L/g0)
 *
 * @param pressurePa static pressure p [Pa], 22 632 to 177 000
 * @returns temperature [K]
 * @throws {OutOfRangeError} if p is NaN or lies outside the range
 * @source ISO 2533:1975, pressure law of a layer with constant gradient solved for T
 * @example standardTemperatureAtPressureK(101_325) // 288.15
 */
export function standardTemperatureAtPressureK(pressurePa: number): number {
  requireInRange('pressurePa', pressurePa, TROPOSPHERE_PRESSURE_PA)
  return T0 * (pressurePa / P0) ** (1 / PRESSURE_EXPONENT)
}
