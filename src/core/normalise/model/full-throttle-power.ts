import { P0, T0 } from '../../atmosphere/constants.ts'
import { densityRatio } from '../../atmosphere/density.ts'
import { requireInRange } from '../../atmosphere/range.ts'
import { standardTemperatureAtPressureK } from '../../atmosphere/temperature.ts'
import type { Drive } from '../types.ts'
import type { Air } from './air.ts'

/** Share of the indicated power lost to friction in the rule of Gagg and Ferrar [1]. */
const FRICTION_SHARE = 0.132
const TEMPERATURE_RANGE_K = { min: 150, max: 400 } as const

/**
 * Full-throttle power over that at ISA sea level, dry, of a naturally aspirated piston engine.
 *
 *     φ = [1.132·σ_ISA(Hp) − 0.132] · √(T_ISA(Hp)/T),  Hp = pressure altitude of p_d = p − e
 *
 * The first factor was made for standard air at altitude; the root carries the day's departure from
 * its temperature, which costs an engine far less than the same change of pressure.
 *
 * @param dryPressurePa pressure less vapour pressure p_d [Pa], 22 632 to 177 000
 * @param temperatureK air temperature T [K], 150 to 400
 * @returns power ratio [1]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source R. F. Gagg, E. V. Ferrar, SAE Journal 34 (1934), and the classical √T rule of engine charts
 *   (both from memory; the constants also stand in public code)
 * @example pistonPowerRatio(92_000, 297.5) // 0.892
 */
export function pistonPowerRatio(dryPressurePa: number, temperatureK: number): number {
  requireInRange('temperatureK', temperatureK, TEMPERATURE_RANGE_K)
  const standardK = standardTemperatureAtPressureK(dryPressurePa)
  const sigma = ((dryPressurePa / P0) * T0) / standardK
  return ((1 + FRICTION_SHARE) * sigma - FRICTION_SHARE) * Math.sqrt(standardK / temperatureK)
}

/**
 * Full-throttle power over that at ISA sea level, by kind of drive.
 *
 *     piston: φ of {@link pistonPowerRatio}      electric: φ = √σ
 *
 * How an electric drive answers to thin air depends on what limits it: its controller the power
 * (φ = 1), or its voltage the speed (φ = σ). Where nothing is known, halfway: static thrust then goes
 * as σ^(2/3).
 *
 * @param drive kind of drive
 * @param air pressure less vapour pressure [Pa], 22 632 to 177 000; temperature [K], 150 to 400;
 *   density [kg/m³], above 0
 * @returns power ratio φ [1]
 * @throws {OutOfRangeError} for a piston engine, if an argument is NaN or lies outside its range
 * @source METHOD.md, section d
 * @example fullThrottlePowerRatio('electric', { dryPressurePa: 92_000, temperatureK: 297.5, densityKgPerM3: 0.9922 }) // 0.9
 */
export function fullThrottlePowerRatio(
  drive: Drive,
  air: Pick<Air, 'dryPressurePa' | 'temperatureK' | 'densityKgPerM3'>,
): number {
  if (drive === 'electric') return Math.sqrt(densityRatio(air.densityKgPerM3))
  return pistonPowerRatio(air.dryPressurePa, air.temperatureK)
}

/**
 * Standard uncertainty of the power ratio.
 *
 *     piston: 0.15·|1 − φ|      electric: φ·|ln σ|/√12
 *
 * Piston: covers the spread of the usual rules, rich running and tuned pipes. Electric: φ = σ^a with
 * a anywhere between 0 (limited in power) and 1 (limited in speed), rectangular about ½.
 *
 * @param drive kind of drive
 * @param powerRatio φ [1]
 * @param densityRatio σ [1], above 0
 * @returns standard uncertainty of φ [1]
 * @source METHOD.md, section d; electric derived there from the two limits
 * @example powerRatioUncertainty('twoStroke', 0.893, 0.89) // 0.016
 */
export function powerRatioUncertainty(
  drive: Drive,
  powerRatio: number,
  densityRatio: number,
): number {
  if (drive === 'electric') return (powerRatio * Math.abs(Math.log(densityRatio))) / Math.sqrt(12)
  return 0.15 * Math.abs(1 - powerRatio)
}
