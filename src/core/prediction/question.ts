import type { FitView } from '../comparison/fit-view.ts'
import type { Quantity } from '../comparison/metric.ts'
import { refusalOfSetup } from '../comparison/refusal.ts'
import type { Spread } from '../mixed/next-session.ts'
import type { Equipment } from '../normalise/types.ts'
import type { PredictionConditions } from './asked.ts'
import { notPredicted, type PredictionRefusal } from './refusal.ts'

/** What a fit says of one setup, for predictions. */
export interface SetupEvidence {
  readonly view: FitView
  /** Spread of a further session, by a pilot not seen before; asked only of setups with evidence. */
  nextSession(setupId: string): Spread
}

/** A setup with what its prediction needs of the catalogue. */
export interface PredictedSetup {
  readonly setupId: string
  readonly equipment: Equipment
  /** Engine speed at the rated power [1/min], or null. */
  readonly ratedRpm: number | null
  /** Engine revolutions per propeller revolution, or null. */
  readonly reductionRatio: number | null
}

/** The quantities a prediction rests on. */
export const BASES = [
  'inducedPower',
  'fuelFlow',
  'electricPower',
  'staticThrust',
] as const satisfies readonly Quantity[]

export type Basis = (typeof BASES)[number]

export interface PredictionQuestion {
  readonly setup: PredictedSetup
  readonly conditions: PredictionConditions
  readonly evidence: Readonly<Record<Basis, SetupEvidence>>
}

/**
 * Why a fit's estimate of a setup may not be used, if so.
 *
 * @param question setup and fits
 * @param basis which fit
 * @returns the refusal, or null
 * @source the rules of `refusalOfSetup`; an estimate needs a standard error
 */
export function refusalOfEvidence(
  { setup, evidence }: PredictionQuestion,
  basis: Basis,
): PredictionRefusal | null {
  const isElectric = setup.equipment.drive === 'electric'
  if (basis === 'fuelFlow' && isElectric) return notPredicted('electricDrive')
  if (basis === 'electricPower' && !isElectric) return notPredicted('combustionDrive')
  const { view } = evidence[basis]
  const refused = refusalOfSetup(view, setup.setupId)
  if (refused !== null) return refused
  const { standardError } = view.contrast([{ setup: setup.setupId, weight: 1 }])
  return Number.isFinite(standardError) ? null : notPredicted('notEstimable')
}
