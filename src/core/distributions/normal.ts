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

/** Numerator and denominator coefficients, constant first, of the three rational approximations, each
 * rounded to the nearest double. */
const CENTRE = {
  numerator: [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946,
    45921.95393154987, 67265.7709270087, 33430.57558358813, 2509.0809287301227,
  ],
  denominator: [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597,
    39307.89580009271, 28729.085735721943, 5226.495278852854,
  ],
}
const TAIL = {
  numerator: [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045,
    1.2704582524523684, 0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  denominator: [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008,
    0.015198666563616457, 0.0005475938084995345, 1.0507500716444169e-9,
  ],
}
const FAR_TAIL = {
  numerator: [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487,
    0.026532189526576124, 0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  denominator: [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133,
    1.8463183175100548e-5, 1.421511758316446e-7, 2.0442631033899397e-15,
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
