import type { SetupParts } from '../../core/comparison/additive-view.ts'
import { isSorted } from '../../core/mixed/design/canonical-order.ts'
import type { SystematicReach } from '../../core/mixed/systematic.ts'
import type { SystematicEffect } from '../../core/normalise/types.ts'
import { sharedArray } from '../../threads/shared-arrays.ts'

/** One id per run, as codes: code n stands for the n-th id. Ids are sorted, and each is used. */
export interface IdColumn {
  readonly ids: readonly string[]
  readonly codes: Int32Array
}

/** One cause that reaches beyond the session: its signed effect on y of every run, 0 where it does not touch. */
export interface EvidenceCause {
  readonly cause: string
  readonly reach: SystematicReach
  readonly effect: Float64Array
}

/** Somebody with an interest submitted it; unknown: a release does not tell, and no claim is made. */
export const INTEREST = { no: 0, yes: 1, unknown: 2 } as const

/** In place of the entry of runs that came as rows of a file. */
export const FILE_ROW = -1

/** The runs that count, column by column, by session and place in it, mirrored ones last; y and uncertainties as logarithms. */
export interface EvidenceRows {
  readonly setup: IdColumn
  readonly session: IdColumn
  readonly pilot: IdColumn
  /** ln of the quantity at the reference state. */
  readonly y: Float64Array
  /** Standard uncertainty of y from causes of the run alone. */
  readonly own: Float64Array
  /** Standard uncertainty of y from causes common to the session. */
  readonly shared: Float64Array
  /** Whether it was submitted by somebody with an interest, as {@link INTEREST} says. */
  readonly interested: Uint8Array
  /** ln of the all-up mass [kg]; NaN where it is not known. */
  readonly logMass: Float64Array
  /** Place of the run in its submission; entry {@link FILE_ROW}: it is a row of a mirrored release. */
  readonly entryIndex: Int32Array
  readonly runIndex: Int32Array
  /** Errors that reach beyond the session, by cause and reach; none that touches no run. */
  readonly systematic: readonly EvidenceCause[]
  /** Ids of the parts of every setup; absent: no model of parts. */
  readonly parts?: Readonly<Record<string, SetupParts>>
}

/** One run as evidence. */
export interface EvidenceRun {
  readonly session: string
  readonly pilot: string
  readonly setup: string
  readonly y: number
  readonly own: number
  readonly shared: number
  /** Null: a release does not tell, and no claim is made. */
  readonly interested: boolean | null
  readonly systematic: readonly SystematicEffect[]
  readonly allUpMassKg: number | null
  readonly entryIndex: number
  readonly runIndex: number
}

/** Some rows of a set, from … to − 1. */
export interface RowSlice {
  readonly rows: EvidenceRows
  readonly from: number
  readonly to: number
}

const NUMBERS = ['y', 'own', 'shared', 'interested', 'logMass', 'entryIndex', 'runIndex'] as const

/**
 * Puts slices one after the other. The same runs in the same order give the same columns, byte for byte, whatever
 * sets they were cut from.
 */
export function joinRows(slices: readonly RowSlice[]): Omit<EvidenceRows, 'parts'> {
  const count = slices.reduce((sum, { from, to }) => sum + to - from, 0)
  const numbers = {
    y: sharedArray.float64(count),
    own: sharedArray.float64(count),
    shared: sharedArray.float64(count),
    interested: sharedArray.uint8(count),
    logMass: sharedArray.float64(count),
    entryIndex: sharedArray.int32(count),
    runIndex: sharedArray.int32(count),
  }
  let at = 0
  for (const { rows, from, to } of slices) {
    for (const name of NUMBERS) numbers[name].set(rows[name].subarray(from, to), at)
    at += to - from
  }
  return {
    ...numbers,
    setup: joinIds(slices, 'setup', count),
    session: joinIds(slices, 'session', count),
    pilot: joinIds(slices, 'pilot', count),
    systematic: joinCauses(slices, count),
  }
}

/** Ids under other names; two that get the same name become one. */
export function renameIds({ ids, codes }: IdColumn, nameOf: (id: string) => string): IdColumn {
  const table = new IdTable()
  const renamed = Int32Array.from(ids, (id) => table.code(nameOf(id)))
  return table.sorted(codes.map((code) => renamed[code]!))
}

/** Codes 0, 1, 2 … for ids in the order in which they are first met. */
class IdTable {
  readonly #codeOf = new Map<string, number>()

