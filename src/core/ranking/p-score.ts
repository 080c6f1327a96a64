import { normalCdf } from '../distributions/normal.ts'
import { advantage, checkRankedQuantity, type RankedQuantity } from './ranked-quantity.ts'

/**
 * P-scores: for each item the mean certainty that it is better than another one.
 *
 *     P_k = 1 / (m − 1) · Σ_{l ≠ k} Φ( (μ̂_k − μ̂_l) / se_kl )        (sign turned if lower is better)
 *
 * The certainty uses the normal distribution, as the score is defined, whatever the degrees of
 * freedom. Rank only items that are linked with each other.
 *
 * @param quantity m ≥ 1 items
 * @returns scores in [0, 1], their mean is ½; 1 for a single item
 * @throws {OutOfRangeError} if the quantity is malformed
 * @source G. Rücker, G. Schwarzer, Ranking treatments in frequentist network meta-analysis works
 *   without resampling methods, BMC Med. Res. Methodol. 15:58, 2015 (from memory)
 */
export function pScores(quantity: RankedQuantity): Float64Array {
  const m = checkRankedQuantity(quantity)
  const scores = new Float64Array(m)
  if (m === 1) scores[0] = 1
  for (let k = 0; k < m; k++) {
    for (let l = 0; l < m; l++) {
      if (l !== k) scores[k]! += normalCdf(advantage(quantity, k, l)) / (m - 1)
    }
  }
  return scores
}
