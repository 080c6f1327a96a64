import { measuredMovement } from '../safety/clearance-finding.ts'
import { DEFAULT_U } from './inputs/defaults.ts'
import { statedOr } from './inputs/stated.ts'
import type { Normalized, TipClearanceRun } from './types.ts'

/**
 * A tip clearance as it was measured: the one under load, or at rest where that is all there is.
 *
 *     Δx = c_rest − c_load
 *
 * Air and mass make no difference, so there is no reference state to bring it to. It is no evidence
 * for a comparison.
 *
 * @param run the run as submitted [mm]
 * @returns the clearance [mm] with its uncertainty; where both were measured, movement and advised
 *   clearance under load [mm]
 * @source METHOD.md, section i
 */
export function normaliseTipClearance(run: TipClearanceRun): {
  readonly normalized: Normalized
  readonly evidence: null
} {
  const { staticClearanceMm, loadedClearanceMm, uncertainty } = run
  const underLoad = loadedClearanceMm !== undefined
  const field = underLoad ? 'loadedClearanceMm' : 'staticClearanceMm'
  const standardUncertainty = statedOr(uncertainty, field, DEFAULT_U.tipClearanceMm)
  return {
    normalized: {
      metric: 'tipClearance',
      value: loadedClearanceMm ?? staticClearanceMm,
      unit: 'mm',
      standardUncertainty,
      budget: [
        { source: 'reading of the gap', standardUncertainty, share: 1, sharedWithinSession: false },
      ],
      underLoad,
      contactSeen: run.contactSeen,
      ...(underLoad ? measuredMovement(staticClearanceMm, loadedClearanceMm) : {}),
    },
    evidence: null,
  }
}
