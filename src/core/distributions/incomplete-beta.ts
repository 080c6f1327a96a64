/** From here the series for log Γ(a + ½) − log Γ(a) is exact to rounding. */
const SERIES_FROM = 20

/** Most terms of the continued fraction. */
const MAX_TERMS = 100_000
/** Stands for a vanishing denominator in Lentz's method. */
const TINY = 1e-300

/**
 * log B(a, ½), without the cancellation of three log-gammas of a large a.
 *
 *     log Γ(a + ½) / Γ(a) = ½ log a − 1/(8a) + 1/(192a³) − 1/(640a⁵) + 17/(14336a⁷) − 31/(18432a⁹) …
 *
 * @param a argument [1], > 0; Infinity gives −Infinity
 * @returns natural logarithm of Γ(a) Γ(½) / Γ(a + ½)
 * @source Stirling's series, NIST Digital Library of Mathematical Functions, 5.11 (ratio expanded
 *   here; from memory)
 */
export function logHalfBeta(a: number): number {
  let factor = 1 // Γ(a + ½) / Γ(a) = factor · Γ(large + ½) / Γ(large)
  let large = a
  while (large < SERIES_FROM) {
    factor *= large / (large + 0.5)
    large++
  }
  const r = 1 / (large * large)
  const series =
    (-1 / 8 + r * (1 / 192 + r * (-1 / 640 + r * (17 / 14_336 - r * (31 / 18_432))))) / large
  return Math.log(Math.PI) / 2 - Math.log(large) / 2 - series - Math.log(factor)
}

/**
 * Continued fraction of the incomplete beta function, I_x(a, b) = x^a (1−x)^b / (a B(a, b)) · fraction.
 *
 * Converges quickly for x < (a + 1) / (a + b + 2).
 *
 * @param arguments_ a, b > 0 and x in [0, 1) [1]
 * @returns the value of the fraction
 * @source NIST Digital Library of Mathematical Functions, 8.17.22 (from memory); evaluated by
 *   W. J. Lentz, Appl. Opt. 15, 1976, 668-671 (from memory)
 */
export function betaFraction({ a, b, x }: { a: number; b: number; x: number }): number {
  let c = 1
  let d = 1 / (1 - ((a + b) * x) / (a + 1) || TINY)
  let value = d
  for (let m = 1; m < MAX_TERMS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / (1 + even * d || TINY)
    c = 1 + even / c || TINY
    value *= c * d
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / (1 + odd * d || TINY)
    c = 1 + odd / c || TINY
    const factor = c * d
    value *= factor
    if (Math.abs(factor - 1) < Number.EPSILON) break
  }
  return value
}
