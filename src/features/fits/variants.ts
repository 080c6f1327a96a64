import type { FitVariant } from '../../core/comparison/fit-about.ts'
import { massClassOf } from '../../core/comparison/mass-classes.ts'
import type { EvidenceRows } from './model.ts'

/** The part of the evidence a variant rests on; the rows themselves where nothing is left out. */
export function selectRows(
  rows: EvidenceRows,
  { excludeInterested, massClass }: Pick<FitVariant, 'excludeInterested' | 'massClass'>,
): EvidenceRows {
  const kept = [...rows.setup.keys()].filter((i) => {
    if (excludeInterested && rows.interested[i] !== false) return false // unknown is not none
    if (massClass === null) return true
    const logMass = rows.logMass?.[i] ?? Number.NaN
    return !Number.isNaN(logMass) && massClassOf(Math.exp(logMass)) === massClass
  })
  if (kept.length === rows.setup.length) return rows
  const numbers = (values: Float64Array) => Float64Array.from(kept, (i) => values[i]!)
  const items = <T>(values: readonly T[]) => kept.map((i) => values[i]!)
  return {
    setup: items(rows.setup),
    session: items(rows.session),
    pilot: items(rows.pilot),
    y: numbers(rows.y),
    own: numbers(rows.own),
    shared: numbers(rows.shared),
    interested: items(rows.interested),
    systematic: items(rows.systematic),
    ...(rows.parts === undefined ? {} : { parts: rows.parts }),
    ...(rows.logMass === undefined ? {} : { logMass: numbers(rows.logMass) }),
    ...(rows.pointer === undefined ? {} : { pointer: items(rows.pointer) }),
  }
}
