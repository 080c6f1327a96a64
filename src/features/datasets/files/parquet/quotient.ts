/** 2²⁷ + 1 parts a double into two halves. */
const SPLITTER = 134_217_729

/** More than the relative error of the correction below, which is a few times 2⁻⁵³. */
const DOUBT = 2 ** -48

/**
 * (high × shift + low) / divisor, correctly rounded, where the numerator has more digits than a
 * double; NaN in the rare case in which it lies too near the middle of two doubles to tell.
 *
 * The numerator is held as a sum of two doubles without loss, and so is the remainder of the first
 * quotient; what the remainder adds is far more exact than a place of the result.
 *
 * @param high whole, below 10⁹
 * @param shift a power of ten up to 10⁹
 * @param low whole, below shift
 * @param divisor a power of ten that a double holds exactly
 * @source Dekker 1971, A floating-point technique for extending the available precision (products)
 */
export function quotientOf(high: number, shift: number, low: number, divisor: number): number {
  const product = high * shift
  const sum = product + low
  const rest = low - (sum - product) + productError(high, shift, product)
  const quotient = sum / divisor
  const back = quotient * divisor
  const remainder = sum - back - productError(quotient, divisor, back) + rest
  const correction = remainder / divisor
  const value = quotient + correction * (1 - DOUBT)
  return value === quotient + correction * (1 + DOUBT) ? value : Number.NaN
}

/** What a × b is more than its rounded product. */
function productError(a: number, b: number, product: number): number {
  const a1 = SPLITTER * a - (SPLITTER * a - a)
  const b1 = SPLITTER * b - (SPLITTER * b - b)
  const a2 = a - a1
  const b2 = b - b1
  return a2 * b2 - (product - a1 * b1 - a2 * b1 - a1 * b2)
}
