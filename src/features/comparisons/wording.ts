import type { Metric } from '../../core/comparison/metric.ts'
import type { Verdict } from '../../core/comparison/verdict.ts'

/** What a pair says, for one sentence. */
export interface PairInWords {
  readonly metric: Metric
  readonly a: string
  readonly b: string
  readonly verdict: Verdict
  readonly percent: number
  readonly interval95: readonly [number, number]
  readonly marginPercent: number
}

const MORE_AND_LESS: Readonly<Record<Metric, readonly [string, string]>> = {
  climbRate: ['climbs faster than', 'climbs slower than'],
  climbThrust: ['pulls harder in the climb than', 'pulls less in the climb than'],
  fuelFlow: ['burns more in level flight than', 'burns less in level flight than'],
}

const NOUN: Readonly<Record<Metric, string>> = {
  climbRate: 'climb rate',
  climbThrust: 'thrust in the climb',
  fuelFlow: 'fuel flow in level flight',
}

/** The verdict on a pair in plain words, so that page, script and report say the same. */
export function sentenceFor(pair: PairInWords): string {
  const { metric, a, b, percent, interval95, marginPercent } = pair
  const [low, high] = interval95
  const range = `95 % interval ${signed(low)} to ${signed(high)} %`
  if (pair.verdict === 'practicallyEqual') {
    return `${a} and ${b} are practically equal in ${NOUN[metric]}: ${signed(percent)} % (${range}), inside the margin of ±${marginPercent} %.`
  }
  if (pair.verdict === 'notResolved') {
    return `The flights so far do not tell ${a} from ${b} in ${NOUN[metric]}: ${signed(percent)} % (${range}).`
  }
  const [more, less] = MORE_AND_LESS[metric]
  return `${a} ${percent > 0 ? more : less} ${b}: ${signed(percent)} % (${range}).`
}

/** Why a pair has no number, in plain words. */
export function refusalSentence(a: string, b: string, reason: string): string {
  return `No comparison of ${a} with ${b}: ${reason}`
}

function signed(percent: number): string {
  const digits = Math.abs(percent) < 10 ? 1 : 0
  return `${percent < 0 ? '−' : '+'}${Math.abs(percent).toFixed(digits)}`
}

const GENERAL = [
  'These figures compare; they do not clear anything to fly. Local rules, the makers’ instructions and a licensed instructor come first.',
  'Check propeller clearance under load, not at rest: under thrust the propeller moves towards its cage.',
]

const OF_METRIC: Readonly<Record<Metric, readonly string[]>> = {
  climbRate: [
    'A full-throttle climb is flown into wind, clear of people and obstacles, with height to turn back in.',
  ],
  climbThrust: [
    'A full-throttle climb is flown into wind, clear of people and obstacles, with height to turn back in.',
  ],
  fuelFlow: [
    'A burn to empty ends with the engine out: only where a landing without power is always in reach.',
  ],
}

/** The cautions that go with an answer. */
export function cautionsFor(
  metric: Metric,
  about: { readonly doNotFly: readonly string[]; readonly interested: readonly string[] },
): string[] {
  return [
    ...about.doNotFly.map((name) => `Do not fly ${name}: it was reported unsafe; see its reports.`),
    ...about.interested.map(
      (name) =>
        `Part of what is known of ${name} comes from people with an interest in selling it.`,
    ),
    ...OF_METRIC[metric],
    ...GENERAL,
  ]
}
