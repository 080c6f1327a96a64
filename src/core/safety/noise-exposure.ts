import { requireInRange } from '../atmosphere/range.ts'

/**
 * The criterion: how much noise a working day may hold.
 *
 * Source: NIOSH, Criteria for a Recommended Standard: Occupational Noise Exposure, publication
 * 98-126 (1998), 1.1.
 */
export const NOISE_CRITERION = {
  /** Level that may last the whole reference duration [dB(A)]. */
  levelDbA: 85,
  /** Reference duration, one working day [min]. */
  durationMin: 480,
  /** Rise of the level that halves the time [dB]: equal energy. */
  exchangeRateDb: 3,
  /** Level that is not permitted for any time [dB(A)]. */
  ceilingDbA: 140,
} as const

/** Levels that the formula is used for [dB(A)]. */
export const NOISE_LEVEL_DB_A = { min: 40, max: NOISE_CRITERION.ceilingDbA }

const MINUTES_PER_DAY = 1440

/**
 * How long a day may hold a level at the ear.
 *
 *     T = 480 min / 2^((L − 85)/3)
 *
 * @param levelDbA A-weighted level L at the unprotected ear [dB(A)], 40 to 140
 * @returns time [min]; more than 1440 where the criterion sets no limit to a day
 * @throws {OutOfRangeError} if L is NaN or lies outside its range
 * @source NIOSH publication 98-126 (1998), 1.1.1 and table 1-1
 * @example permissibleExposureMin(94) // 60
 */
export function permissibleExposureMin(levelDbA: number): number {
  const { levelDbA: criterionDbA, durationMin, exchangeRateDb } = NOISE_CRITERION
  const excessDb = requireInRange('levelDbA', levelDbA, NOISE_LEVEL_DB_A) - criterionDbA
  return durationMin / 2 ** (excessDb / exchangeRateDb)
}

/** Some time at one level. */
export interface NoiseExposure {
  readonly levelDbA: number
  readonly durationMin: number
}

/**
 * Daily noise dose of several exposures; 100 % is what a day may hold.
 *
 *     D = 100 Σ C_i / T_i
 *
 * @param exposures level at the unprotected ear [dB(A)], 40 to 140, and time C [min], 0 to 1440, each
 * @returns dose [%]
 * @throws {OutOfRangeError} if a level or a time is NaN or lies outside its range
 * @source NIOSH publication 98-126 (1998), 1.1.2
 * @example noiseDosePct([{ levelDbA: 94, durationMin: 30 }, { levelDbA: 100, durationMin: 6 }]) // 90
 */
export function noiseDosePct(exposures: readonly NoiseExposure[]): number {
  let dose = 0
  for (const { levelDbA, durationMin } of exposures) {
    const minutes = requireInRange('durationMin', durationMin, { min: 0, max: MINUTES_PER_DAY })
    dose += minutes / permissibleExposureMin(levelDbA)
  }
  return 100 * dose
}
