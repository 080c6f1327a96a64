import { R_AIR, RHO0 } from './constants.ts'
import { standardPressurePa } from './pressure.ts'
import { requireInRange } from './range.ts'
import { standardTemperatureK } from './temperature.ts'

const PRESSURE_RANGE_PA = { min: 1_000, max: 200_000 } as const
const TEMPERATURE_RANGE_K = { min: 150, max: 400 } as const

/**
 * Density of dry air as an ideal gas.
 *
 *     ρ = p / (R·T)
 *
 * @param pressurePa static pressure p [Pa], 1000 to 200 000
 * @param temperatureK temperature T [K], 150 to 400
 * @returns density [kg/m³]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source ISO 2533:1975, equation of state
 * @example dryAirDensityKgPerM3(101_325, 288.15) // 1.225
 */
export function dryAirDensityKgPerM3(pressurePa: number, temperatureK: number): number {
  requireInRange('pressurePa', pressurePa, PRESSURE_RANGE_PA)
  requireInRange('temperatureK', temperatureK, TEMPERATURE_RANGE_K)
  return pressurePa / (R_AIR * temperatureK)
}

/**
 * Density of the standard atmosphere.
 *
 *     ρ(H) = p(H) / (R·T(H))
 *
 * @param heightM geopotential height H [m], −5000 to 20 000
 * @returns density [kg/m³]
 * @throws {OutOfRangeError} if H is NaN or lies outside the range
 * @source ISO 2533:1975, equation of state
 * @example standardDensityKgPerM3(1000) // 1.1116
 */
export function standardDensityKgPerM3(heightM: number): number {
  return standardPressurePa(heightM) / (R_AIR * standardTemperatureK(heightM))
}

/**
 * Density relative to the standard atmosphere at sea level.
 *
 *     σ = ρ / ρ0
 *
 * @param densityKgPerM3 density ρ [kg/m³], any
 * @returns density ratio [1]
 * @source ISO 2533:1975, relative density
 * @example densityRatio(1.225) // 1
 */
export function densityRatio(densityKgPerM3: number): number {
  return densityKgPerM3 / RHO0
}
