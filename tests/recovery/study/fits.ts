import type { FitView } from '../../../src/core/comparison/fit-view.ts'
import type { Quantity } from '../../../src/core/comparison/metric.ts'
import { restoreFit, viewOf } from '../../../src/core/comparison/stored-fit.ts'
import { normaliseSubmission } from '../../../src/core/normalise/submission.ts'
import type { Evidence } from '../../../src/core/normalise/types.ts'
import { toRows } from '../../../src/features/fits/evidence-rows.ts'
import { fitEvidence } from '../../../src/features/fits/model.ts'
import type { WorldSubmission } from '../world/community.ts'
import type { WorldSetup } from '../world/setups.ts'

/** One run's evidence with where it belongs. */
export interface EvidenceRow {
  readonly setup: string
  readonly session: string
  readonly pilot: string
  readonly evidence: Evidence
}

/** The evidence of all submissions, normalised as the service does; a refused submission gives none. */
export function evidenceOf(submissions: readonly WorldSubmission[]): {
  readonly rows: readonly EvidenceRow[]
  readonly refused: number
} {
  const rows: EvidenceRow[] = []
  let refused = 0
  for (const { id, pilotId, session, entries } of submissions) {
    const { outcomes } = normaliseSubmission(session, entries)
    if (outcomes === null) refused++
    outcomes?.forEach((runs, index) => {
      const setup = entries[index]!.setupId
      for (const { evidence } of runs) {
        if (evidence !== null) rows.push({ setup, session: id, pilot: pilotId, evidence })
      }
    })
  }
  return { rows, refused }
}

/** Fits one quantity as the service does, and gives the view its comparisons ask. */
export function fitOf(
  all: readonly EvidenceRow[],
  quantity: Quantity,
  setups: readonly WorldSetup[],
): { readonly view: FitView; readonly runs: number; readonly converged: boolean } {
  const rows = all.filter(({ evidence }) => evidence.quantity === quantity)
  const columns = toRows(
    rows.map(({ evidence, ...ids }, runIndex) => ({
      ...ids,
      y: evidence.logValue,
      own: evidence.ownStandardUncertainty,
      shared: evidence.sharedStandardUncertainty,
      systematic: evidence.systematic,
      ...{ interested: false, allUpMassKg: null, entryIndex: 0, runIndex },
    })),
  )
  const parts = Object.fromEntries(setups.map((setup) => [setup.id, setup.parts]))
  const { converged, header, numbers } = fitEvidence({ ...columns, parts })
  const block = new Float64Array(numbers.buffer, numbers.byteOffset, numbers.byteLength / 8)
  const view = viewOf(restoreFit({ header, numbers: block }))
  return { view, runs: rows.length, converged }
}
