import { incompleteGamma } from './incomplete-gamma.ts'

/**
 * Distribution function of chi-square, P(ν/2, x/2).
 *
 * @param x value [1], ≥ 0
 * @param degreesOfFreedom ν [1], > 0
 * @returns probability of a value up to x
 * @throws {OutOfRangeError} if an argument lies outside its range
 * @source NIST Digital Library of Mathematical Functions, 8.2.4 (from memory)
 * @example chiSquareCdf(3.841458820694124, 1) // 0.95
 */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
  return incompleteGamma(degreesOfFreedom / 2, x / 2).lower
}

/**
 * Upper tail of chi-square, Q(ν/2, x/2): the p-value of a test that rejects large x.
 *
 * @param x value [1], ≥ 0
 * @param degreesOfFreedom ν [1], > 0
 * @returns probability of a value above x, with its relative accuracy kept when it is small
 * @throws {OutOfRangeError} if an argument lies outside its range
 * @source NIST Digital Library of Mathematical Functions, 8.2.4 (from memory)
 */
export function chiSquareUpperTail(x: number, degreesOfFreedom: number): number {
  return incompleteGamma(degreesOfFreedom / 2, x / 2).upper
}
