import { doNotFly } from '../../contract/cautions.ts'
import {
  answerForPair,
  decibelsOf,
  type PairAnswer,
  percentOf,
  usableReading,
} from '../../core/comparison/compare.ts'
import { SCATTER } from '../../core/comparison/fit-view.ts'
import { logMarginOf, METRIC_FACTS } from '../../core/comparison/metric.ts'
import { pairEstimates } from '../../core/comparison/pair-spread.ts'
import { sessionsToResolve } from '../../core/comparison/resolve.ts'
import type { SetupFacts } from '../../db/catalogue-facts.ts'
import type { LoadedFit } from '../../db/fit-store.ts'
import type { AskedQuestion } from './answers.ts'
import type { ComparedPair } from './schema.ts'
import {
  interestSentence,
  partsSentence,
  resolveSentence,
  robustSentence,
} from './wording-beside.ts'

/** A pair with what was found on it. */
export interface PairBeside {
  readonly a: SetupFacts
  readonly b: SetupFacts
  readonly answer: PairAnswer
}

/** Runs of each setup in a further session, as pilots fly them. */
const RUNS_PER_SESSION = 3

type Beside = Pick<
  ComparedPair,
  | 'flightsToResolve'
  | 'nextSession95Percent'
  | 'nextSession95Db'
  | 'withoutInterested'
  | 'robust'
  | 'sentence'
>

/**
 * What is said beside a verdict: whether it stands without people with an interest and with outliers
 * counting less, what a further session will show, and how many would settle it.
 */
export function besideVerdict(question: AskedQuestion, pair: PairBeside, sentence: string): Beside {
  const others = {
    ...otherVerdict(question, pair, 'withoutInterested'),
    ...otherVerdict(question, pair, 'robust'),
  }
  const grounded = [pair.a, pair.b].filter(({ safety }) => safety.state === 'doNotFly')
  const sentences = [...grounded.map(({ name }) => doNotFly(name)), sentence]
  if (others.withoutInterested?.changes) {
    sentences.push(interestSentence(others.withoutInterested.verdict))
  }
  if (others.robust?.agrees === false) sentences.push(robustSentence(others.robust.verdict))
  const { answer } = pair
  if (answer.refusal !== null) return { ...others, sentence: sentences.join(' ') }
  if (answer.tier === 'additive') sentences.push(partsSentence())
  const flightsToResolve = toResolve(question, pair, answer)
  if (flightsToResolve !== undefined) {
    sentences.push(resolveSentence(flightsToResolve, RUNS_PER_SESSION))
  }
  return {
    ...others,
    ...nextSession(question, pair, answer),
    ...(flightsToResolve === undefined ? {} : { flightsToResolve }),
    sentence: sentences.join(' '),
  }
}

/** The same pair by another fit of the same evidence; null before it is made, nothing where there is none. */
function otherVerdict(
  question: AskedQuestion,
  { a, b, answer }: PairBeside,
  which: 'withoutInterested' | 'robust',
): Pick<Beside, 'withoutInterested' | 'robust'> {
  if (question.otherFits === 'pending') return { [which]: null }
  const other = question[which]
  if (other === null) return {}
  const own = answer.refusal === null ? answer.verdict : 'refused'
  const verdict = other.id === question.loaded.id ? own : verdictBy(question, other, [a, b])
  if (which === 'withoutInterested') {
    return { withoutInterested: { verdict, changes: verdict !== own } }
  }
  return { robust: { verdict, agrees: verdict === own } }
}

function verdictBy(
  { metric, state }: AskedQuestion,
  other: LoadedFit,
  [a, b]: readonly [SetupFacts, SetupFacts],
): ComparedPair['verdict'] {
  const found = answerForPair({ metric, state, fit: other.view }, a, b)
  return found.refusal === null ? found.verdict : 'refused'
}

/** Undefined where the verdict is settled; null where flights alone will not settle it. */
function toResolve(
  question: AskedQuestion,
  { a, b }: PairBeside,
  answer: Extract<PairAnswer, { refusal: null }>,
): number | null | undefined {
  if (answer.verdict !== 'notResolved') return undefined
  const weights = weightsOf(question, { a, b, answer })
  if (weights === null) return undefined
  const { difference } = answer
  const scatter = difference.parts.find(({ cause }) => cause === SCATTER)?.variance ?? 0
  return sessionsToResolve({
    difference,
    // Through parts only: a session with both says more than all parts did, whatever they left open.
    flightsVariance: answer.tier === 'additive' ? difference.standardError ** 2 : scatter,
    sessionVariance: question.loaded.sessionVariance(weights, RUNS_PER_SESSION),
    margin: logMarginOf(question.metric),
  })
}

function nextSession(
  question: AskedQuestion,
  pair: PairBeside,
  answer: Extract<PairAnswer, { refusal: null }>,
): Pick<Beside, 'nextSession95Percent' | 'nextSession95Db'> {
  if (answer.tier === 'additive') return {}
  const weights = weightsOf(question, { ...pair, answer })
  if (weights === null) return {}
  const spread = question.loaded.nextDifference(weights)
  const next = { estimate: answer.difference.estimate, ...spread }
  if (!Number.isFinite(next.standardError)) return {}
  if (METRIC_FACTS[question.metric].scale === 'level') {
    const [low, high] = decibelsOf(next).interval95
    return { nextSession95Db: [low, high] }
  }
  const [low, high] = percentOf(next).interval95
  return { nextSession95Percent: [low, high] }
}

/** The difference as weights of the two setups, by how their readings follow the estimates. */
function weightsOf(
  question: AskedQuestion,
  { a, b, answer }: { a: SetupFacts; b: SetupFacts; answer: PairAnswer },
) {
  const names = { a: a.setupId, b: b.setupId }
  const [atA, atB] = pairEstimates(question.fit, answer.tier, names)
  const [ofA, ofB] = [usableReading(question, a, atA), usableReading(question, b, atB)]
  if ('refusal' in ofA || 'refusal' in ofB) return null
  return [
    { setup: a.setupId, weight: ofA.elasticity },
    { setup: b.setupId, weight: -ofB.elasticity },
  ]
}
