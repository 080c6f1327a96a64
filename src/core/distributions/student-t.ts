import { OutOfRangeError } from '../errors.ts'
import { betaFraction, logHalfBeta } from './incomplete-beta.ts'
import { normalCdf, normalQuantile } from './normal.ts'

/** From here a corrected normal distribution is as good as the beta function, and cheaper. */
const NORMAL_FROM = 1e7

/**
 * Distribution function of Student's t.
 *
 *     P(T > t) = ½ I_x(ν/2, ½),   x = ν / (ν + t²),   t > 0
 *
 * @param t value [1]; ±Infinity allowed
 * @param degreesOfFreedom ν [1], > 0, Infinity is the normal distribution
 * @returns probability of a value up to t, within 1e-11 of itself for ν up to 1e5 and
 *   1e-9 beyond, also far below 0
 * @throws {OutOfRangeError} if t is NaN or ν is not positive
 * @source NIST Digital Library of Mathematical Functions, 8.17 (from memory); M. Abramowitz,
 *   I. A. Stegun, Handbook of Mathematical Functions, 1964, 26.7.8 for ν ≥ 1e7 (from memory)
 * @example studentTCdf(2.228138851964939, 10) // 0.975
 */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
  if (Number.isNaN(t)) throw new OutOfRangeError('t', t, -Infinity, Infinity)
  requireDegrees(degreesOfFreedom)
  const tail = upperTail(Math.abs(t), degreesOfFreedom)
  return t <= 0 ? tail : 1 - tail
}

/** P(T > t) for t ≥ 0. */
function upperTail(t: number, nu: number): number {
  if (t === Infinity) return 0
  if (nu === Infinity) return normalCdf(-t)
  if (nu >= NORMAL_FROM)
    return normalCdf((-t * (1 - 1 / (4 * nu))) / Math.sqrt(1 + (t * t) / (2 * nu)))
  const share = t / nu
  const ratio = t * share // t² / ν
  if (ratio === Infinity) return 0
  // log of x^(ν/2) (1 − x)^½ / B(ν/2, ½), x = 1 / (1 + t²/ν)
  const front =
    (-nu / 2) * Math.log1p(ratio) + (Math.log(ratio) - Math.log1p(ratio)) / 2 - logHalfBeta(nu / 2)
  const x = 1 / (1 + ratio)
  const a = nu / 2
  if (x < (a + 1) / (a + 2.5)) {
    return (Math.exp(front) * betaFraction({ a, b: 0.5, x })) / (2 * a)
  }
  if (t === 0) return 0.5
  return 0.5 - Math.exp(front) * betaFraction({ a: 0.5, b: a, x: ratio / (1 + ratio) })
}

/**
 * Quantile of Student's t, the inverse of {@link studentTCdf}.
 *
 * @param probability p [1], in (0, 1)
 * @param degreesOfFreedom ν [1], ≥ 0.5; Infinity is the normal distribution
 * @returns t with P(T ≤ t) = p, relative error below 1e-10
 * @throws {OutOfRangeError} if p does not lie strictly between 0 and 1, or ν below 0.5
 * @source bracketed Newton iteration on the distribution function (common practice)
 * @example studentTQuantile(0.975, 10) // 2.228138851964939
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  if (!(probability > 0 && probability < 1)) {
    throw new OutOfRangeError('probability', probability, Number.MIN_VALUE, 1 - Number.EPSILON / 2)
  }
  if (!(degreesOfFreedom >= 0.5)) {
    throw new OutOfRangeError('degreesOfFreedom', degreesOfFreedom, 0.5, Infinity)
  }
  if (degreesOfFreedom === Infinity) return normalQuantile(probability)
  if (probability === 0.5) return 0
  const tail = Math.min(probability, 1 - probability)
  const t = quantileOfTail(tail, degreesOfFreedom)
  return probability < 0.5 ? -t : t
}

/** t > 0 with P(T > t) = tail, tail < ½. */
function quantileOfTail(tail: number, nu: number): number {
  let low = 0
  let high = Math.max(1, -normalQuantile(tail))
  while (upperTail(high, nu) > tail) {
    low = high
    high *= 2
  }
  let t = (low + high) / 2
  for (let step = 0; step < 200; step++) {
    const probability = upperTail(t, nu)
    if (probability > tail) low = t
    else high = t
    // Newton on log P, which is nearly straight in log t far out and safe near 0.
    const slope = density(t, nu) / probability
    const newton = t + Math.log(probability / tail) / slope
    const next = newton > low && newton < high ? newton : (low + high) / 2
    if (Math.abs(next - t) <= 4 * Number.EPSILON * t) return next
    t = next
  }
  return t
}

function density(t: number, nu: number): number {
  const a = nu / 2
  return Math.exp(-(a + 0.5) * Math.log1p((t / nu) * t) - logHalfBeta(a) - Math.log(nu) / 2)
}

function requireDegrees(degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0)) {
    throw new OutOfRangeError('degreesOfFreedom', degreesOfFreedom, Number.MIN_VALUE, Infinity)
  }
}
