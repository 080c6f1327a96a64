import type { Cohort } from './cohorts.ts'
import { keptShare } from './kept-share.ts'
import {
  addInPlace,
  countInAll,
  emptySet,
  fullSet,
  has,
  keepOnlyInPlace,
  type PersonSet,
} from './person-set.ts'
import type { CodedRecords, SharedClass } from './types.ts'

/** A class while it may still be cut; places are positions in the cohort's records. */
interface OpenClass {
  readonly places: Int32Array
  readonly members: PersonSet
  readonly low: readonly number[]
  readonly high: readonly number[]
}

interface Cut {
  readonly below: OpenClass
  readonly above: OpenClass
  readonly gain: number
}

/**
 * Cuts the records of a cohort into classes, the most rewarding cut of each class first.
 *
 * @source LeFevre, DeWitt, Ramakrishnan 2006, Mondrian multidimensional k-anonymity (the cuts)
 */
export function splitCohort(records: CodedRecords, cohort: Cohort, k: number): SharedClass[] {
  const all = Int32Array.from(cohort.records, (_, place) => place)
  const waiting = [classOf(records, cohort, all)]
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

function classOf(
  { codes }: CodedRecords,
  { members, records, memberOf }: Cohort,
  places: Int32Array,
): OpenClass {
  const low = codes.map(() => Number.POSITIVE_INFINITY)
  const high = codes.map(() => 0)
  const set = emptySet(members)
  for (const place of places) {
    addInPlace(set, memberOf[place]!)
    for (let c = 0; c < codes.length; c++) {
      const code = codes[c]![records[place]!]!
      if (code < low[c]!) low[c] = code
      if (code > high[c]!) high[c] = code
    }
  }
  return { places, members: set, low, high }
}

interface Search {
  readonly from: OpenClass
  readonly companions: readonly PersonSet[]
  readonly k: number
}

/** The cut that keeps the most and leaves everybody among k; null where none does. */
function bestCut(records: CodedRecords, cohort: Cohort, search: Search): Cut | null {
  const { from } = search
  const before = worthOf(records, cohort, from)
  let best: Cut | null = null
  for (let column = 0; column < records.codes.length; column++) {
    for (let end = from.low[column]!; end < from.high[column]!; end++) {
      const [below, above] = partsOf(records, cohort, { from, column, end })
      if (below.places.length === 0 || above.places.length === 0) continue
      const gain = worthOf(records, cohort, below) + worthOf(records, cohort, above) - before
      if (gain > (best?.gain ?? 0) && leavesAmong(search, below, above))
        best = { below, above, gain }
    }
  }
  return best
}

function partsOf(
  records: CodedRecords,
  cohort: Cohort,
  cut: { readonly from: OpenClass; readonly column: number; readonly end: number },
): [OpenClass, OpenClass] {
  const codes = records.codes[cut.column]!
  const isBelow = (place: number) => codes[cohort.records[place]!]! <= cut.end
  return [
    classOf(records, cohort, cut.from.places.filter(isBelow)),
    classOf(
      records,
      cohort,
      cut.from.places.filter((place) => !isBelow(place)),
    ),
  ]
}

/** What a class keeps of its records: weight of record and column times the share kept. */
function worthOf(
  { weights, columnWeights, levels }: CodedRecords,
  { records }: Cohort,
  { places, low, high }: OpenClass,
): number {
  let weight = 0
  for (const place of places) weight += weights[records[place]!]!
  const kept = levels.map((count, c) => columnWeights[c]! * keptShare(low[c]!, high[c]!, count))
  return weight * kept.reduce((sum, share) => sum + share, 0)
}

/** Whether everybody of a class stays among k after the cut, by one class and by all of them. */
function leavesAmong({ from, companions, k }: Search, below: OpenClass, above: OpenClass): boolean {
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
