import type { AnyVerdict } from '../../contract/beside.ts'
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
import { askOthers, besideFields, besideSentences } from '../../db/other-fits.ts'
import type { AskedQuestion } from './answers.ts'
import type { ComparedPair } from './schema.ts'
import { IN_WORDS, partsSentence, resolveSentence } from './wording-beside.ts'

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
  const others = otherVerdicts(question, pair)
  const grounded = [pair.a, pair.b].filter(({ safety }) => safety.state === 'doNotFly')
  const sentences = [...grounded.map(({ name }) => doNotFly(name)), sentence]
  sentences.push(...others.sentences)
  const { answer } = pair
  if (answer.refusal !== null) return { ...others.fields, sentence: sentences.join(' ') }
  if (answer.tier === 'additive') sentences.push(partsSentence())
  const flightsToResolve = toResolve(question, pair, answer)
  if (flightsToResolve !== undefined) {
    sentences.push(resolveSentence(flightsToResolve, RUNS_PER_SESSION))
  }
  return {
    ...others.fields,
    ...nextSession(question, pair, answer),
    ...(flightsToResolve === undefined ? {} : { flightsToResolve }),
    sentence: sentences.join(' '),
  }
}

/** The same pair by the other fits of the evidence. */
function otherVerdicts({ metric, state, chosen }: AskedQuestion, { a, b, answer }: PairBeside) {
  const own = verdictOf(answer)
  const found = askOthers([chosen], own, ([other]) =>
    verdictOf(answerForPair({ metric, state, fit: other!.view }, a, b)),
  )
  const differs = ({ verdict }: { verdict: AnyVerdict }) => verdict !== own.verdict
  return {
    fields: besideFields(found, differs),
    sentences: besideSentences(found, differs, ({ verdict }) => IN_WORDS[verdict]),
  }
}

function verdictOf(answer: PairAnswer): { readonly verdict: AnyVerdict } {
  return { verdict: answer.refusal === null ? answer.verdict : 'refused' }
}

/** Undefined where the verdict is settled or nothing can be promised; null where flights alone will not settle it. */
function toResolve(
  question: AskedQuestion,
  { a, b }: PairBeside,
  answer: Extract<PairAnswer, { refusal: null }>,
): number | null | undefined {
  if (answer.verdict !== 'notResolved') return undefined
  const weights = weightsOf(question, { a, b, answer })
  if (weights === null) return undefined
  const sessionVariance = question.chosen.fit.sessionVariance(weights, RUNS_PER_SESSION)
  if (sessionVariance === null) return undefined
  const { difference } = answer
  const scatter = difference.parts.find(({ cause }) => cause === SCATTER)?.variance ?? 0
  return sessionsToResolve({
    difference,
    // Through parts only: a session with both says more than all parts did, whatever they left open.
    flightsVariance: answer.tier === 'additive' ? difference.standardError ** 2 : scatter,
    sessionVariance,
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
  const spread = question.chosen.fit.nextDifference(weights)
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
