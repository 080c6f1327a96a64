import { Pcg32 } from '../random/pcg32.ts'
import { pScores } from '../ranking/p-score.ts'
import { drawRanks } from '../ranking/rank-draws.ts'
import { rankIntervals } from '../ranking/rank-interval.ts'
import { type Candidate, type Question, usableReading } from './compare.ts'
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
  const items = bestFirst(question, largestGroup(question, candidates))
  if (items.length < 2) return new Map()
  const { better } = METRIC_FACTS[question.metric]
  const spread = spreadOf(question, items)
  if (!spread.standardErrors.every(Number.isFinite)) return new Map()
  const estimates = items.map(({ logValue }) => logValue)
  const scores = pScores({ estimates, ...spread, better })
  const intervals = rankIntervals({ estimates, ...spread, better })
  const drawn = drawRanks(
    { estimates, covariance: spread.covariance, better },
    new Pcg32(SEED),
    DRAWS,
  )
  return new Map(
    items.map(({ setupId }, k) => [
      setupId,
      {
        setupId,
        position: k + 1,
        median: drawn.medianRank[k]!,
        interval95: [intervals[k]!.lowest, intervals[k]!.highest] as const,
        probabilityBest: drawn.probabilityBest[k]!,
        pScore: scores[k]!,
      },
    ]),
  )
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

/** Covariance of the readings, and standard error and degrees of freedom of every difference. */
function spreadOf({ fit }: Question, items: readonly Item[]) {
  const m = items.length
  const covariance = new Float64Array(m * m)
  const standardErrors = new Float64Array(m * m)
  const degreesOfFreedom = new Float64Array(m * m).fill(1)
  for (const [k, a] of items.entries()) {
    for (const [l, b] of items.entries()) {
      covariance[k + l * m] = a.elasticity * b.elasticity * fit.covarianceOf(a.setupId, b.setupId)
      if (l >= k) continue
      const pair = fit.contrast([
        { setup: a.setupId, weight: a.elasticity },
        { setup: b.setupId, weight: -b.elasticity },
      ])
      standardErrors[k + l * m] = pair.standardError
      standardErrors[l + k * m] = pair.standardError
      degreesOfFreedom[k + l * m] = pair.degreesOfFreedom
      degreesOfFreedom[l + k * m] = pair.degreesOfFreedom
    }
  }
  return { covariance, standardErrors, degreesOfFreedom }
}
