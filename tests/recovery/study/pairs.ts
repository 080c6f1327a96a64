import { answerForPair } from '../../../src/core/comparison/compare.ts'
import type { Quantity } from '../../../src/core/comparison/metric.ts'
import { studentTQuantile } from '../../../src/core/distributions/student-t.ts'
import { REFERENCE } from '../../../src/core/normalise/predict.ts'
import type { Community } from '../world/community.ts'
import type { Truth } from '../world/setups.ts'
import { type EvidenceRow, fitOf } from './fits.ts'
import { rawMeans } from './raw.ts'

/** The metrics studied, each with the quantity fitted and the truth it is held against. */
export const STUDIED = {
  climbRate: { quantity: 'inducedPower', truth: 'climbRateMps' },
  fuelFlow: { quantity: 'fuelFlow', truth: 'fuelFlowLPerH' },
} as const satisfies Record<string, { quantity: Quantity; truth: keyof Truth }>

export type StudiedMetric = keyof typeof STUDIED

/** One pair of setups: truth, answer and raw figure, all as ln(a/b). */
export interface StudiedPair {
  readonly truth: number
  readonly estimate: number
  readonly standardError: number
  /** Half of the 95 % interval. */
  readonly reach: number
  readonly raw: number
}

export interface StudiedFit {
  readonly pairs: readonly StudiedPair[]
  /** Runs the fit rests on. */
  readonly runs: number
  readonly refused: number
  readonly converged: boolean
}

/** Fits one metric of a community and asks for every pair at the reference state. */
export function studyMetric(
  metric: StudiedMetric,
  { setups, submissions }: Community,
  rows: readonly EvidenceRow[],
): StudiedFit {
  const { quantity, truth } = STUDIED[metric]
  const { view: fit, runs, converged } = fitOf(rows, quantity, setups)
  const raw = rawMeans(metric, submissions)
  const question = { metric, state: REFERENCE, fit }
  const pairs: StudiedPair[] = []
  let refused = 0
  setups.forEach((a, i) => {
    for (const b of setups.slice(i + 1)) {
      const answer = answerForPair(
        question,
        { setupId: a.id, equipment: a.equipment },
        { setupId: b.id, equipment: b.equipment },
      )
      if (answer.refusal !== null) {
        refused++
        continue
      }
      const { estimate, standardError, degreesOfFreedom } = answer.difference
      pairs.push({
        truth: Math.log(a.truth[truth] / b.truth[truth]),
        estimate,
        standardError,
        reach: studentTQuantile(0.975, degreesOfFreedom) * standardError,
        raw: Math.log(raw.get(a.id)! / raw.get(b.id)!),
      })
    }
  })
  return { pairs, runs, refused, converged }
}
