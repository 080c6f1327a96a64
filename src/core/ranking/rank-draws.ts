import { OutOfRangeError } from '../errors.ts'
import { semidefiniteCholeskyInPlace } from '../linalg/cholesky.ts'
import { DotTile, rowsOf, TILE, type Vectors } from '../linalg/dot-tile.ts'
import type { Pcg32 } from '../random/pcg32.ts'
import type { Better } from './ranked-quantity.ts'

/** Estimates with their joint covariance, for drawing ranks. */
export interface JointEstimates {
  /** m estimates [any one unit]. */
  readonly estimates: ArrayLike<number>
  /** m × m, column-major, symmetric positive semidefinite [that unit squared]. */
  readonly covariance: ArrayLike<number>
  readonly better: Better
}

/** A covariance matrix gives some combination of the estimates a negative variance. */
export class IndefiniteCovarianceError extends Error {
  override readonly name = 'IndefiniteCovarianceError'
}

/** Distribution of ranks over the draws; 1 is best. */
export interface RankDistribution {
  /** Share of the draws in which each item is best; ties share. */
  readonly probabilityBest: Float64Array
  /** Smallest rank that at least half of the draws do not exceed. */
  readonly medianRank: Int32Array
  /** Share of draws with each rank, m × m: item k at rank r is entry k + (r − 1)·m. */
  readonly probabilityOfRank: Float64Array
  readonly draws: number
}

/**
 * Ranks of items in seeded draws from the normal distribution of their estimates.
 *
 * Draws are of the differences to the first item, from the Cholesky factor of their covariance:
 * what all items share does not touch ranks, and would only cost digits.
 *
 * @param joint m ≥ 1 estimates with covariance
 * @param random generator, passed in with its seed; advanced by draws · (m − 1) normal numbers
 * @param draws number of draws, ≥ 1; the standard error of a probability is at most ½ / √draws
 * @returns the distribution of ranks
 * @throws {OutOfRangeError} if sizes do not match, a value is not finite, or draws is not a
 *   positive integer
 * @throws {IndefiniteCovarianceError} if the covariance is clearly not positive semidefinite
 * @source common practice (parametric bootstrap); G. Salanti, A. E. Ades, J. P. A. Ioannidis, J. Clin.
 *   Epidemiol. 64, 2011, 163-171 (rank probabilities, from memory)
 */
export function drawRanks(joint: JointEstimates, random: Pcg32, draws: number): RankDistribution {
  const m = joint.estimates.length
  checkJoint(joint, draws)
  const factor = differenceFactor(joint)
  const sign = joint.better === 'higher' ? 1 : -1
  const centre = Float64Array.from(
    { length: m },
    (_, k) => sign * (joint.estimates[k]! - joint.estimates[0]!),
  )
  const probabilityOfRank = new Float64Array(m * m)
  const probabilityBest = new Float64Array(m)
  const into = { probabilityOfRank, probabilityBest, share: 1 / draws, sorted: new Float64Array(m) }
  const batch = new DrawBatch(factor, centre)
  for (let first = 0; first < draws; first += TILE) {
    batch.draw(random, Math.min(TILE, draws - first))
    for (let draw = first; draw < Math.min(draws, first + TILE); draw++) {
      countRanks(batch.values.subarray((draw - first) * m, (draw - first + 1) * m), into)
    }
  }
  return {
    probabilityBest,
    medianRank: medianRanks(probabilityOfRank, m),
    probabilityOfRank,
    draws,
  }
}

/** Factor of the covariance of the differences to item 0, (m − 1) × (m − 1). */
function differenceFactor({ estimates, covariance: c }: JointEstimates): Float64Array {
  const m = estimates.length
  const n = m - 1
  const factor = new Float64Array(Math.max(0, n * n))
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < n; i++) {
      const shared = c[0]! - c[i + 1]! - c[(j + 1) * m]!
      factor[i + j * n] = c[i + 1 + (j + 1) * m]! + shared
    }
  }
  // Each difference carries the rounding of four entries of the covariance.
  let largest = 0
  for (let i = 0; i < c.length; i++) largest = Math.max(largest, Math.abs(c[i]!))
  const noise = 4 * m * Number.EPSILON * largest
  if (semidefiniteCholeskyInPlace(factor, Math.max(0, n), noise) < 0) {
    throw new IndefiniteCovarianceError('the covariance of the estimates is not a covariance')
  }
  return factor
}

