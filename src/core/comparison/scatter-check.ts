import { chiSquareCdf } from '../distributions/chi-square.ts'
import type { Layout } from '../mixed/layout.ts'

/** Scatter of repeated runs against the uncertainty that was declared for them. */
export interface ScatterCheck {
  /** Observed over declared variance [1]. */
  readonly ratio: number
  readonly degreesOfFreedom: number
  /** Probability of so little scatter if the declared uncertainty were right [1]. */
  readonly pTooSmall: number
}

/**
 * Whether repeated runs scatter as much as was declared for them.
 *
 *     χ² = Σ (y − ȳ)²/u² within cells, on N − C
 *
 * @param layout the runs
 * @returns the ratio to what is expected and its probability; null where no cell has two runs or some
 *   run declares nothing
 * @source chi-square test of a variance (common practice)
 */
export function checkScatter({
  cellCount,
  cellStart,
  deviation,
  knownRunVariance,
}: Layout): ScatterCheck | null {
  let chiSquare = 0
  let degreesOfFreedom = 0
  for (let c = 0; c < cellCount; c++) {
    let W = 0
    let mean = 0
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) {
      const w = 1 / knownRunVariance[i]!
      if (!Number.isFinite(w)) return null
      W += w
      mean += (w * (deviation[i]! - mean)) / W
    }
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) {
      chiSquare += (deviation[i]! - mean) ** 2 / knownRunVariance[i]!
    }
    degreesOfFreedom += cellStart[c + 1]! - cellStart[c]! - 1
  }
  if (degreesOfFreedom === 0) return null
  return {
    ratio: chiSquare / degreesOfFreedom,
    degreesOfFreedom,
    pTooSmall: chiSquareCdf(chiSquare, degreesOfFreedom),
  }
}

/**
 * Counts cells whose runs are all the same number: copied, or read to too few digits.
 *
 * @param layout the runs
 * @returns the count
 * @source common practice
 */
export function countIdentical({ cellCount, cellStart, deviation }: Layout): number {
  let identical = 0
  for (let c = 0; c < cellCount; c++) {
    const [first, end] = [cellStart[c]!, cellStart[c + 1]!]
    // Runs of a cell are sorted by value.
    if (end - first >= 2 && deviation[first] === deviation[end - 1]) identical++
  }
  return identical
}
