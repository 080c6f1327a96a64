import type { FitVariant } from '../../core/comparison/fit-about.ts'
import { massClassOf } from '../../core/comparison/mass-classes.ts'
import { sharedArray } from '../../threads/shared-arrays.ts'
import { type EvidenceRows, type IdColumn, INTEREST } from './evidence-rows.ts'

type Part = Pick<FitVariant, 'excludeInterested' | 'massClass'>

/** The part of the evidence a variant rests on; the rows themselves where nothing is left out. */
export function selectRows(rows: EvidenceRows, part: Part): EvidenceRows {
  const runs = rows.y.length
  const kept = new Int32Array(runs)
  let count = 0
  for (let i = 0; i < runs; i++) if (counts(rows, i, part)) kept[count++] = i
  return count === runs ? rows : takeRows(rows, kept.subarray(0, count))
}

function counts(
  { interested, logMass }: EvidenceRows,
  i: number,
  { excludeInterested, massClass }: Part,
): boolean {
  if (excludeInterested && interested[i] !== INTEREST.no) return false // unknown is not none
  if (massClass === null) return true
  return !Number.isNaN(logMass[i]) && massClassOf(Math.exp(logMass[i]!)) === massClass
}

/** Some of the rows, in columns of their own: ids and causes that none of them has are left out. */
function takeRows({ parts, ...rows }: EvidenceRows, kept: Int32Array): EvidenceRows {
  return {
    setup: takeIds(rows.setup, kept),
    session: takeIds(rows.session, kept),
    pilot: takeIds(rows.pilot, kept),
    y: take(rows.y, kept),
    own: take(rows.own, kept),
    shared: take(rows.shared, kept),
    interested: take(rows.interested, kept),
    logMass: take(rows.logMass, kept),
    entryIndex: take(rows.entryIndex, kept),
    runIndex: take(rows.runIndex, kept),
    systematic: rows.systematic
      .map(({ effect, ...cause }) => ({ ...cause, effect: take(effect, kept) }))
      .filter(({ effect }) => effect.some((value) => value !== 0)),
    ...(parts === undefined ? {} : { parts }),
  }
}

function take<T extends Float64Array | Int32Array | Uint8Array>(column: T, kept: Int32Array): T {
  const taken = sharedArray.like(column, kept.length)
  for (let i = 0; i < kept.length; i++) taken[i] = column[kept[i]!]!
  return taken
}

/** The ids stay sorted, so those that are used only move together. */
function takeIds({ ids, codes }: IdColumn, kept: Int32Array): IdColumn {
  const taken = take(codes, kept)
  const used = new Uint8Array(ids.length)
  for (let i = 0; i < taken.length; i++) used[taken[i]!] = 1
  const renamed = new Int32Array(ids.length)
  for (let code = 1; code < ids.length; code++) renamed[code] = renamed[code - 1]! + used[code - 1]!
  for (let i = 0; i < taken.length; i++) taken[i] = renamed[taken[i]!]!
  return { ids: ids.filter((_, code) => used[code] === 1), codes: taken }
}