/** A few draws worked out together: centre + L·z, with the sums of one draw alone, bit for bit. */
class DrawBatch {
  /** Values of the draws, one after the other. */
  readonly values: Float64Array
  readonly #centre: Float64Array
  readonly #rows: Vectors
  readonly #normals: Vectors
  readonly #tile = new DotTile()

  constructor(factor: Float64Array, centre: Float64Array) {
    const n = centre.length - 1
    this.#centre = centre
    this.values = new Float64Array(TILE * centre.length)
    this.#rows = rowsOf(factor, n)
    for (let i = 0; i < n; i++) this.#rows.values.fill(0, i * n + i + 1, (i + 1) * n)
    this.#normals = { values: new Float64Array(TILE * n), stride: n }
  }

  draw(random: Pcg32, count: number): void {
    const m = this.#centre.length
    const n = m - 1
    const { sums } = this.#tile
    for (let i = 0; i < count * n; i++) this.#normals.values[i] = random.normal()
    for (let c = 0; c < count; c++) this.values[c * m] = this.#centre[0]!
    for (let i = 0; i < n; i += TILE) {
      const height = Math.min(TILE, n - i)
      for (let at = 0; at < sums.length; at++) sums[at] = -(this.#centre[i + 1 + (at % TILE)] ?? 0)
      this.#tile.to = i + height
      this.#tile.subtract(this.#rows, i, this.#normals, 0)
      for (let c = 0; c < count; c++) {
        for (let r = 0; r < height; r++) this.values[c * m + i + 1 + r] = -sums[r + TILE * c]!
      }
    }
  }
}

interface RankCounts {
  readonly probabilityOfRank: Float64Array
  readonly probabilityBest: Float64Array
  readonly share: number
  /** Scratch: the values of a draw in ascending order. */
  readonly sorted: Float64Array
}

/** Adds one draw: the rank of an item is one more than the number of items above it. */
function countRanks(value: Float64Array, into: RankCounts): void {
  const m = value.length
  const { sorted } = into
  sorted.set(value)
  sorted.sort()
  let best = 1 // how many share the first place
  while (best < m && sorted[m - 1 - best] === sorted[m - 1]) best++
  for (let k = 0; k < m; k++) {
    const above = m - firstAbove(sorted, value[k]!)
    into.probabilityOfRank[k + above * m]! += into.share
    if (above === 0) into.probabilityBest[k]! += into.share / best
  }
}

/** Place of the first number above x in ascending ones; their count where none is. */
function firstAbove(sorted: Float64Array, x: number): number {
  let low = 0
  let high = sorted.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (sorted[middle]! > x) high = middle
    else low = middle + 1
  }
  return low
}

/** Slack for sums of shares that should make one half exactly. */
const HALF = 0.5 - 1e-9

function medianRanks(probabilityOfRank: Float64Array, m: number): Int32Array {
  return Int32Array.from({ length: m }, (_, k) => {
    let sum = 0
    let rank = 0
    while (rank < m && sum < HALF) sum += probabilityOfRank[k + m * rank++]!
    return rank
  })
}

function checkJoint({ estimates, covariance }: JointEstimates, draws: number): void {
  const m = estimates.length
  if (covariance.length !== m * m) {
    throw new OutOfRangeError('covariance.length', covariance.length, m * m, m * m)
  }
  if (!(Number.isInteger(draws) && draws >= 1)) {
    throw new OutOfRangeError('draws', draws, 1, Number.MAX_SAFE_INTEGER)
  }
  const limit = Number.MAX_VALUE
  for (const values of [estimates, covariance]) {
    for (let i = 0; i < values.length; i++) {
      if (!Number.isFinite(values[i])) {
        throw new OutOfRangeError('estimate or covariance', values[i]!, -limit, limit)
      }
    }
  }
}
