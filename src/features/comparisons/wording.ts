import { CAUTIONS, doNotFly, interestBehind } from '../../contract/cautions.ts'
import { METRIC_FACTS, type Metric } from '../../core/comparison/metric.ts'
import type { Verdict } from '../../core/comparison/verdict.ts'

/** What a pair says, for one sentence. */
export interface PairInWords {
  readonly metric: Metric
  readonly a: string
  readonly b: string
  readonly verdict: Verdict
  /** In per cent, or in decibels for a level. */
  readonly difference: number
  readonly interval95: readonly [number, number]
}

const MORE_AND_LESS: Readonly<Record<Metric, readonly [string, string]>> = {
  climbRate: ['climbs faster than', 'climbs slower than'],
  climbThrust: ['pulls harder in the climb than', 'pulls less in the climb than'],
  fuelFlow: ['burns more in level flight than', 'burns less in level flight than'],
  electricPower: [
    'draws more from its battery in level flight than',
    'draws less from its battery in level flight than',
  ],
  staticThrust: ['pulls harder standing still than', 'pulls less standing still than'],
  soundLevel: ['is louder at full power than', 'is quieter at full power than'],
}

/** A metric within a sentence. */
export const NOUN: Readonly<Record<Metric, string>> = {
  climbRate: 'climb rate',
  climbThrust: 'thrust in the climb',
  fuelFlow: 'fuel flow in level flight',
  electricPower: 'electric power in level flight',
  staticThrust: 'static thrust',
  soundLevel: 'sound level at full power',
}

/** The verdict on a pair in plain words, so that page, script and report say the same. */
export function sentenceFor(pair: PairInWords): string {
  const { metric, a, b, difference, interval95 } = pair
  const { scale, equivalenceMargin } = METRIC_FACTS[metric]
  const unit = scale === 'level' ? 'dB' : '%'
  const [low, high] = interval95
  const figures = `${signed(difference)} ${unit} (95 % interval ${signed(low)} to ${signed(high)} ${unit})`
  if (pair.verdict === 'practicallyEqual') {
    return `${a} and ${b} are practically equal in ${NOUN[metric]}: ${figures}, inside the margin of ±${equivalenceMargin} ${unit}.`
  }
  if (pair.verdict === 'notResolved') {
    return `The flights so far do not tell ${a} from ${b} in ${NOUN[metric]}: ${figures}.`
  }
  const [more, less] = MORE_AND_LESS[metric]
  return `${a} ${difference > 0 ? more : less} ${b}: ${figures}.`
}

/** Why a pair has no number, in plain words. */
export function refusalSentence(a: string, b: string, reason: string): string {
  return `No comparison of ${a} with ${b}: ${reason}`
}

function signed(value: number): string {
  const digits = Math.abs(value) < 10 ? 1 : 0
  return `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(digits)}`
}

const GENERAL = [CAUTIONS.deference, CAUTIONS.underLoad]

const OF_METRIC: Readonly<Record<Metric, readonly string[]>> = {
  climbRate: [CAUTIONS.fullThrottleClimb],
  climbThrust: [CAUTIONS.fullThrottleClimb],
  fuelFlow: [CAUTIONS.burnToEmpty],
  electricPower: [CAUTIONS.batteryToEmpty],
  staticThrust: [CAUTIONS.staticPull],
  soundLevel: [CAUTIONS.noise],
}

/** The cautions that go with an answer. */
export function cautionsFor(
  metric: Metric,
  about: { readonly doNotFly: readonly string[]; readonly interested: readonly string[] },
): string[] {
  return [
    ...about.doNotFly.map(doNotFly),
    ...about.interested.map(interestBehind),
    ...OF_METRIC[metric],
    ...GENERAL,
  ]
}
