import {
  EARTH_RADIUS_M,
  HEIGHT_RANGE_M,
  LAPSE_RATE,
  PRESSURE_EXPONENT,
  RHO0,
  ROUNDING,
  T0,
  TROPOPAUSE_M,
} from './constants.ts'
import { standardDensityKgPerM3 } from './density.ts'
import { requireInRange } from './range.ts'

const HEIGHT_M = { min: -10_000, max: 100_000 } as const
/** Densities of the standard troposphere [kg/m³]: 0.3639 to 1.9312. */
const DENSITY_KG_PER_M3 = {
  min: standardDensityKgPerM3(TROPOPAUSE_M) * (1 - ROUNDING),
  max: standardDensityKgPerM3(HEIGHT_RANGE_M.min) * (1 + ROUNDING),
} as const

/**
 * Geopotential height of a geometric height.
 *
 *     H = r·h / (r + h)
 *
 * @param geometricM geometric height above mean sea level h [m], −10 000 to 100 000
 * @returns geopotential height [m]
 * @throws {OutOfRangeError} if h is NaN or lies outside the range
 * @source US Standard Atmosphere 1976, equation (18) (from memory)
 * @example geopotentialM(5000) // 4996.07
 */
export function geopotentialM(geometricM: number): number {
  requireInRange('geometricM', geometricM, HEIGHT_M)
  return (EARTH_RADIUS_M * geometricM) / (EARTH_RADIUS_M + geometricM)
}

/**
 * Geometric height of a geopotential height. Inverse of {@link geopotentialM}.
 *
 *     h = r·H / (r − H)
 *
 * @param heightM geopotential height H [m], −10 000 to 100 000
 * @returns geometric height [m]
 * @throws {OutOfRangeError} if H is NaN or lies outside the range
 * @source US Standard Atmosphere 1976, equation (19) (from memory)
 * @example geometricM(4996.07) // 5000
 */
export function geometricM(heightM: number): number {
  requireInRange('heightM', heightM, HEIGHT_M)
  return (EARTH_RADIUS_M * heightM) / (EARTH_RADIUS_M - heightM)
}

/**
 * Density altitude: the geopotential height at which the standard atmosphere has this density.
 *
 *     Hρ = (T0/L)·(1 − (ρ/ρ0)^(1/(x − 1))),  x = g0/(R·L)
 *
 * @param densityKgPerM3 density of the (moist) air ρ [kg/m³], 0.3639 to 1.9312
 * @returns density altitude [m], about −5000 to 11 000
 * @throws {OutOfRangeError} if ρ is NaN or lies outside the range
 * @source ISO 2533:1975, density law of the troposphere solved for H
 * @example densityAltitudeM(1.225) // 0
 */
export function densityAltitudeM(densityKgPerM3: number): number {
  requireInRange('densityKgPerM3', densityKgPerM3, DENSITY_KG_PER_M3)
  return (T0 / LAPSE_RATE) * (1 - (densityKgPerM3 / RHO0) ** (1 / (PRESSURE_EXPONENT - 1)))
}
