import type { AnyVerdict } from '../../contract/beside.ts'
import { METRIC_FACTS, type Metric } from '../../core/comparison/metric.ts'
import { NOUN } from './wording.ts'

/**
 * Who leads a list and how many of the others are shown to be worse, in one sentence.
 *
 * @param metric what the list is ranked by
 * @param first name of the setup that leads; null where nothing is ranked
 * @param verdicts on each other setup, as a, against the first, as b
 */
export function leadSentence(
  metric: Metric,
  first: string | null,
  verdicts: readonly AnyVerdict[],
): string {
  if (first === null) return 'No two setups can be compared so far, so there is no order.'
  const count = (verdict: AnyVerdict) => verdicts.filter((one) => one === verdict).length
  const way = METRIC_FACTS[metric].better === 'higher' ? 'highest' : 'lowest'
  const parts = [
    [count('bBetter'), 'shown to be worse'],
    [count('practicallyEqual'), 'practically equal to it'],
    [count('notResolved'), 'not told apart from it'],
    [count('aBetter') + count('refused'), 'not comparable with it directly'],
  ] as const
  const shares = parts.filter(([many]) => many > 0).map(([many, what]) => `${many} ${what}`)
  return `${first} has the ${way} ${NOUN[metric]}; of the other ${verdicts.length}, ${shares.join(', ')}.`
}

/** Names said at most; the rest are counted. */
const MOST_NAMED = 3

/** Which setups stand otherwise to the first, as part of a sentence. */
export function otherwiseInWords(names: readonly string[]): string {
  const more = names.length - MOST_NAMED
  const named = names.slice(0, MOST_NAMED).join(', ')
  const who = more > 0 ? `${named} and ${more} more` : named
  return `the verdict against the first is another for ${who}`
}
