import type { EvidenceTier, FitView } from './fit-view.ts'

/** Why no number is given. */
export type RefusalCode =
  | 'noEvidence'
  | 'oneSession'
  | 'notConnected'
  | 'doesNotClimb'
  | 'outsideModel'
  | 'notEstimable'

export interface Refusal {
  readonly code: RefusalCode
  /** Plain words for people. */
  readonly reason: string
}

const REASONS: Readonly<Record<RefusalCode, string>> = {
  noEvidence: 'No accepted run of this kind has been flown with it.',
  oneSession:
    'All it rests on is a single session: one flight more or one day worse could turn it round.',
  notConnected: 'Never flown in one session, nor linked through setups flown with both.',
  doesNotClimb:
    'At these conditions the estimate gives no climb at all, so a ratio has no meaning.',
  outsideModel:
    'At these conditions the estimate climbs more steeply than 45°, where the model does not hold.',
  notEstimable:
    'The runs so far do not show how much results scatter, so no uncertainty can be given.',
}

/**
 * The refusal of that code, with its reason in plain words.
 *
 * @param code why no number is given
 * @returns code and sentence
 * @source derived: the rules are those of `refusalOfPair` and `refusalOfSetup`
 */
export function refusal(code: RefusalCode): Refusal {
  return { code, reason: REASONS[code] }
}

/**
 * Whether one setup's own value has to be refused: it was never measured, or in one session only.
 *
 * @param fit the fitted evidence
 * @param setupId the setup
 * @returns the refusal, or null where a value may be given
 * @source common practice: one session can't tell a setup from its day
 */
export function refusalOfSetup(fit: FitView, setupId: string): Refusal | null {
  const { sessions } = fit.evidenceOf(setupId)
  if (sessions === 0) return refusal('noEvidence')
  return sessions === 1 ? refusal('oneSession') : null
}

/**
 * Whether a difference has to be refused. It needs setups that were flown, linked within sessions
 * (the mixed model would give a number for any pair by comparing pilots and days), and linked in
 * such a way that no single session carries the whole link.
 *
 * @param fit the fitted evidence
 * @param a one setup
 * @param b the other
 * @returns the tier of evidence and the refusal, null where a difference may be given
 * @source derived: connectedness of the within-session design, by union-find and cut vertices
 */
export function refusalOfPair(
  fit: FitView,
  a: string,
  b: string,
): { readonly tier: EvidenceTier; readonly refusal: Refusal | null } {
  const tier = fit.tierOf(a, b)
  if (tier === 'none') return { tier, refusal: refusal('noEvidence') }
  if (tier === 'betweenSessions') return { tier, refusal: refusal('notConnected') }
  return { tier, refusal: fit.restsOnOneSession(a, b) ? refusal('oneSession') : null }
}
