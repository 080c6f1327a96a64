import { requireInRange } from '../atmosphere/range.ts'

/** Reference sound pressure in air [Pa]. Source: ISO 1683 (from memory). */
export const REFERENCE_SOUND_PRESSURE_PA = 20e-6

/** Margin above the background from which on nothing is taken off [dB]. Source: ISO 3744 (from memory). */
export const CLEAR_MARGIN_DB = 15
/** Margin below which the correction grows no further and the result is an upper bound [dB]. Source: ISO 3744 (from memory). */
export const LEAST_MARGIN_DB = 6
/** Distance of a normalised sound level [m]: chosen by this project. */
export const REFERENCE_DISTANCE_M = 20
/** Least distance that the distance rule is good for, about two propeller diameters [m]: editorial. */
export const LEAST_DISTANCE_M = 2.5

/** Beyond this a level says nothing of its source [dB]. */
const MOST_CORRECTION_DB = 20
const LEVEL_RANGE_DB = { min: -300, max: 300 } as const
const DISTANCE_RANGE_M = { min: LEAST_DISTANCE_M, max: 1000 } as const

/**
 * Level of several sounds at once that have nothing to do with one another.
 *
 *     L = 10·lg Σ 10^(L_i/10)
 *
 * @param levelsDb their levels L_i [dB], each −300 to 300; at least one
 * @returns combined level [dB]
 * @throws {OutOfRangeError} if a level is NaN or lies outside its range
 * @source common practice: powers of incoherent sounds add
 * @example combineLevelsDb([85, 87, 89]) // 92.07
 */
export function combineLevelsDb(levelsDb: readonly number[]): number {
  let power = 0
  for (const level of levelsDb) {
    power += 10 ** (requireInRange('levelDb', level, LEVEL_RANGE_DB) / 10)
  }
  return 10 * Math.log10(power)
}

/**
 * What the background adds to a measured level.
 *
 *     K1 = −10·lg(1 − 10^(−ΔL/10));  0 above 15 dB;  below 6 dB that of 6 dB, 1.26 dB
 *
 * Below 6 dB the level less K1 is an upper bound of that of the source.
 *
 * @param marginDb measured level less that of the background ΔL [dB], above 0
 * @returns correction K1 to be taken off the measured level [dB], 0 to 1.26
 * @throws {OutOfRangeError} if ΔL is NaN or not above 0
 * @source ISO 3744, background noise correction (from memory; values seen in ECMA TR/107)
 * @example backgroundCorrectionDb(10) // 0.46
 */
export function backgroundCorrectionDb(marginDb: number): number {
  requireInRange('marginDb', marginDb, { min: Number.MIN_VALUE, max: LEVEL_RANGE_DB.max })
  if (marginDb > CLEAR_MARGIN_DB) return 0
  return fullCorrectionDb(Math.max(marginDb, LEAST_MARGIN_DB))
}

/**
 * What the background adds to a measured level, however close it is: without the stop at 6 dB.
 *
 *     −10·lg(1 − 10^(−ΔL/10)), at most 20 dB
 *
 * @param marginDb measured level less that of the background ΔL [dB], above 0
 * @returns correction [dB], 0 to 20
 * @throws {OutOfRangeError} if ΔL is NaN or not above 0
 * @source derived from the addition of powers
 * @example fullCorrectionDb(3) // 3.02
 */
export function fullCorrectionDb(marginDb: number): number {
  requireInRange('marginDb', marginDb, { min: Number.MIN_VALUE, max: LEVEL_RANGE_DB.max })
  return Math.min(-10 * Math.log10(1 - 10 ** (-marginDb / 10)), MOST_CORRECTION_DB)
}

/**
 * Level at another distance in the open.
 *
 *     L(r2) = L(r1) − 20·lg(r2/r1)
 *
 * Nothing but spreading: no ground, no air, no wind. Not for the pilot's ear.
 *
 * @param levelDb level at the first distance [dB]
 * @param fromM first distance r1 [m], 2.5 to 1000
 * @param toM second distance r2 [m], 2.5 to 1000
 * @returns level at the second distance [dB]
 * @throws {OutOfRangeError} if a distance is NaN or lies outside its range
 * @source common practice: spherical spreading
 * @example atDistanceDb(80, 10, 20) // 73.98
 */
export function atDistanceDb(levelDb: number, fromM: number, toM: number): number {
  requireInRange('fromM', fromM, DISTANCE_RANGE_M)
  requireInRange('toM', toM, DISTANCE_RANGE_M)
  return levelDb - 20 * Math.log10(toM / fromM)
}

/** Natural logarithm of a sound pressure over decibels of its level [1/dB]: ln(10)/20. */
export const NEPER_PER_DB = Math.LN10 / 20
