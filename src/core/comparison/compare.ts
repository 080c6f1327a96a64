import { studentTCdf, studentTQuantile } from '../distributions/student-t.ts'
import type { FlightState } from '../normalise/predict.ts'
import type { Equipment } from '../normalise/types.ts'
import type { EvidenceTier, ExplainedDifference, FitView } from './fit-view.ts'
import { DECIBELS_PER_NEPER, logMarginOf, METRIC_FACTS, type Metric } from './metric.ts'
import { pairEstimates, pairSpread } from './pair-spread.ts'
import { type Reading, readMetric } from './reading.ts'
import { type Refusal, refusal, refusalOfPair, refusalOfSetup } from './refusal.ts'
import { type LogDifference, type Verdict, verdictOn } from './verdict.ts'

/** A setup to be compared, with what its prediction needs of the catalogue. */
export interface Candidate {
  readonly setupId: string
  readonly equipment: Equipment
}

export interface Question {
  readonly metric: Metric
  readonly state: FlightState
  readonly fit: FitView
}

/** A setup at the caller's conditions. */
export type SetupAnswer =
  | {
      readonly setupId: string
      readonly refusal: null
      readonly value: number
      readonly standardUncertainty: number
      readonly interval95: readonly [number, number]
      readonly degreesOfFreedom: number
    }
  | { readonly setupId: string; readonly refusal: Refusal }

/** A difference between two setups at the caller's conditions, a against b. */
export type PairAnswer =
  | {
      readonly a: string
      readonly b: string
      readonly tier: EvidenceTier
      readonly refusal: null
      readonly verdict: Verdict
      readonly difference: ExplainedDifference
      readonly probabilityABetter: number
    }
  | {
      readonly a: string
      readonly b: string
      readonly tier: EvidenceTier
      readonly refusal: Refusal
    }

/**
 * One setup's value at the caller's conditions with its uncertainty.
 *
 *     value = f(exp(β)),   u(value) = |∂f/∂β| · se(β),   interval = f(exp(β ∓ t₀.₉₇₅,ν · se(β)))
 *
 * The ends of the interval are read through f itself (it is monotone), not through its slope.
 *
 * @param question metric, conditions and fit
 * @param candidate the setup
 * @returns value, standard uncertainty (k = 1) and 95 % interval in the unit of the metric, or a refusal
 * @source GUM (JCGM 100:2008) 5.1.2 for u; inference by t with Satterthwaite's degrees of freedom
 */
export function answerForSetup(question: Question, candidate: Candidate): SetupAnswer {
  const { metric, state, fit } = question
  const { setupId, equipment } = candidate
  const refused = refusalOfSetup(fit, setupId)
  if (refused !== null) return { setupId, refusal: refused }
  const logQuantity = fit.logQuantityOf(setupId)!
  const at = { equipment, state }
  const reading = usable(readMetric(metric, logQuantity, at))
  if ('refusal' in reading) return { setupId, refusal: reading.refusal }
  const { standardError, degreesOfFreedom } = fit.contrast([{ setup: setupId, weight: 1 }])
  if (!Number.isFinite(standardError)) return { setupId, refusal: refusal('notEstimable') }
  const reach = studentTQuantile(0.975, degreesOfFreedom) * standardError
  return {
    setupId,
    refusal: null,
    value: reading.value,
    standardUncertainty: reading.slope * standardError,
    interval95: [
      readMetric(metric, logQuantity - reach, at).value,
      readMetric(metric, logQuantity + reach, at).value,
    ],
    degreesOfFreedom,
  }
}

/**
 * The difference of two setups at the caller's conditions.
 *
 *     d = ln f_a − ln f_b,   u(d)² = var(e_a·β_a − e_b·β_b),   e = elasticity of the reading
 *
 * Errors that both share cancel as far as both readings answer to them alike.
 *
 * @param question metric, conditions and fit
 * @param a the setup that is judged
 * @param b the setup it is judged against
 * @returns d with standard error, degrees of freedom, P(a better) and verdict, or a refusal with its reason
 * @source GUM (JCGM 100:2008) 5.2.2 (correlated inputs); Satterthwaite's degrees of freedom from the fit
 */
