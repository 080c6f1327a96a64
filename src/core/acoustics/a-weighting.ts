import { requireInRange } from '../atmosphere/range.ts'

/** Poles of the A-weighting [Hz]. Source: IEC 61672-1, annex E (from memory; seen in public code). */
const F1_HZ = 20.6
const F2_HZ = 107.7
const F3_HZ = 737.9
const F4_HZ = 12_194
/** Makes the weighting 0 at 1 kHz, to 0.01 dB [dB]. Source: IEC 61672-1. */
const OFFSET_DB = 2.0

/**
 * A-weighting of a frequency.
 *
 *     R = f4²·f⁴ / [(f² + f1²)·√((f² + f2²)(f² + f3²))·(f² + f4²)],  A = 20·lg R + 2.00
 *
 * Only needed where levels come in bands: a meter set to dB(A) applies it.
 *
 * @param frequencyHz frequency f [Hz], 1 to 100 000
 * @returns weighting A, to be added to the level of that frequency [dB]
 * @throws {OutOfRangeError} if f is NaN or lies outside the range
 * @source IEC 61672-1, annex E
 * @example aWeightingDb(125.89) // −16.1
 */
export function aWeightingDb(frequencyHz: number): number {
  const f2 = requireInRange('frequencyHz', frequencyHz, { min: 1, max: 100_000 }) ** 2
  const response =
    (F4_HZ ** 2 * f2 ** 2) /
    ((f2 + F1_HZ ** 2) * Math.sqrt((f2 + F2_HZ ** 2) * (f2 + F3_HZ ** 2)) * (f2 + F4_HZ ** 2))
  return 20 * Math.log10(response) + OFFSET_DB
}
