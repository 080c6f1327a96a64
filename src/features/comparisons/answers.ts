import {
  answerForPair,
  answerForSetup,
  type Candidate,
  percentOf,
  type Question,
  type SetupAnswer,
} from '../../core/comparison/compare.ts'
import type { ExplainedDifference } from '../../core/comparison/fit-view.ts'
import { METRIC_FACTS, type Metric } from '../../core/comparison/metric.ts'
import type { RankedSetup } from '../../core/comparison/rank-setups.ts'
import { readMetric } from '../../core/comparison/reading.ts'
import type { SetupFacts } from '../../db/catalogue-facts.ts'
import type { LoadedFit } from '../../db/fit-store.ts'
import type { ComparedPair, ComparedSetup } from './schema.ts'
import { refusalSentence, sentenceFor } from './wording.ts'

/** A question together with the fit it is put to. */
export interface AskedQuestion extends Question {
  readonly loaded: LoadedFit
}

/** One setup as it is shown: its figures, what they rest on, and its state of safety. */
export function showSetup(
  question: AskedQuestion,
  facts: SetupFacts,
  rank: RankedSetup | null,
): ComparedSetup {
  const answer = answerForSetup(question, candidateOf(facts))
  const { setupId, name, safety } = facts
  return {
    setupId,
    name,
    ...figuresOf(answer),
    rank:
      rank === null
        ? null
        : {
            median: rank.median,
            interval95: [...rank.interval95],
            probabilityBest: rank.probabilityBest,
            pScore: rank.pScore,
          },
    evidence: {
      ...question.fit.evidenceOf(setupId),
      interestedSessions: question.loaded.interestedSessions.get(setupId) ?? 0,
    },
    safety: { state: safety.state, advisories: [...safety.advisories] },
    ...(answer.refusal === null
      ? {}
      : { refused: { reasonCode: answer.refusal.code, reason: answer.refusal.reason } }),
  }
}

function figuresOf(
  answer: SetupAnswer,
): Pick<ComparedSetup, 'value' | 'standardUncertainty' | 'interval95' | 'degreesOfFreedom'> {
  if (answer.refusal !== null) {
    return { value: null, standardUncertainty: null, interval95: null, degreesOfFreedom: null }
  }
  const { value, standardUncertainty, interval95, degreesOfFreedom } = answer
  return { value, standardUncertainty, interval95: [...interval95], degreesOfFreedom }
}

/** A pair as it is shown: difference, interval, probability and verdict, or the refusal and why. */
export function showPair(question: AskedQuestion, a: SetupFacts, b: SetupFacts): ComparedPair {
  const answer = answerForPair(question, candidateOf(a), candidateOf(b))
  const head = { a: a.setupId, b: b.setupId, evidence: answer.tier }
  if (answer.refusal !== null) {
    const { code, reason } = answer.refusal
    return {
      ...head,
      verdict: 'refused',
      sentence: refusalSentence(a.name, b.name, reason),
      reasonCode: code,
      reason,
    }
  }
  const { percent, interval95 } = percentOf(answer.difference)
  const { metric } = question
  return {
    ...head,
    verdict: answer.verdict,
    sentence: sentenceFor({
      metric,
      a: a.name,
      b: b.name,
      verdict: answer.verdict,
      percent,
      interval95,
      marginPercent: METRIC_FACTS[metric].equivalenceMarginPercent,
    }),
    differencePercent: percent,
    interval95Percent: [...interval95],
    degreesOfFreedom: answer.difference.degreesOfFreedom,
    probabilityABetter: answer.probabilityABetter,
    uncertainty: sharesOf(answer.difference),
    equivalents: equivalentsOf(question, a, b, percent),
  }
}

/** What the variance of a difference is made of, largest first; parts below a thousandth are left out. */
function sharesOf({ parts, standardError }: ExplainedDifference): ComparedPair['uncertainty'] {
  return parts
    .map(({ cause, variance }) => ({ cause, share: variance / standardError ** 2 }))
    .filter(({ share }) => share >= 0.001)
    .sort((a, b) => b.share - a.share)
}

/**
 * The same difference in the quantities it is confused with. A faster climb in percent is not that
 * percent of thrust or power, and burning less is not that much longer in the air.
 */
function equivalentsOf(
  question: AskedQuestion,
  a: SetupFacts,
  b: SetupFacts,
  percent: number,
): ComparedPair['equivalents'] {
  if (question.metric === 'fuelFlow') {
    return { fuelFlowPercent: percent, endurancePercent: 100 * (1 / (1 + percent / 100) - 1) }
  }
  const ratio = (metric: Metric) => readAs(question, metric, a) / readAs(question, metric, b)
  const power = Math.exp(
    (question.fit.logQuantityOf(a.setupId) ?? Number.NaN) -
      (question.fit.logQuantityOf(b.setupId) ?? Number.NaN),
  )
  return {
    climbRatePercent: 100 * (ratio('climbRate') - 1),
    climbThrustPercent: 100 * (ratio('climbThrust') - 1),
    inducedPowerPercent: 100 * (power - 1),
  }
}

function readAs({ fit, state }: AskedQuestion, metric: Metric, facts: SetupFacts): number {
  const logQuantity = fit.logQuantityOf(facts.setupId) ?? Number.NaN
  return readMetric(metric, logQuantity, { equipment: facts.equipment, state }).value
}

/** What the core needs to know of a setup. */
export function candidateOf({ setupId, equipment }: SetupFacts): Candidate {
  return { setupId, equipment }
}
