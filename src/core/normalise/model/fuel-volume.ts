import { requireInRange } from '../../atmosphere/range.ts'

/** Default density of gasoline at 15 °C [kg/m³]. Source: EN 228 allows 720 to 775. */
export const GASOLINE_DENSITY_15C_KG_PER_M3 = 745

/** Temperature that volumes are quoted at [°C]. */
export const VOLUME_REFERENCE_C = 15

/**
 * Thermal expansion coefficient of gasoline at 15 °C.
 *
 *     α = 346.4228/ρ² + 0.4388/ρ          653 ≤ ρ < 770.5 kg/m³
 *     α = 2680.3206/ρ² − 0.00336312       770.5 ≤ ρ ≤ 787.5 kg/m³
 *
 * @param density15KgPerM3 density at 15 °C ρ [kg/m³], 653 to 787.5
 * @returns coefficient [1/K]
 * @throws {OutOfRangeError} if ρ is NaN or lies outside the range
 * @source ASTM D1250-80 / ISO 91, table 54B (coefficients as carried in public code)
 * @example gasolineExpansionPerK(745) // 0.00121315
 */
export function gasolineExpansionPerK(density15KgPerM3: number): number {
  const rho = requireInRange('density15KgPerM3', density15KgPerM3, { min: 653, max: 787.5 })
  return rho < 770.5 ? 346.4228 / rho ** 2 + 0.4388 / rho : 2680.3206 / rho ** 2 - 0.00336312
}

/**
 * Volume at 15 °C over volume at another temperature.
 *
 *     VCF = exp(−α·Δt·(1 + 0.8·α·Δt)),  Δt = t − 15 °C
 *
 * @param expansionPerK expansion coefficient at 15 °C α [1/K]
 * @param fuelTemperatureC temperature of the fuel t [°C], −60 to 90
 * @returns volume correction factor [1]
 * @throws {OutOfRangeError} if t is NaN or lies outside the range
 * @source ASTM D1250-80 / ISO 91, table 54B
 * @example volumeCorrectionFactor(0.00121315, 30) // 0.98171
 */
export function volumeCorrectionFactor(expansionPerK: number, fuelTemperatureC: number): number {
  requireInRange('fuelTemperatureC', fuelTemperatureC, { min: -60, max: 90 })
  const product = expansionPerK * (fuelTemperatureC - VOLUME_REFERENCE_C)
  return Math.exp(-product * (1 + 0.8 * product))
}
