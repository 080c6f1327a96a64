import { OutOfRangeError } from '../errors.ts'

/** From here Stirling's series with the terms below is exact to rounding. */
const STIRLING_FROM = 15

/** Coefficients B_2k / (2k (2k − 1)) of Stirling's series, as fractions of Bernoulli numbers. */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360_360, 1 / 156]

/**
 * Natural logarithm of the gamma function.
 *
 *     log Γ(x) = (x − ½) log x − x + ½ log 2π + Σ B_2k / (2k (2k − 1) x^(2k−1)),  x ≥ 15;
 *     smaller x by Γ(x) = Γ(x + 1) / x
 *
 * @param x argument [1], > 0
 * @returns log Γ(x), absolute error below 1e-14 · max(1, |log Γ(x)|)
 * @throws {OutOfRangeError} if x is not positive and finite
 * @source NIST Digital Library of Mathematical Functions, 5.11.1 and 5.5.1 (from memory)
 * @example logGamma(0.5) // 0.572364943, ½ log π
 */
export function logGamma(x: number): number {
  if (!(x > 0 && x < Infinity)) {
    throw new OutOfRangeError('x', x, Number.MIN_VALUE, Number.MAX_VALUE)
  }
  let product = 1
  let large = x
  while (large < STIRLING_FROM) product *= large++
  const inverseSquare = 1 / (large * large)
  let series = 0
  for (let k = STIRLING.length - 1; k >= 0; k--) series = series * inverseSquare + STIRLING[k]!
  const stirling =
    (large - 0.5) * Math.log(large) - large + Math.log(2 * Math.PI) / 2 + series / large
  return stirling - Math.log(product)
}
