import {
  answerForPair,
  answerForSetup,
  type Candidate,
  decibelsOf,
  type PairAnswer,
  percentOf,
  type Question,
  type SetupAnswer,
} from '../../core/comparison/compare.ts'
import type { EvidenceTier, ExplainedDifference } from '../../core/comparison/fit-view.ts'
import { METRIC_FACTS, type Metric } from '../../core/comparison/metric.ts'
import { pairEstimates } from '../../core/comparison/pair-spread.ts'
import type { RankedSetup } from '../../core/comparison/rank-setups.ts'
import { readMetric } from '../../core/comparison/reading.ts'
import type { SetupFacts } from '../../db/catalogue-facts.ts'
import type { ChosenFits } from '../../db/fit-choice.ts'
import { besideVerdict } from './beside.ts'
import { costOf } from './cost.ts'
import type { ComparedPair, ComparedSetup } from './schema.ts'
import { refusalSentence, sentenceFor } from './wording.ts'

/** A question together with the fit it is put to, and others of the same evidence. */
export interface AskedQuestion extends Question {
  readonly chosen: ChosenFits
  /** What a litre of fuel costs the caller. */
  readonly fuel?: { readonly pricePerL: number; readonly currency: string } | undefined
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
      interestedSessions: question.chosen.fit.interestedSessions.get(setupId) ?? 0,
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
      ...besideVerdict(question, { a, b, answer }, refusalSentence(a.name, b.name, reason)),
      reasonCode: code,
      reason,
    }
  }
  const difference = differenceIn(question, a, b, answer)
  const beside = besideVerdict(question, { a, b, answer }, difference.sentence)
  return {
    ...head,
    verdict: answer.verdict,
    ...difference,
    ...beside,
    degreesOfFreedom: answer.difference.degreesOfFreedom,
    probabilityABetter: answer.probabilityABetter,
    uncertainty: sharesOf(answer.difference),
    ...costOf(question, { a, b, verdict: answer.verdict, beside }),
  }
}

/** The difference on the scale of its metric: per cent with what they are confused with, or decibels. */
function differenceIn(
  question: AskedQuestion,
  a: SetupFacts,
  b: SetupFacts,
  { difference, verdict, tier }: Extract<PairAnswer, { refusal: null }>,
) {
  const { metric } = question
  const words = { metric, a: a.name, b: b.name, verdict }
  if (METRIC_FACTS[metric].scale === 'level') {
    const { decibels, interval95 } = decibelsOf(difference)
    return {
      sentence: sentenceFor({ ...words, difference: decibels, interval95 }),
      differenceDb: decibels,
      interval95Db: pairOf(interval95),
    }
  }
  const { percent, interval95 } = percentOf(difference)
  return {
    sentence: sentenceFor({ ...words, difference: percent, interval95 }),
    differencePercent: percent,
    interval95Percent: pairOf(interval95),
    ...equivalentsOf(question, a, b, { tier, percent }),
  }
}

function pairOf([low, high]: readonly [number, number]): [number, number] {
  return [low, high]
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
  { tier, percent }: { readonly tier: EvidenceTier; readonly percent: number },
): Pick<ComparedPair, 'equivalents'> {
  const endurancePercent = 100 * (1 / (1 + percent / 100) - 1)
  if (question.metric === 'fuelFlow') {
    return { equivalents: { fuelFlowPercent: percent, endurancePercent } }
  }
  if (question.metric === 'electricPower') {
    return { equivalents: { electricPowerPercent: percent, endurancePercent } }
  }
  if (question.metric === 'staticThrust') return {}
  const estimates = pairEstimates(question.fit, tier, { a: a.setupId, b: b.setupId })
  const [atA, atB] = estimates.map((estimate) => estimate!) as [number, number] // not refused, so both are known
  const { state } = question
  const read = (metric: Metric, { equipment }: SetupFacts, estimate: number) =>
    readMetric(metric, estimate, { equipment, state }).value
  const ratio = (metric: Metric) => read(metric, a, atA) / read(metric, b, atB)
  return {
    equivalents: {
      climbRatePercent: 100 * (ratio('climbRate') - 1),
      climbThrustPercent: 100 * (ratio('climbThrust') - 1),
      inducedPowerPercent: 100 * Math.expm1(atA - atB),
    },
  }
}

/** What the core needs to know of a setup. */
export function candidateOf({ setupId, equipment }: SetupFacts): Candidate {
  return { setupId, equipment }
}
