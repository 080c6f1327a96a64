import { Pcg32 } from '../random/pcg32.ts'
import { drawFront, frontOf } from '../ranking/front-draws.ts'
import type { JointEstimates } from '../ranking/rank-draws.ts'
import { type Candidate, type Question, usableReading } from './compare.ts'
import { METRIC_FACTS } from './metric.ts'
import { refusalOfSetup } from './refusal.ts'

/** A setup between two metrics. */
export interface TradedSetup {
  readonly setupId: string
  /** By the estimates: no other one is at least as good in both and better in one. */
  readonly onFront: boolean
  /** Share of seeded draws from both fits in which it is on the front. */
  readonly probabilityOnFront: number
}

/** Draws: a probability is good to ½/√DRAWS, about 0.8 %. */
const DRAWS = 4000
/** The draws are part of the answer, so the same question has the same answer. */
const SEED = 20_260_518

interface Item {
  readonly candidate: Candidate
  readonly first: { readonly logValue: number; readonly elasticity: number }
  readonly second: { readonly logValue: number; readonly elasticity: number }
}

/**
 * Which setups are worth a look when two metrics count: the Pareto front and how sure it is.
 *
 * Setups take part that have a value in both and stay linked with one another in both fits whichever
 * single session is taken away; of several such groups the largest. The errors of the two fits are taken
 * as independent.
 *
 * @param first a metric, conditions and its fit
 * @param second another metric at the same conditions and its fit
 * @param candidates setups, each once
 * @returns those that take part, in their order; empty where fewer than two do
 * @source draws and front: see `core/ranking/front-draws.ts`
 */
export function tradeOff(
  first: Question,
  second: Question,
  candidates: readonly Candidate[],
): TradedSetup[] {
  const items = largestGroup(first, second, candidates)
  if (items.length < 2) return []
  const joint = [jointOf(first, items, 'first'), jointOf(second, items, 'second')] as const
  if (joint.some(({ covariance }) => !Array.from(covariance).every(Number.isFinite))) return []
  const { probabilityOnFront } = drawFront(joint[0], joint[1], {
    random: new Pcg32(SEED),
    draws: DRAWS,
  })
  const front = new Set(frontOf(signed(joint[0]), signed(joint[1])))
  return items.map(({ candidate }, k) => ({
    setupId: candidate.setupId,
    onFront: front.has(k),
    probabilityOnFront: probabilityOnFront[k]!,
  }))
}

function signed({ estimates, better }: JointEstimates): number[] {
  return Array.from(estimates, (value) => (better === 'higher' ? value : -value))
}

function largestGroup(first: Question, second: Question, candidates: readonly Candidate[]): Item[] {
  const groups = new Map<string, Item[]>()
  for (const candidate of candidates) {
    const { setupId } = candidate
    if (refusalOfSetup(first.fit, setupId) ?? refusalOfSetup(second.fit, setupId)) continue
    const readings = [usableReading(first, candidate), usableReading(second, candidate)] as const
    if ('refusal' in readings[0] || 'refusal' in readings[1]) continue
    const key = `${first.fit.groupOf(setupId)} ${second.fit.groupOf(setupId)}`
    const group = groups.get(key) ?? []
    group.push({ candidate, first: readings[0], second: readings[1] })
    groups.set(key, group)
  }
  const [largest] = [...groups.values()].sort((a, b) => b.length - a.length)
  return largest ?? []
}

function jointOf(
  { metric, fit }: Question,
  items: readonly Item[],
  which: 'first' | 'second',
): JointEstimates {
  const m = items.length
  const covariance = new Float64Array(m * m)
  for (const [k, a] of items.entries()) {
    for (const [l, b] of items.entries()) {
      const scale = a[which].elasticity * b[which].elasticity
      const { setupId } = b.candidate
      covariance[k + l * m] = scale * fit.covarianceOf(a.candidate.setupId, setupId)
    }
  }
  const estimates = items.map((item) => item[which].logValue)
  return { estimates, covariance, better: METRIC_FACTS[metric].better }
}
