import { KAPPA, R_AIR } from './constants.ts'
import { requireInRange } from './range.ts'

const TEMPERATURE_RANGE_K = { min: 150, max: 400 } as const

/**
 * Speed of sound in dry air.
 *
 *     a = √(κ·R·T)
 *
 * @param temperatureK temperature T [K], 150 to 400
 * @returns speed of sound [m/s]
 * @throws {OutOfRangeError} if T is NaN or lies outside the range
 * @source ISO 2533:1975, speed of sound
 * @example speedOfSoundMps(288.15) // 340.294
 */
export function speedOfSoundMps(temperatureK: number): number {
  requireInRange('temperatureK', temperatureK, TEMPERATURE_RANGE_K)
  return Math.sqrt(KAPPA * R_AIR * temperatureK)
}
