import type { ComparedPair } from './schema.ts'

type AnyVerdict = ComparedPair['verdict']

const AS_TEXT: Readonly<Record<AnyVerdict, string>> = {
  aBetter: 'the first is the better one',
  bBetter: 'the second is the better one',
  practicallyEqual: 'the two are practically equal',
  notResolved: 'the two cannot be told apart',
  refused: 'there is too little to compare them at all',
}

/** Said where the verdict hangs on people who sell, make or were given what they tested. */
export function interestSentence(verdict: AnyVerdict): string {
  return `Without submissions by people with an interest, ${AS_TEXT[verdict]}.`
}

/** Said where a few results that do not fit the rest decide. */
export function robustSentence(verdict: AnyVerdict): string {
  return `A few results that do not fit the rest decide this: where they count less, ${AS_TEXT[verdict]}.`
}

/** Said where no flights link the two. */
export function partsSentence(): string {
  return 'No flights link the two; this follows from the parts they share with others.'
}

/** How many more sessions would settle it, or that none will. */
export function resolveSentence(sessions: number | null, runs: number): string {
  if (sessions === null) {
    return 'More flights of this kind alone would not settle it: errors that all flights share, or a difference right at the margin, stand in the way.'
  }
  const many = sessions === 1 ? 'one more session' : `about ${sessions} more sessions`
  return `If the difference stays what it is, ${many} with both flown, ${runs} runs of each, would settle it.`
}
