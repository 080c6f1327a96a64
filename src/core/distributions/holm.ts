/**
 * P-values adjusted for many tests at once, by Holm's step-down rule. Rejecting where the adjusted
 * value is at most α keeps the chance of even one false alarm at α or below, whatever the tests have
 * to do with one another.
 *
 *     p̃_(i) = max_{j ≤ i} min(1, (m − j + 1) p_(j)),   p_(1) ≤ p_(2) ≤ …
 *
 * @param pValues one per test [1], 0 to 1; NaN for a test that could not be made, which does not count
 * @returns adjusted p-values [1] in the same order; NaN where NaN was given
 * @source S. Holm, Scand. J. Statist. 6, 1979, 65-70 (from memory)
 * @example holmAdjusted([0.01, 0.04, 0.03]) // [0.03, 0.06, 0.06]
 */
export function holmAdjusted(pValues: ArrayLike<number>): Float64Array {
  const adjusted = Float64Array.from(pValues)
  const order = [...adjusted.keys()]
    .filter((i) => !Number.isNaN(pValues[i]!))
    .sort((i, j) => pValues[i]! - pValues[j]! || i - j)
  let largest = 0
  for (const [place, i] of order.entries()) {
    largest = Math.max(largest, Math.min(1, (order.length - place) * pValues[i]!))
    adjusted[i] = largest
  }
  return adjusted
}
