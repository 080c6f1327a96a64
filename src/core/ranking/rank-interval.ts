import { studentTCdf } from '../distributions/student-t.ts'
import { OutOfRangeError } from '../errors.ts'
import { advantage, checkRankedQuantity, type RankedQuantity } from './ranked-quantity.ts'

/** Ranks that the data do not rule out; 1 is best. */
export interface RankInterval {
  readonly lowest: number
  readonly highest: number
}

/**
 * Confidence interval for the rank of each item, without simulation.
 *
 *     [ 1 + number shown to be better,  m − number shown to be worse ]
 *
 * "Shown" means: rejected at level α by one-sided t tests, adjusted by Holm's step-down method
 * over the 2 (m − 1) one-sided hypotheses about that item. So for each item by itself, the
 * probability that any of its comparisons is called the wrong way round is at most α, and its
 * interval holds its true rank with confidence 1 − α. It is not a joint statement on all items.
 *
 * @param quantity m ≥ 1 items
 * @param level confidence 1 − α [1], in (0, 1)
 * @returns one interval per item
 * @throws {OutOfRangeError} if the quantity is malformed or the level out of range
 * @source M. Mogstad, J. P. Romano, A. M. Shaikh, D. Wilhelm, Inference for Ranks, Rev. Econ. Stud.
 *   91, 2024, 476-518 (marginal sets from stepwise tests of the differences); S. Holm, Scand. J.
 *   Statist. 6, 1979, 65-70 (both from memory)
 */
export function rankIntervals(quantity: RankedQuantity, level = 0.95): RankInterval[] {
  const m = checkRankedQuantity(quantity)
  if (!(level > 0 && level < 1)) throw new OutOfRangeError('level', level, 0, 1)
  return Array.from({ length: m }, (_, k) => {
    const { better, worse } = countShown(quantity, k, 1 - level)
    return { lowest: 1 + better, highest: m - worse }
  })
}

/** How many items are shown to be better and worse than item k. */
function countShown(
  quantity: RankedQuantity,
  k: number,
  alpha: number,
): { better: number; worse: number } {
  const m = quantity.estimates.length
  // Of the two one-sided tests of a pair only the one in the observed direction can reject.
  const probability = new Float64Array(m)
  for (let l = 0; l < m; l++) {
    const nu = quantity.degreesOfFreedom?.[k + l * m] ?? Infinity
    probability[l] = l === k ? 1 : studentTCdf(-Math.abs(advantage(quantity, k, l)), nu)
  }
  const largest = largestRejected(probability, alpha)
  let better = 0
  let worse = 0
  for (let l = 0; l < m; l++) {
    if (l === k || !(probability[l]! <= largest)) continue
    if (advantage(quantity, k, l) < 0) better++
    else worse++
  }
  return { better, worse }
}

/** Largest probability that Holm's method rejects, m − 1 of 2 (m − 1) hypotheses given; −1: none. */
function largestRejected(probability: Float64Array, alpha: number): number {
  const m = probability.length
  const sorted = probability.slice().sort()
  let largest = -1
  for (let step = 0; step < m - 1; step++) {
    if (!(sorted[step]! <= alpha / (2 * (m - 1) - step))) break
    largest = sorted[step]!
  }
  return largest
}
