import { OutOfRangeError } from '../errors.ts'
import { logGamma } from './log-gamma.ts'

/** Most terms of a series or fraction; far more than any argument below 1e6 needs. */
const MAX_TERMS = 100_000
/** Stands for a vanishing denominator in Lentz's method. */
const TINY = 1e-300

/**
 * Upper regularised incomplete gamma function Q(a, x) and its complement P(a, x).
 *
 *     P = x^a e^−x / Γ(a + 1) · Σ x^n / ((a + 1) … (a + n))    for x < a + 1
 *     Q = x^a e^−x / Γ(a) · 1 / (x + 1 − a − 1 (1 − a) / (x + 3 − a − …))    else
 *
 * The smaller of the two is computed directly, so its digits are not lost.
 *
 * @param a shape [1], > 0
 * @param x argument [1], ≥ 0, Infinity allowed
 * @returns lower P and upper Q, P + Q = 1
 * @throws {OutOfRangeError} if a or x lies outside its range
 * @source NIST Digital Library of Mathematical Functions, 8.11.4 and 8.9.2 (from memory); fraction
 *   evaluated by W. J. Lentz, Appl. Opt. 15, 1976, 668-671 (from memory)
 */
export function incompleteGamma(a: number, x: number): { lower: number; upper: number } {
  if (!(a > 0 && a < Infinity)) {
    throw new OutOfRangeError('a', a, Number.MIN_VALUE, Number.MAX_VALUE)
  }
  if (!(x >= 0)) throw new OutOfRangeError('x', x, 0, Infinity)
  if (x === 0) return { lower: 0, upper: 1 }
  if (x === Infinity) return { lower: 1, upper: 0 }
  const front = Math.exp(a * Math.log(x) - x - logGamma(a))
  if (x < a + 1) {
    const lower = front * lowerSeries(a, x)
    return { lower, upper: 1 - lower }
  }
  const upper = front * upperFraction(a, x)
  return { lower: 1 - upper, upper }
}

function lowerSeries(a: number, x: number): number {
  let term = 1 / a
  let sum = term
  for (let n = 1; n < MAX_TERMS; n++) {
    term *= x / (a + n)
    sum += term
    if (term < sum * (Number.EPSILON / 4)) break
  }
  return sum
}

function upperFraction(a: number, x: number): number {
  let b = x + 1 - a
  let c = 1 / TINY
  let d = 1 / b
  let value = d
  for (let n = 1; n < MAX_TERMS; n++) {
    const numerator = -n * (n - a)
    b += 2
    d = 1 / (numerator * d + b || TINY)
    c = b + numerator / c || TINY
    const factor = c * d
    value *= factor
    if (Math.abs(factor - 1) < Number.EPSILON) break
  }
  return value
}
