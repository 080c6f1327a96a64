import type { Cohort } from './cohorts.ts'
import { addInPlace, emptySet, type PersonSet } from './person-set.ts'
import type { CodedRecords } from './types.ts'

/** What is known of some records of a cohort without looking at them again. */
export interface Part {
  /** Sum of the weights of the records. */
  readonly weight: number
  readonly members: PersonSet
  /** Lowest and highest code of every column. */
  readonly low: readonly number[]
  readonly high: readonly number[]
}

/** A cut behind the code `end` of a column, and what lies on either side. */
export interface PossibleCut {
  readonly end: number
  readonly below: Part
  readonly above: Part
}

/** A part while it grows. */
interface Growing extends Part {
  weight: number
  readonly low: number[]
  readonly high: number[]
}

/**
 * What the records at these places of a cohort come to.
 *
 * @source definition
 */
export function partOf(records: CodedRecords, cohort: Cohort, places: Int32Array): Part {
  const part = nothing(records, cohort)
  for (const place of places) grow(part, records, cohort, place)
  return part
}

/**
 * The places where the records of a part can be cut in two at a column, lowest first; cuts between
 * the same records count once. Each record is looked at once for all of them: parts of one code are
 * added up from below and from above.
 *
 * @source definition
 */
export function cutsOf(
  records: CodedRecords,
  cohort: Cohort,
  { places, column }: { readonly places: Int32Array; readonly column: number },
): PossibleCut[] {
  const codes = records.codes[column]!
  const byCode = new Map<number, Growing>()
  for (const place of places) {
    const code = codes[cohort.records[place]!]!
    const part = byCode.get(code) ?? nothing(records, cohort)
    byCode.set(code, part)
    grow(part, records, cohort, place)
  }
  const parts = [...byCode].sort(([a], [b]) => a - b)
  const above: Part[] = []
  for (const [, part] of parts.slice(1).reverse()) above.unshift(joined(part, above[0]))
  let below = null as Part | null
  return above.map((rest, i) => {
    const [end, part] = parts[i]!
    below = joined(part, below)
    return { end, below, above: rest }
  })
}

function nothing({ codes }: CodedRecords, { members }: Cohort): Growing {
  return {
    weight: 0,
    members: emptySet(members),
    low: codes.map(() => Number.MAX_SAFE_INTEGER),
    high: codes.map(() => 0),
  }
}

function grow(part: Growing, { codes, weights }: CodedRecords, cohort: Cohort, place: number) {
  const { low, high } = part
  const record = cohort.records[place]!
  part.weight += weights[record]!
  addInPlace(part.members, cohort.memberOf[place]!)
  for (let c = 0; c < codes.length; c++) {
    const code = codes[c]![record]!
    if (code < low[c]!) low[c] = code
    if (code > high[c]!) high[c] = code
  }
}

function joined(a: Part, b: Part | null | undefined): Part {
  if (!b) return a
  return {
    weight: a.weight + b.weight,
    members: a.members.map((word, i) => word | b.members[i]!),
    low: a.low.map((code, c) => Math.min(code, b.low[c]!)),
    high: a.high.map((code, c) => Math.max(code, b.high[c]!)),
  }
}
