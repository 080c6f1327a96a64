import {
  HEIGHT_RANGE_M,
  LAPSE_RATE,
  P0,
  P11,
  PRESSURE_EXPONENT,
  ROUNDING,
  SCALE_HEIGHT_11_M,
  T0,
  TROPOPAUSE_M,
} from './constants.ts'
import { requireInRange } from './range.ts'

/** L/T0, the fall of T/T0 per metre [1/m]. */
const RELATIVE_LAPSE = LAPSE_RATE / T0

/**
 * Static pressure of the standard atmosphere.
 *
 *     p(H) = p0 · (1 − L·H/T0)^(g0/(R·L))                up to 11 km
 *     p(H) = p11 · exp(−g0·(H − 11 000)/(R·T11))         above
 *
 * @param heightM geopotential height H [m], −5000 to 20 000
 * @returns static pressure [Pa]
 * @throws {OutOfRangeError} if H is NaN or lies outside the range
 * @source ISO 2533:1975, pressure of layers with constant gradient and with constant temperature
 * @example standardPressurePa(1000) // 89 874.6
 */
export function standardPressurePa(heightM: number): number {
  requireInRange('heightM', heightM, HEIGHT_RANGE_M)
  if (heightM <= TROPOPAUSE_M) return P0 * (1 - RELATIVE_LAPSE * heightM) ** PRESSURE_EXPONENT
  return P11 * Math.exp(-(heightM - TROPOPAUSE_M) / SCALE_HEIGHT_11_M)
}

/** Pressures that occur between the lowest and the highest accepted height [Pa]: 5474.9 to 177 687. */
export const PRESSURE_RANGE_PA = {
  min: standardPressurePa(HEIGHT_RANGE_M.max) * (1 - ROUNDING),
  max: standardPressurePa(HEIGHT_RANGE_M.min) * (1 + ROUNDING),
} as const

/**
 * Pressure altitude: the geopotential height at which the standard atmosphere has this pressure.
 *
 *     Hp = (T0/L)·(1 − (p/p0)^(R·L/g0))   up to 11 km
 *     Hp = 11 000 − (R·T11/g0)·ln(p/p11)  above
 *
 * @param pressurePa static pressure p [Pa], 5474.9 to 177 687
 * @returns pressure altitude [m]
 * @throws {OutOfRangeError} if p is NaN or occurs at no accepted height
 * @source ISO 2533:1975, the pressure laws solved for H
 * @example pressureAltitudeM(70_000) // 3012.18
 */
export function pressureAltitudeM(pressurePa: number): number {
  requireInRange('pressurePa', pressurePa, PRESSURE_RANGE_PA)
  if (pressurePa < P11) return TROPOPAUSE_M - SCALE_HEIGHT_11_M * Math.log(pressurePa / P11)
  return (1 - (pressurePa / P0) ** (1 / PRESSURE_EXPONENT)) / RELATIVE_LAPSE
}

/** Altimeter settings accepted [Pa]. Wider than any weather, so that an uncertainty may be probed. */
const QNH_RANGE_PA = { min: 70_000, max: 130_000 } as const
/** Elevations accepted with an altimeter setting [m]. */
const ELEVATION_RANGE_M = { min: -1_000, max: 11_000 } as const

/**
 * Pressure at a place from the altimeter setting.
 *
 *     p = p0 · [(QNH/p0)^(1/x) − L·z/T0]^x,  x = g0/(R·L)
 *
 * QNH is defined through the standard atmosphere, not through the air of the day; a QFF or QFE must
 * not be put in here.
 *
 * @param qnhPa altimeter setting QNH [Pa], 70 000 to 130 000
 * @param elevationM height of the place above mean sea level z [m], −1000 to 11 000
 * @returns station pressure [Pa]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source ICAO Doc 7488, standard atmosphere, applied to the definition of QNH (from memory)
 * @example stationPressurePa(101_800, 600) // 94 769.9
 */
export function stationPressurePa(qnhPa: number, elevationM: number): number {
  requireInRange('qnhPa', qnhPa, QNH_RANGE_PA)
  requireInRange('elevationM', elevationM, ELEVATION_RANGE_M)
  const base = (qnhPa / P0) ** (1 / PRESSURE_EXPONENT) - RELATIVE_LAPSE * elevationM
  return P0 * base ** PRESSURE_EXPONENT
}

/**
 * Altimeter setting that makes an altimeter show the elevation of the place. Inverse of
 * {@link stationPressurePa}.
 *
 *     QNH = p0 · [(p/p0)^(1/x) + L·z/T0]^x
 *
 * @param pressurePa station pressure p [Pa], 5474.9 to 177 687
 * @param elevationM height of the place above mean sea level z [m], −1000 to 11 000
 * @returns QNH [Pa]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source ICAO Doc 7488, standard atmosphere, applied to the definition of QNH (from memory)
 * @example qnhPa(94_769.9, 600) // 101 800
 */
export function qnhPa(pressurePa: number, elevationM: number): number {
  requireInRange('pressurePa', pressurePa, PRESSURE_RANGE_PA)
  requireInRange('elevationM', elevationM, ELEVATION_RANGE_M)
  const base = (pressurePa / P0) ** (1 / PRESSURE_EXPONENT) + RELATIVE_LAPSE * elevationM
  return P0 * base ** PRESSURE_EXPONENT
}
