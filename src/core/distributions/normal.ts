import { OutOfRangeError } from '../errors.ts'
import { incompleteGamma } from './incomplete-gamma.ts'

/**
 * Standard normal distribution function Φ(z) = ½ Q(½, z²/2) for z < 0.
 *
 * @param z value [1]; ±Infinity allowed
 * @returns probability of a value up to z, accurate to about 1e-14 of itself, also far below 0
 * @throws {OutOfRangeError} if z is NaN
 * @source NIST Digital Library of Mathematical Functions, 7.11.2 (from memory)
 * @example normalCdf(1.959963984540054) // 0.975
 */
export function normalCdf(z: number): number {
  if (Number.isNaN(z)) throw new OutOfRangeError('z', z, -Infinity, Infinity)
  const tail = incompleteGamma(0.5, (z * z) / 2).upper / 2
  return z <= 0 ? tail : 1 - tail
}

/** Numerator and denominator coefficients, constant first, of the three rational approximations. */
const CENTRE = {
  numerator: [
    3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
    45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
  ],
  denominator: [
    1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867,
    39307.89580009271061, 28729.085735721942674, 5226.495278852854561,
  ],
}
const TAIL = {
  numerator: [
    1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504,
    1.27045825245236838258, 0.24178072517745061177, 0.0227238449892691845833,
    7.7454501427834140764e-4,
  ],
  denominator: [
    1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455,
    0.14810397642748007459, 0.0151986665636164571966, 5.475938084995344946e-4,
    1.05075007164441684324e-9,
  ],
}
const FAR_TAIL = {
  numerator: [
    6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123,
    0.026532189526576123093, 0.0012426609473880784386, 2.71155556874348757815e-5,
    2.01033439929228813265e-7,
  ],
  denominator: [
    1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525,
    7.868691311456132591e-4, 1.8463183175100546818e-5, 1.4215117583164458887e-7,
    2.04426310338993978564e-15,
  ],
}

/**
 * Quantile of the standard normal distribution, the inverse of {@link normalCdf}.
 *
 * @param probability p [1], in (0, 1)
 * @returns z with Φ(z) = p, relative error about 1e-16
 * @throws {OutOfRangeError} if p does not lie strictly between 0 and 1
 * @source M. J. Wichura, Algorithm AS 241 (PPND16), Appl. Statist. 37, 1988, 477-484; coefficients
 *   compared with several public copies of the algorithm
 * @example normalQuantile(0.975) // 1.959963984540054
 */
export function normalQuantile(probability: number): number {
  if (!(probability > 0 && probability < 1)) {
    throw new OutOfRangeError('probability', probability, Number.MIN_VALUE, 1 - Number.EPSILON / 2)
  }
  const q = probability - 0.5
  if (Math.abs(q) <= 0.425) return q * rational(CENTRE, 0.180625 - q * q)
  const r = Math.sqrt(-Math.log(q < 0 ? probability : 1 - probability))
  const z = r <= 5 ? rational(TAIL, r - 1.6) : rational(FAR_TAIL, r - 5)
  return q < 0 ? -z : z
}

function rational(
  { numerator, denominator }: { numerator: readonly number[]; denominator: readonly number[] },
  x: number,
): number {
  let above = 0
  let below = 0
  for (let k = numerator.length - 1; k >= 0; k--) {
    above = above * x + numerator[k]!
    below = below * x + denominator[k]!
  }
  return above / below
}
