import { PLAIN } from '../../core/comparison/fit-about.ts'
import type { PerComponent } from '../../core/mixed/components.ts'
import { METHOD_VERSION, MODEL_VERSION } from '../../core/version.ts'
import type { EvidenceRows } from './evidence-rows.ts'
import { idOf, type Selected } from './make.ts'
import type { CurrentFit } from './repository.ts'

/**
 * Runs from which a refresh starts at the variances of the current fit; editorial. Below it a fit from the data
 * takes some hundredths of a second, and its name follows from the evidence alone.
 */
export const WARM_START_RUNS = 10_000

/** What a refresh fits: the evidence, and the start that follows from the current fit. */
export function selectForRefresh(
  quantity: CurrentFit['quantity'],
  rows: EvidenceRows,
  current: CurrentFit | null,
): Selected {
  const fromData = { rows, variant: PLAIN, start: null }
  if (current === null || rows.y.length < WARM_START_RUNS) return fromData
  const again = { ...fromData, start: current.start }
  if (idOf({ quantity }, again) === current.id) return again // nothing changed
  return { ...fromData, start: usableStart(current) }
}

function usableStart(current: CurrentFit): PerComponent<number> | null {
  const { modelVersion, methodVersion, converged, theta } = current
  const sameMethod = modelVersion === MODEL_VERSION && methodVersion === METHOD_VERSION
  return sameMethod && converged ? theta : null
}
