import { type RefusalCode, refusal } from '../comparison/refusal.ts'

/** Why a quantity is not predicted, beside the reasons a comparison may have. */
const REASONS = {
  electricDrive: 'An electric drive burns no fuel.',
  combustionDrive: 'An engine that burns fuel does not fly on a battery.',
  tankNotGiven: 'The question names no tank: give tankL.',
  reserveExceedsTank: 'The reserve takes all the tank holds.',
  ratedRpmUnknown: 'The catalogue has no rated engine speed of this powerplant.',
  reductionUnknown: 'The catalogue has no reduction ratio of this powerplant.',
} as const

type OwnCode = keyof typeof REASONS

/** Codes of {@link PredictionRefusal} that are not those of a comparison. */
export const PREDICTION_REFUSALS = Object.keys(REASONS) as [OwnCode, ...OwnCode[]]

export interface PredictionRefusal {
  readonly code: RefusalCode | OwnCode
  /** Plain words for people. */
  readonly reason: string
}

/**
 * The refusal of that code, with its reason in plain words.
 *
 * @param code why a quantity is not predicted
 * @returns code and sentence
 * @source derived: the rules are those of `predictSetup`
 */
export function notPredicted(code: RefusalCode | OwnCode): PredictionRefusal {
  return code in REASONS ? { code, reason: REASONS[code as OwnCode] } : refusal(code as RefusalCode)
}
