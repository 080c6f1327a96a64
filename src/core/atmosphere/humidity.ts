import { KELVIN_OFFSET } from '../units.ts'
import { requireInRange } from './range.ts'

/**
 * Moist air after CIPM-2007. The standard covers 600 to 1100 hPa and 15 to 27 °C; over the wider
 * ranges accepted here the error in density stays below 1e-3. Below 0 °C the formula over liquid
 * water is kept, because humidity is reported over water.
 */

/** Temperatures accepted [K]. */
export const MOIST_TEMPERATURE_RANGE_K = { min: 173.15, max: 353.15 } as const
/** Pressures accepted [Pa]. */
export const MOIST_PRESSURE_RANGE_PA = { min: 20_000, max: 130_000 } as const
const HUMIDITY_RANGE = { min: 0, max: 1 } as const

/** Molar gas constant of CIPM-2007 (CODATA 2006) [J/(mol·K)]. */
const MOLAR_GAS_CONSTANT = 8.314472
/** Molar mass of water [kg/mol]. */
const MOLAR_MASS_WATER = 18.01528e-3
/** Molar mass of dry air at a CO₂ fraction of 400 ppm [kg/mol]; +100 ppm would add 4e-5 of it. */
const MOLAR_MASS_AIR = 28.96546e-3

/**
 * Saturation vapour pressure over water.
 *
 *     p_sv = exp(A·T² + B·T + C + D/T)
 *
 * @param temperatureK temperature T [K], 173.15 to 353.15
 * @returns saturation vapour pressure [Pa]
 * @throws {OutOfRangeError} if T is NaN or lies outside the range
 * @source CIPM-2007: Picard et al., Metrologia 45 (2008) 149, appendix A1.1
 * @example saturationVapourPressurePa(293.15) // 2339.2
 */
export function saturationVapourPressurePa(temperatureK: number): number {
  const T = requireInRange('temperatureK', temperatureK, MOIST_TEMPERATURE_RANGE_K)
  return Math.exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T)
}

/**
 * Saturation vapour pressure over water by a Magnus formula: within 0.31 % of CIPM-2007 from 0 to
 * 40 °C, for clients that want no more.
 *
 *     p_sv = 611.2 Pa · exp(17.62·t / (243.12 + t))
 *
 * @param temperatureC temperature t [°C], −45 to 60
 * @returns saturation vapour pressure [Pa]
 * @throws {OutOfRangeError} if t is NaN or lies outside the range
 * @source WMO-No. 8, annex 4.B (from memory)
 * @example magnusVapourPressurePa(20) // 2332.6
 */
export function magnusVapourPressurePa(temperatureC: number): number {
  const t = requireInRange('temperatureC', temperatureC, { min: -45, max: 60 })
  return 611.2 * Math.exp((17.62 * t) / (243.12 + t))
}

/**
 * Vapour pressure of moist air, without the enhancement factor (0.4 % of it).
 *
 *     e = h·p_sv(T)
 *
 * @param relativeHumidity relative humidity h [1], 0 to 1
 * @param temperatureK temperature T [K], 173.15 to 353.15
 * @returns vapour pressure [Pa]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source definition of relative humidity, WMO-No. 8 (from memory)
 * @example vapourPressurePa(0.5, 293.15) // 1169.6
 */
export function vapourPressurePa(relativeHumidity: number, temperatureK: number): number {
  requireInRange('relativeHumidity', relativeHumidity, HUMIDITY_RANGE)
  return relativeHumidity * saturationVapourPressurePa(temperatureK)
}

/**
 * Density of moist air.
 *
 *     x_v = h·f(p, t)·p_sv/p,  f = 1.00062 + 3.14e-8·p + 5.6e-7·t²
 *     Z = 1 − (p/T)·[a0 + a1·t + a2·t² + (b0 + b1·t)·x_v + (c0 + c1·t)·x_v²] + (p/T)²·(d + e·x_v²)
 *     ρ = p·M_a/(Z·R·T) · [1 − x_v·(1 − M_v/M_a)]
 *
 * @param pressurePa pressure p [Pa], 20 000 to 130 000
 * @param temperatureK temperature T [K], 173.15 to 353.15; t in °C inside the formula
 * @param relativeHumidity relative humidity h [1], 0 to 1
 * @returns density [kg/m³]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source CIPM-2007: Picard et al., Metrologia 45 (2008) 149, equation (1) and appendix A1
 * @example moistAirDensityKgPerM3(101_325, 293.15, 0.5) // 1.19931
 */
export function moistAirDensityKgPerM3(
  pressurePa: number,
  temperatureK: number,
  relativeHumidity: number,
): number {
  const p = requireInRange('pressurePa', pressurePa, MOIST_PRESSURE_RANGE_PA)
  const h = requireInRange('relativeHumidity', relativeHumidity, HUMIDITY_RANGE)
  const T = temperatureK
  const t = T - KELVIN_OFFSET
  const f = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t
  const xv = (h * f * saturationVapourPressurePa(T)) / p
  const pT = p / T
  const second =
    1.58123e-6 -
    2.9331e-8 * t +
    1.1043e-10 * t * t +
    (5.707e-6 - 2.051e-8 * t) * xv +
    (1.9898e-4 - 2.376e-6 * t) * xv * xv
  const Z = 1 - pT * second + pT * pT * (1.83e-11 - 0.765e-8 * xv * xv)
  const dry = (p * MOLAR_MASS_AIR) / (Z * MOLAR_GAS_CONSTANT * T)
  return dry * (1 - xv * (1 - MOLAR_MASS_WATER / MOLAR_MASS_AIR))
}

/**
 * Virtual temperature: that of dry air with the density of the moist air.
 *
 *     T_v = T / (1 − 0.378·e/p)
 *
 * @param temperatureK temperature T [K], 173.15 to 353.15
 * @param vapourPressurePa vapour pressure e [Pa], 0 to p
 * @param pressurePa pressure p [Pa], above 0
 * @returns virtual temperature [K]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source WMO-No. 8, definition of virtual temperature (from memory); 0.378 = 1 − 18.015/28.965
 * @example virtualTemperatureK(303.15, 2121.8, 97_000) // 305.68
 */
export function virtualTemperatureK(
  temperatureK: number,
  vapourPressurePa: number,
  pressurePa: number,
): number {
  requireInRange('temperatureK', temperatureK, MOIST_TEMPERATURE_RANGE_K)
  requireInRange('pressurePa', pressurePa, MOIST_PRESSURE_RANGE_PA)
  requireInRange('vapourPressurePa', vapourPressurePa, { min: 0, max: pressurePa })
  return temperatureK / (1 - 0.378 * (vapourPressurePa / pressurePa))
}
