/** Beyond these a probability is said to be above or below them [1]. */
const NEARLY_ONE = 0.999
const NEARLY_ZERO = 0.001

/** Whole per cents would read as certain from here on, and to here [1]. */
const ROUNDED_TO_ONE = 0.995
const ROUNDED_TO_ZERO = 0.005

/**
 * A probability in per cent, as words that never make a certainty of it by rounding.
 *
 * @param probability 0 to 1
 * @returns such as "62 %", "99.6 %", "more than 99.9 %", "less than 0.1 %"
 * @source editorial
 */
export function probabilityText(probability: number): string {
  if (probability > NEARLY_ONE) return `more than ${100 * NEARLY_ONE} %`
  if (probability < NEARLY_ZERO) return `less than ${100 * NEARLY_ZERO} %`
  const isWhole = probability >= ROUNDED_TO_ZERO && probability < ROUNDED_TO_ONE
  return `${(100 * probability).toFixed(isWhole ? 0 : 1)} %`
}
