import type { FitVariant } from '../../core/comparison/fit-about.ts'
import { massClassOf } from '../../core/comparison/mass-classes.ts'
import { type EvidenceRows, INTEREST, joinRows, type RowSlice } from './evidence-rows.ts'

type Part = Pick<FitVariant, 'excludeInterested' | 'massClass'>

/** The part of the evidence a variant rests on; the rows themselves where nothing is left out. */
export function selectRows(
  rows: EvidenceRows,
  { excludeInterested, massClass }: Part,
): EvidenceRows {
  const slices: RowSlice[] = []
  for (let i = 0, from = 0; i <= rows.y.length; i++) {
    if (i < rows.y.length && counts(rows, i, { excludeInterested, massClass })) continue
    if (i > from) slices.push({ rows, from, to: i })
    from = i + 1
  }
  if (slices.reduce((sum, { from, to }) => sum + to - from, 0) === rows.y.length) return rows
  const { parts } = rows
  return { ...joinRows(slices), ...(parts === undefined ? {} : { parts }) }
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
