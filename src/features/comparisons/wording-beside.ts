import type { AnyVerdict } from '../../contract/beside.ts'
import { MOST_FLOWN_SESSIONS } from '../../core/comparison/resolve.ts'

/** A verdict on a pair as part of a sentence. */
export const IN_WORDS: Readonly<Record<AnyVerdict, string>> = {
  aBetter: 'the first is the better one',
  bBetter: 'the second is the better one',
  practicallyEqual: 'the two are practically equal',
  notResolved: 'the two cannot be told apart',
  refused: 'there is too little to compare them at all',
}

/** Said where no flights link the two. */
export function partsSentence(): string {
  return 'No flights link the two; this follows from the parts they share with others.'
}

/** How many more sessions would settle it, or that none will; more than people fly is no advice. */
export function resolveSentence(sessions: number | null, runs: number): string {
  if (sessions === null) {
    return 'More flights of this kind alone would not settle it: errors that all flights share, or a difference right at the margin, stand in the way.'
  }
  if (sessions > MOST_FLOWN_SESSIONS) {
    return `If the difference stays what it is, it would take about ${sessions} more sessions with both flown, ${runs} runs of each, to settle it: more than anyone will fly.`
  }
  const many = sessions === 1 ? 'one more session' : `about ${sessions} more sessions`
  return `If the difference stays what it is, ${many} with both flown, ${runs} runs of each, would settle it.`
}
