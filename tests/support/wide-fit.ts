import type { Question } from '../../src/core/comparison/compare.ts'
import { viewOf } from '../../src/core/comparison/stored-fit.ts'
import { gatherEvidence } from '../../src/core/mixed/evidence.ts'
import { fitNested } from '../../src/core/mixed/fit.ts'
import { buildLayout } from '../../src/core/mixed/layout.ts'
import { systematicTerms } from '../../src/core/mixed/systematic.ts'
import { REFERENCE } from '../../src/core/normalise/reference.ts'
import { simulateColumns } from '../bench/simulated-runs.ts'

/** A made-up fit of many setups with two errors that reach beyond a session, and its setups as candidates. */
export function wideQuestion(size: { readonly runs: number; readonly setups: number }) {
  const columns = simulateColumns(size)
  const y = columns.y.map((value) => 8.7 + 0.1 * value) // ln of watts that climb
  const layout = buildLayout({ ...columns, y })
  const fit = fitNested(layout)
  const effectOf = (size: number, offset: number) =>
    Float64Array.from(columns.setup, (setup) => size * ((setup + offset) % 3))
  const terms = systematicTerms(layout, fit, [
    { cause: 'mixture', reach: 'everyone', effect: effectOf(0.002, 0) },
    { cause: 'diameter', reach: 'setup', effect: effectOf(0.003, 1) },
  ])
  const interestedSessions = fit.setups.map(() => 0)
  const view = viewOf({ fit, evidence: gatherEvidence(layout), terms, interestedSessions })
  const question: Question = { metric: 'climbRate', state: REFERENCE, fit: view }
  const equipment = { drive: 'twoStroke', propellerDiameterCm: 125 } as const
  return { question, candidates: fit.setups.map((setupId) => ({ setupId, equipment })) }
}
