import { P0, T0 } from '../../atmosphere/constants.ts'
import { requireInRange } from '../../atmosphere/range.ts'
import { KELVIN_OFFSET, PA_PER_HPA } from '../../units.ts'

const TEMPERATURE_RANGE_K = { min: 150, max: 400 } as const
const PRESSURE_RANGE_PA = { min: 20_000, max: 180_000 } as const
/** Share of friction in SAE J1349, from a mechanical efficiency of 85 % [1]. */
const J1349_FRICTION = 0.18

/**
 * Correction factor of SAE J1349 (JUN90): power at 25 °C and 990 hPa dry over measured power.
 *
 *     CF = 1.18 · (990/p_d) · √((t + 273)/298) − 0.18,  p_d in hPa, t in °C
 *
 * @param dryPressurePa pressure less vapour pressure p_d [Pa], 20 000 to 180 000
 * @param temperatureK air temperature [K], 150 to 400
 * @returns factor [1]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source SAE J1349, June 1990, naturally aspirated spark-ignition engines (as carried by wahiduddin.net)
 * @example saeJ1349Factor(99_000, 298.15) // 1
 */
export function saeJ1349Factor(dryPressurePa: number, temperatureK: number): number {
  requireInRange('dryPressurePa', dryPressurePa, PRESSURE_RANGE_PA)
  requireInRange('temperatureK', temperatureK, TEMPERATURE_RANGE_K)
  const root = Math.sqrt((temperatureK - KELVIN_OFFSET + 273) / 298)
  return (1 + J1349_FRICTION) * (990 / (dryPressurePa / PA_PER_HPA)) * root - J1349_FRICTION
}

/**
 * Correction factor of ISO 1585 for spark ignition: power at 25 °C and 99 kPa dry over measured power.
 *
 *     α_a = (99/p_d)^1.2 · (T/298)^0.6,  p_d in kPa
 *
 * The standard allows it from 0.93 to 1.07 only.
 *
 * @param dryPressurePa pressure less vapour pressure p_d [Pa], 20 000 to 180 000
 * @param temperatureK air temperature T [K], 150 to 400
 * @returns factor [1]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source ISO 1585 (from memory)
 * @example iso1585Factor(95_000, 303) // 1.0613
 */
export function iso1585Factor(dryPressurePa: number, temperatureK: number): number {
  requireInRange('dryPressurePa', dryPressurePa, PRESSURE_RANGE_PA)
  requireInRange('temperatureK', temperatureK, TEMPERATURE_RANGE_K)
  return (99_000 / dryPressurePa) ** 1.2 * (temperatureK / 298) ** 0.6
}

/** Rules for the power of a piston engine in other air than that of its rating. */
export type PowerStandard = 'saeJ1349' | 'iso1585'

const FACTOR = { saeJ1349: saeJ1349Factor, iso1585: iso1585Factor } as const

/**
 * Full-throttle power over that at ISA sea level, dry, by a standard for automotive four-strokes: the
 * alternatives to the default rule, to see how far rules differ.
 *
 *     φ = F(101 325 Pa, 288.15 K) / F(p_d, T),  F = factor to the standard's own reference
 *
 * @param standard which rule
 * @param dryPressurePa pressure less vapour pressure p_d [Pa], 20 000 to 180 000
 * @param temperatureK air temperature T [K], 150 to 400
 * @returns power ratio [1]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source SAE J1349 (JUN90), ISO 1585; re-based as METHOD.md, section f, says
 * @example standardPowerRatio('saeJ1349', 92_000, 297.5) // 0.876
 */
export function standardPowerRatio(
  standard: PowerStandard,
  dryPressurePa: number,
  temperatureK: number,
): number {
  const factor = FACTOR[standard]
  return factor(P0, T0) / factor(dryPressurePa, temperatureK)
}