  code(id: string): number {
    const known = this.#codeOf.get(id)
    if (known !== undefined) return known
    this.#codeOf.set(id, this.#codeOf.size)
    return this.#codeOf.size - 1
  }

  /** The column of these codes, with sorted ids. Every id of the table is used. */
  sorted(codes: Int32Array): IdColumn {
    const met = [...this.#codeOf.keys()]
    if (isSorted(met)) return { ids: met, codes: sharedArray.copyOf(codes) }
    const ids = met.sort()
    const rank = new Int32Array(ids.length)
    ids.forEach((id, place) => {
      rank[this.#codeOf.get(id)!] = place
    })
    const sorted = sharedArray.int32(codes.length)
    for (let i = 0; i < codes.length; i++) sorted[i] = rank[codes[i]!]!
    return { ids, codes: sorted }
  }
}

function joinIds(
  slices: readonly RowSlice[],
  kind: 'setup' | 'session' | 'pilot',
  count: number,
): IdColumn {
  const table = new IdTable()
  const codes = new Int32Array(count)
  const renamed = new Map<IdColumn, Int32Array>()
  let at = 0
  for (const { rows, from, to } of slices) {
    const column = rows[kind]
    const codeIn = renamed.get(column) ?? new Int32Array(column.ids.length).fill(-1)
    renamed.set(column, codeIn)
    for (let i = from; i < to; i++) {
      const code = column.codes[i]!
      if (codeIn[code] === -1) codeIn[code] = table.code(column.ids[code]!)
      codes[at++] = codeIn[code]!
    }
  }
  return table.sorted(codes)
}

function joinCauses(slices: readonly RowSlice[], count: number): EvidenceCause[] {
  const joined = new Map<string, EvidenceCause>()
  let at = 0
  for (const { rows, from, to } of slices) {
    for (const { cause, reach, effect } of rows.systematic) {
      const part = effect.subarray(from, to)
      if (part.every((value) => value === 0)) continue
      effectOf(joined, { cause, reach, count }).set(part, at)
    }
    at += to - from
  }
  return byName(joined)
}

/** The effects of a cause, all 0 when it is met for the first time. */
function effectOf(
  causes: Map<string, EvidenceCause>,
  { cause, reach, count }: Pick<EvidenceCause, 'cause' | 'reach'> & { readonly count: number },
): Float64Array {
  const key = `${cause} ${reach}`
  const known = causes.get(key)
  if (known !== undefined) return known.effect
  const effect = sharedArray.float64(count)
  causes.set(key, { cause, reach, effect })
  return effect
}

function byName(causes: ReadonlyMap<string, EvidenceCause>): EvidenceCause[] {
  return [...causes].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, cause]) => cause)
}

/** Runs as columns, in the order given. */
export function toRows(runs: readonly EvidenceRun[]): EvidenceRows {
  const ids = (kind: 'setup' | 'session' | 'pilot') =>
    renameIds({ ids: runs.map((run) => run[kind]), codes: Int32Array.from(runs.keys()) }, String)
  const causes = new Map<string, EvidenceCause>()
  runs.forEach(({ systematic }, i) => {
    for (const { cause, reach, effect } of systematic) {
      effectOf(causes, { cause, reach, count: runs.length })[i]! += effect
    }
  })
  return {
    ...{ setup: ids('setup'), session: ids('session'), pilot: ids('pilot') },
    y: Float64Array.from(runs, ({ y }) => y),
    own: Float64Array.from(runs, ({ own }) => own),
    shared: Float64Array.from(runs, ({ shared }) => shared),
    interested: Uint8Array.from(runs, ({ interested }) =>
      interested === null ? INTEREST.unknown : interested ? INTEREST.yes : INTEREST.no,
    ),
    logMass: Float64Array.from(runs, ({ allUpMassKg }) =>
      allUpMassKg === null ? Number.NaN : Math.log(allUpMassKg),
    ),
    entryIndex: Int32Array.from(runs, ({ entryIndex }) => entryIndex),
    runIndex: Int32Array.from(runs, ({ runIndex }) => runIndex),
    systematic: byName(causes),
  }
}

/** Places of the runs in their submissions or files (RFC 6901). */
export function pointersOf({ entryIndex, runIndex }: EvidenceRows): string[] {
  return Array.from(entryIndex, (entry, i) =>
    entry === FILE_ROW ? `/rows/${runIndex[i]}` : `/entries/${entry}/runs/${runIndex[i]}`,
  )
}
