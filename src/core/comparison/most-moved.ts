import type { NestedFit } from '../mixed/fit-result.ts'
import type { FitInfluence } from '../mixed/influence.ts'
import type { Layout } from '../mixed/layout.ts'

/** A difference of two setups and what leaving out a session does to it. */
export interface MostMoved {
  readonly a: string
  readonly b: string
  /** Change of a − b [unit of y]. */
  readonly change: number
  readonly inStandardErrors: number
}

/** Setups from which on only pairs within the session are looked at. */
const MANY_SETUPS = 200

/**
 * For each session the pair of setups, one of them flown in it, whose difference moves most when the
 * session is left out.
 *
 *     β(without s) − β = −C pull_s,   in units of se(a − b)
 *
 * @param layout the runs
 * @param fit the fit
 * @param influence of that fit
 * @returns one entry per session in the order of the layout; null for sole evidence and single setups
 * @source as for changesWithout
 */
export function mostMovedPairs(
  layout: Layout,
  fit: NestedFit,
  influence: FitInfluence,
): (MostMoved | null)[] {
  const K = layout.setupCount
  const shift = new Float64Array(K)
  const moved: (MostMoved | null)[] = []
  for (let p = 0; p < layout.pilotCount; p++) {
    for (let s = layout.pilotStart[p]!; s < layout.pilotStart[p + 1]!; s++) {
      const pull = influence.pulls[s] ?? null
      if (pull === null) {
        moved.push(null)
        continue
      }
      shift.fill(0)
      for (let j = 0; j < pull.length; j++) {
        const column = layout.pilotSetup[layout.pilotSetupStart[p]! + j]! * K
        for (let k = 0; k < K; k++) shift[k]! -= fit.covariance[column + k]! * pull[j]!
      }
      moved.push(largestOf(layout, fit, { s, shift }))
    }
  }
  return moved
}

function largestOf(
  { sessionStart, cellSetup, setupCount: K, setupIds }: Layout,
  { covariance: C }: NestedFit,
  { s, shift }: { readonly s: number; readonly shift: Float64Array },
): MostMoved | null {
  const inside = [...cellSetup.subarray(sessionStart[s]!, sessionStart[s + 1]!)]
  const others = K > MANY_SETUPS ? inside : Array.from({ length: K }, (_, k) => k)
  let largest: MostMoved | null = null
  for (const a of inside) {
    for (const b of others) {
      if (a === b) continue
      const variance = C[a + a * K]! + C[b + b * K]! - 2 * C[a + b * K]!
      const change = shift[a]! - shift[b]!
      const inStandardErrors = change / Math.sqrt(variance)
      if (!(Math.abs(inStandardErrors) > Math.abs(largest?.inStandardErrors ?? 0))) continue
      largest = { a: setupIds[a]!, b: setupIds[b]!, change, inStandardErrors }
    }
  }
  return largest
}
