import { OutOfRangeError } from '../errors.ts'
import { semidefiniteCholeskyInPlace } from '../linalg/cholesky.ts'
import type { Pcg32 } from '../random/pcg32.ts'
import { IndefiniteCovarianceError, type JointEstimates } from './rank-draws.ts'

/** How often items are beaten by none in both of two quantities. */
export interface FrontDistribution {
  /** Share of the draws in which each item is on the front. */
  readonly probabilityOnFront: Float64Array
  readonly draws: number
}

/**
 * Probability that an item is on the Pareto front of two quantities: that no other one is at least as
 * good in both and better in one.
 *
 * Draws are from the normal distributions of both sets of estimates, taken as independent; what all items
 * of a quantity share does not touch the front, so differences to the first item are drawn.
 *
 * @param first m ≥ 1 estimates with covariance
 * @param second the same items in the other quantity
 * @param sampling generator with its seed, advanced by 2 · draws · (m − 1) numbers; draws ≥ 1: the
 *   standard error of a probability is at most ½/√draws
 * @returns shares of the draws
 * @throws {OutOfRangeError} if sizes do not match or draws is not a positive integer
 * @throws {IndefiniteCovarianceError} if a covariance is clearly not positive semidefinite
 * @source Pareto optimality, V. Pareto, 1906; parametric bootstrap (common practice)
 */
export function drawFront(
  first: JointEstimates,
  second: JointEstimates,
  { random, draws }: { readonly random: Pcg32; readonly draws: number },
): FrontDistribution {
  const m = first.estimates.length
  if (second.estimates.length !== m) {
    throw new OutOfRangeError('second.estimates.length', second.estimates.length, m, m)
  }
  if (!(Number.isInteger(draws) && draws >= 1)) {
    throw new OutOfRangeError('draws', draws, 1, Number.MAX_SAFE_INTEGER)
  }
  const samplers = [samplerOf(first), samplerOf(second)] as const
  const onFront = new Float64Array(m)
  const [x, y] = [new Float64Array(m), new Float64Array(m)]
  for (let draw = 0; draw < draws; draw++) {
    samplers[0](random, x)
    samplers[1](random, y)
    for (const k of frontOf(x, y)) onFront[k]! += 1 / draws
  }
  return { probabilityOnFront: onFront, draws }
}

/**
 * Items that no other one beats: at least as good in both and better in one. Larger is better.
 *
 * @param x m values
 * @param y m values
 * @returns indices of the items on the front, ascending in x
 * @source H. T. Kung, F. Luccio, F. P. Preparata, J. ACM 22, 1975, 469-476 (from memory)
 * @example frontOf([1, 2, 0], [2, 1, 0]) // [0, 1]
 */
export function frontOf(x: ArrayLike<number>, y: ArrayLike<number>): number[] {
  const order = Array.from({ length: x.length }, (_, k) => k).sort(
    (a, b) => x[b]! - x[a]! || y[b]! - y[a]!,
  )
  const front: number[] = []
  let highest = Number.NEGATIVE_INFINITY
  let last = -1
  for (const k of order) {
    const ties = last >= 0 && x[k] === x[last] && y[k] === y[last]
    if (!(y[k]! > highest) && !ties) continue
    front.push(k)
    highest = y[k]!
    last = k
  }
  return front.reverse()
}

/** Writes one draw of all items, larger is better, up to a constant. */
type Sampler = (random: Pcg32, into: Float64Array) => void

function samplerOf({ estimates, covariance: c, better }: JointEstimates): Sampler {
  const m = estimates.length
  if (c.length !== m * m) throw new OutOfRangeError('covariance.length', c.length, m * m, m * m)
  const n = m - 1
  const factor = new Float64Array(n * n)
  let largest = 0
  for (let i = 0; i < c.length; i++) largest = Math.max(largest, Math.abs(c[i]!))
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < n; i++) {
      const shared = c[0]! - c[i + 1]! - c[(j + 1) * m]!
      factor[i + j * n] = c[i + 1 + (j + 1) * m]! + shared
    }
  }
  const noise = 4 * m * Number.EPSILON * largest
  if (semidefiniteCholeskyInPlace(factor, n, noise) < 0) {
    throw new IndefiniteCovarianceError('the covariance of the estimates is not a covariance')
  }
  const sign = better === 'higher' ? 1 : -1
  const normal = new Float64Array(n)
  return (random, into) => {
    for (let i = 0; i < n; i++) normal[i] = random.normal()
    for (let k = 0; k < m; k++) into[k] = sign * (estimates[k]! - estimates[0]!)
    for (let j = 0; j < n; j++) {
      for (let i = j; i < n; i++) into[i + 1]! += factor[i + j * n]! * normal[j]!
    }
  }
}
