import { Pcg32 } from '../random/pcg32.ts'
import { pScores } from '../ranking/p-score.ts'
import { drawRanks } from '../ranking/rank-draws.ts'
import { rankIntervals } from '../ranking/rank-interval.ts'
import type { Better } from '../ranking/ranked-quantity.ts'
import { type Candidate, type Question, usableReading } from './compare.ts'
import { type JointSpread, type Readings, spreadOfReadings } from './joint-spread.ts'
import { METRIC_FACTS } from './metric.ts'
import { refusalOfSetup } from './refusal.ts'

/** A setup's place among those it can be compared with. */
export interface RankedSetup {
  readonly setupId: string
  /** Place by estimate, 1 is best. */
  readonly position: number
  /** Median rank over the draws. */
  readonly median: number
  /** Ranks that the evidence does not rule out. */
  readonly interval95: readonly [number, number]
  readonly probabilityBest: number
  readonly pScore: number
}

/** Draws of the ranks: a probability is good to ½/√DRAWS, about 0.8 %. */
const DRAWS = 4000
/** The draws are part of the answer, so the same question has the same answer. */
const SEED = 20_260_517

interface Item {
  readonly setupId: string
  readonly logValue: number
  readonly elasticity: number
}

/** The group that is ranked, with all that its ranks follow from. Plain data, so that a thread can take it. */
export interface RankingTask {
  /** Best first, by estimate. */
  readonly setupIds: readonly string[]
  /** ln of the readings [1]. */
  readonly logValues: Float64Array
  readonly readings: Readings
  readonly spread: JointSpread
  readonly better: Better
}

/**
 * Ranks the largest group of setups that can be compared with one another.
 *
 * A group stays linked whichever single session is taken away. Setups that have no value at these
 * conditions do not take part. Of groups of the same size the one with more runs is taken.
 *
 * @param question metric, conditions and fit
 * @param candidates the setups to rank, each once
 * @returns the ranked ones by id, best first, whatever the order of the candidates; empty where fewer
 *   than two can be compared
 * @source P-scores, draws and intervals: see `core/ranking`
 */
export function rankSetups(
  question: Question,
  candidates: readonly Candidate[],
): ReadonlyMap<string, RankedSetup> {
  const task = rankingTask(question, candidates)
  return bySetup(task === null ? [] : rankItems(task))
}

/**
 * Ranked setups by id.
 *
 * @param ranked best first
 * @returns the same in the same order
 * @source common practice
 */
export function bySetup(ranked: readonly RankedSetup[]): ReadonlyMap<string, RankedSetup> {
  return new Map(ranked.map((setup) => [setup.setupId, setup]))
}

/**
 * What {@link rankSetups} ranks: quick to say, the ranks themselves are work.
 *
 * @param question metric, conditions and fit
 * @param candidates the setups to rank, each once
 * @returns the group; null where fewer than two can be compared or no spread is known
 * @source derived
 */
export function rankingTask(
  question: Question,
  candidates: readonly Candidate[],
): RankingTask | null {
  const items = bestFirst(question, largestGroup(question, candidates))
  const spread = question.fit.jointSpread()
  if (items.length < 2 || spread === null) return null
  return {
    setupIds: items.map(({ setupId }) => setupId),
    logValues: Float64Array.from(items, ({ logValue }) => logValue),
    readings: {
      places: Int32Array.from(items, ({ setupId }) => question.fit.placeOf(setupId)!),
      elasticities: Float64Array.from(items, ({ elasticity }) => elasticity),
    },
    spread,
    better: METRIC_FACTS[question.metric].better,
  }
}

/**
 * The ranks of a group: of m setups about m² distribution functions and {@link DRAWS} · m²/2 products.
 *
 * @param task of {@link rankingTask}
 * @returns ranked setups, best first
 * @source P-scores, draws and intervals: see `core/ranking`
 */
export function rankItems({
  setupIds,
  logValues: estimates,
  readings,
  spread,
  better,
}: RankingTask): RankedSetup[] {
  const { covariance, ...errors } = spreadOfReadings(spread, readings)
  if (!errors.standardErrors.every(Number.isFinite)) return []
  const scores = pScores({ estimates, ...errors, better })
  const intervals = rankIntervals({ estimates, ...errors, better })
  const drawn = drawRanks({ estimates, covariance, better }, new Pcg32(SEED), DRAWS)
  return setupIds.map((setupId, k) => ({
    setupId,
    position: k + 1,
    median: drawn.medianRank[k]!,
    interval95: [intervals[k]!.lowest, intervals[k]!.highest] as const,
    probabilityBest: drawn.probabilityBest[k]!,
    pScore: scores[k]!,
  }))
}

/**
 * Places by estimate within the largest group of setups that can be compared with one another.
 *
 * @param question metric, conditions and fit
 * @param candidates the setups, each once
 * @returns places by id, 1 is best; those of {@link rankSetups}, also where that knows no spread
 * @source derived
 */
export function placesOf(
  question: Question,
  candidates: readonly Candidate[],
): ReadonlyMap<string, number> {
  const items = largestGroup(question, candidates)
  if (items.length < 2) return new Map()
  return new Map(bestFirst(question, items).map(({ setupId }, place) => [setupId, place + 1]))
}

function bestFirst({ metric }: Question, items: readonly Item[]): Item[] {
  const sign = METRIC_FACTS[metric].better === 'higher' ? -1 : 1
  return [...items].sort((a, b) => sign * (a.logValue - b.logValue))
}

/** The setups of the largest linked group, with their readings, in the order of the candidates. */
function largestGroup(question: Question, candidates: readonly Candidate[]): Item[] {
  const groups = new Map<number, { items: Item[]; runs: number }>()
  for (const candidate of candidates) {
    const { setupId } = candidate
    if (refusalOfSetup(question.fit, setupId) !== null) continue
    const reading = usableReading(question, candidate)
    if ('refusal' in reading) continue
    const number = question.fit.groupOf(setupId)!
    const group = groups.get(number) ?? { items: [], runs: 0 }
    group.items.push({ setupId, logValue: reading.logValue, elasticity: reading.elasticity })
    group.runs += question.fit.evidenceOf(setupId).runs
    groups.set(number, group)
  }
  const [largest] = [...groups.values()].sort(
    (a, b) => b.items.length - a.items.length || b.runs - a.runs,
  )
  return largest?.items ?? []
}