export function answerForPair(question: Question, a: Candidate, b: Candidate): PairAnswer {
  const { metric, fit } = question
  const names = { a: a.setupId, b: b.setupId }
  const { tier, refusal: refused } = refusalOfPair(fit, a.setupId, b.setupId)
  if (refused !== null) return { ...names, tier, refusal: refused }
  const [estimateA, estimateB] = pairEstimates(fit, tier, names)
  const readingA = usableReading(question, a, estimateA)
  if ('refusal' in readingA) return { ...names, tier, refusal: readingA.refusal }
  const readingB = usableReading(question, b, estimateB)
  if ('refusal' in readingB) return { ...names, tier, refusal: readingB.refusal }
  const elasticities = { a: readingA.elasticity, b: readingB.elasticity }
  const spread = pairSpread(fit, tier, names, elasticities)
  if (!Number.isFinite(spread.standardError))
    return { ...names, tier, refusal: refusal('notEstimable') }
  const difference = { ...spread, estimate: readingA.logValue - readingB.logValue }
  const { better } = METRIC_FACTS[metric]
  return {
    ...names,
    tier,
    refusal: null,
    difference,
    probabilityABetter: probabilityAbove(difference, better === 'higher' ? 1 : -1),
    verdict: verdictOn(difference, {
      better,
      margin: logMarginOf(metric),
      tQuantile: studentTQuantile,
    }),
  }
}

/**
 * The percent that a difference of logarithms stands for, with its 95 % interval.
 *
 *     100 (exp(d) − 1),   100 (exp(d ∓ t₀.₉₇₅,ν · u(d)) − 1)
 *
 * @param difference ln(a/b) with standard error and degrees of freedom
 * @returns percent a against b, and its interval
 * @source derived: the logarithm is monotone, so the ends transform with it
 */
export function percentOf(difference: LogDifference): {
  readonly percent: number
  readonly interval95: readonly [number, number]
} {
  const { estimate, standardError, degreesOfFreedom } = difference
  const reach = studentTQuantile(0.975, degreesOfFreedom) * standardError
  const percent = (d: number) => 100 * Math.expm1(d)
  return {
    percent: percent(estimate),
    interval95: [percent(estimate - reach), percent(estimate + reach)],
  }
}

/**
 * The decibels that a difference of logarithms of sound pressure stands for, with its 95 % interval.
 *
 *     20/ln 10 · d,   20/ln 10 · (d ∓ t₀.₉₇₅,ν · u(d))
 *
 * @param difference ln(p_a/p_b) with standard error and degrees of freedom
 * @returns decibels a less b, and its interval
 * @source definition of the sound pressure level, ISO 80000-8 (from memory)
 */
export function decibelsOf(difference: LogDifference): {
  readonly decibels: number
  readonly interval95: readonly [number, number]
} {
  const { estimate, standardError, degreesOfFreedom } = difference
  const reach = studentTQuantile(0.975, degreesOfFreedom) * standardError
  return {
    decibels: DECIBELS_PER_NEPER * estimate,
    interval95: [DECIBELS_PER_NEPER * (estimate - reach), DECIBELS_PER_NEPER * (estimate + reach)],
  }
}

/** A reading that has a logarithm, or why there is none. */
export type UsableReading =
  | (Pick<Reading, 'value' | 'slope'> & { readonly logValue: number; readonly elasticity: number })
  | { readonly refusal: Refusal }

/**
 * A setup's estimate read at the question's conditions, or why it cannot be.
 *
 * @param question metric, conditions and fit
 * @param candidate the setup
 * @param logQuantity the estimate [1]; its own where none is given
 * @returns value [unit of the metric] and elasticity [1], or a refusal
 * @source derived: the reading is that of `readMetric`
 */
export function usableReading(
  { metric, state, fit }: Question,
  candidate: Candidate,
  logQuantity: number | null = fit.logQuantityOf(candidate.setupId),
): UsableReading {
  if (logQuantity === null) return { refusal: refusal('noEvidence') }
  return usable(readMetric(metric, logQuantity, { equipment: candidate.equipment, state }))
}

/** A reading whose logarithm exists and that the model stands for. */
function usable({ value, slope, logValue, elasticity, withinModel }: Reading): UsableReading {
  if (!withinModel) return { refusal: refusal('outsideModel') }
  if (logValue === null || elasticity === null) return { refusal: refusal('doesNotClimb') }
  return { value, slope, logValue, elasticity }
}

/** P(sign · d > 0) under the t distribution. */
function probabilityAbove(difference: LogDifference, sign: 1 | -1): number {
  const { estimate, standardError, degreesOfFreedom } = difference
  if (standardError === 0) return sign * estimate > 0 ? 1 : estimate === 0 ? 0.5 : 0
  return studentTCdf((sign * estimate) / standardError, degreesOfFreedom)
}
