/**
 * What a class keeps of a column: 1 where it shows one value, 0 where it shows nothing, between them
 * in proportion to the width of the range.
 *
 *     kept = 1 − (high − low) / (levels − 1)
 *
 * @source one less the normalised certainty penalty of an ordered attribute (common practice)
 */
export function keptShare(low: number, high: number, levels: number): number {
  if (low === 0) return 0
  return low === high ? 1 : 1 - (high - low) / (levels - 1)
}
