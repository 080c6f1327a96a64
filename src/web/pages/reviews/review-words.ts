import type { Schemas } from '../../api/client.ts'

type Review = Schemas['Review']
export type Decision = Schemas['NewDecision']['decision']

/** What a review is about, as its heading. */
export function titleOf({ kind, origin }: Pick<Review, 'kind' | 'origin'>): string {
  if (kind === 'outlier') return 'A session that does not fit the rest'
  if (kind === 'wrong') return 'Said to be wrong'
  return origin === 'measurement' ? 'A measurement speaks against flying' : 'Reported as unsafe'
}

/** Who brought it up. */
export const ORIGIN_WORDS: Readonly<Record<Review['origin'], string>> = {
  person: 'by somebody with an account',
  measurement: 'by a measurement that was submitted',
  fit: 'by the comparison of all sessions',
}

export interface DecisionChoice {
  readonly decision: Decision
  readonly label: string
  /** What it does, before it is done. */
  readonly effect: string
}

const KEEP: DecisionChoice = {
  decision: 'keep',
  label: 'Keep it',
  effect: 'A true surprise: it counts, as every other session.',
}
const SET_ASIDE: DecisionChoice = {
  decision: 'setAside',
  label: 'Set it aside',
  effect:
    'A slip of the watch, a wrong setup or mass: this revision no longer counts. A corrected one counts again.',
}
const DO_NOT_FLY: DecisionChoice = {
  decision: 'doNotFly',
  label: 'Do not fly',
  effect: 'Everybody sees it before any figure, with your reason. The setup is not recommended.',
}
const ADVISORY: DecisionChoice = {
  decision: 'advisory',
  label: 'Safety advisory',
  effect: 'Everybody sees it before any figure, with your reason.',
}
const LIFT: DecisionChoice = {
  decision: 'lift',
  label: 'Lift it',
  effect:
    'What came of this report no longer holds, and your reason stays beside it for everybody. It clears nothing to fly.',
}
const DISMISS: DecisionChoice = {
  decision: 'dismiss',
  label: 'Nothing in it',
  effect: 'The report is closed; what it put in force is lifted.',
}

/** What can be decided on a review as it stands. */
export function choicesFor(
  review: Pick<Review, 'kind' | 'setAside' | 'findings'>,
): DecisionChoice[] {
  if (review.kind === 'outlier') return [KEEP, SET_ASIDE]
  const isInForce = review.findings.some(({ liftedAt }) => liftedAt === null)
  return [DO_NOT_FLY, ADVISORY, ...(isInForce ? [LIFT] : []), DISMISS]
}

const DECISION_WORDS: Readonly<Record<Decision, string>> = {
  doNotFly: 'Do not fly',
  advisory: 'Safety advisory',
  lift: 'Lifted',
  dismiss: 'Nothing in it',
  keep: 'Kept',
  setAside: 'Set aside',
}

export function decisionWords(decision: Decision): string {
  return DECISION_WORDS[decision]
}

const ACTION_WORDS: Readonly<Record<string, string>> = {
  'report.filed': 'Brought up',
  'report.decided': 'Decided',
  'safety.raised': 'Safety state put in force',
  'safety.lifted': 'Safety state lifted',
  'evidence.setAside': 'Session set aside',
  'evidence.kept': 'Session counts again',
  'catalogue.merged': 'Duplicate merged',
}

/** An action of the audit trail; one that is not known here by its own name. */
export function actionWords(action: string): string {
  return ACTION_WORDS[action] ?? action
}

const POINTER = /\/entries\/(\d+)\/runs\/(\d+)/g

/** A place in a submission. */
export interface RunPlace {
  readonly entry: number
  readonly run: number
}

/** The runs a text points at. */
export function placesIn(text: string): RunPlace[] {
  return [...text.matchAll(POINTER)].map(([, entry, run]) => ({
    entry: Number(entry),
    run: Number(run),
  }))
}

/** The text with places said in words. */
export function inWords(text: string, nameOfEntry: (entry: number) => string): string {
  return text.replace(
    new RegExp(`The run at ${POINTER.source}`, 'g'),
    (_match, entry: string, run: string) =>
      `Run ${Number(run) + 1} with ${nameOfEntry(Number(entry))}`,
  )
}
