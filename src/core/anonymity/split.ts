import type { Cohort } from './cohorts.ts'
import { keptShare } from './kept-share.ts'
import { cutsOf, type Part, type PossibleCut, partOf } from './parts.ts'
import { countInAll, fullSet, has, keepOnlyInPlace, type PersonSet } from './person-set.ts'
import type { CodedRecords, SharedClass } from './types.ts'

/** A class while it may still be cut; places are positions in the cohort's records. */
interface OpenClass extends Part {
  readonly places: Int32Array
}

interface Cut {
  readonly below: OpenClass
  readonly above: OpenClass
}

/**
 * Cuts the records of a cohort into classes, the most rewarding cut of each class first.
 *
 * @source LeFevre, DeWitt, Ramakrishnan 2006, Mondrian multidimensional k-anonymity (the cuts)
 */
export function splitCohort(records: CodedRecords, cohort: Cohort, k: number): SharedClass[] {
  const all = Int32Array.from(cohort.records, (_, place) => place)
  const waiting: OpenClass[] = [{ ...partOf(records, cohort, all), places: all }]
  // For every member, who is in all the classes that the member is in.
  const companions = Array.from({ length: cohort.members }, () => fullSet(cohort.members))
  const done: SharedClass[] = []
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
    const cut = bestCut(records, cohort, { from: next, companions, k })
    if (cut === null) {
      done.push({
        records: next.places.map((place) => cohort.records[place]!).sort(),
        low: next.low,
        high: next.high,
      })
      continue
    }
    for (const part of [cut.below, cut.above]) {
      for (let member = 0; member < cohort.members; member++) {
        if (has(part.members, member)) keepOnlyInPlace(companions[member]!, part.members)
      }
      waiting.push(part)
    }
  }
  return done
}

interface Search {
  readonly from: OpenClass
  readonly companions: readonly PersonSet[]
  readonly k: number
}

/** The cut that keeps the most and leaves everybody among k; null where none does. */
function bestCut(records: CodedRecords, cohort: Cohort, search: Search): Cut | null {
  const { places } = search.from
  const before = worthOf(records, search.from)
  let best = null as (PossibleCut & { readonly column: number }) | null
  let bestGain = 0
  for (let column = 0; column < records.codes.length; column++) {
    for (const cut of cutsOf(records, cohort, { places, column })) {
      const gain = worthOf(records, cut.below) + worthOf(records, cut.above) - before
      if (gain <= bestGain || !leavesAmong(search, cut)) continue
      best = { ...cut, column }
      bestGain = gain
    }
  }
  if (best === null) return null
  const { end, below, above } = best
  const codes = records.codes[best.column]!
  const isBelow = (place: number) => codes[cohort.records[place]!]! <= end
  return {
    below: { ...below, places: places.filter(isBelow) },
    above: { ...above, places: places.filter((place) => !isBelow(place)) },
  }
}

/** What a class keeps of its records: weight of record and column times the share kept. */
function worthOf({ columnWeights, levels }: CodedRecords, { weight, low, high }: Part): number {
  const kept = levels.map((count, c) => columnWeights[c]! * keptShare(low[c]!, high[c]!, count))
  return weight * kept.reduce((sum, share) => sum + share, 0)
}

/** Whether everybody of a class stays among k after the cut, by one class and by all of them. */
function leavesAmong({ from, companions, k }: Search, { below, above }: PossibleCut): boolean {
  if (countInAll(below.members) < k || countInAll(above.members) < k) return false
  for (let member = 0; member < companions.length; member++) {
    if (!has(from.members, member)) continue
    const own = companions[member]!
    const left = countInAll(
      own,
      has(below.members, member) ? below.members : own,
      has(above.members, member) ? above.members : own,
    )
    if (left < k) return false
  }
  return true
}
