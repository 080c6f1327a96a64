import { answerForPair, type Candidate, type Question } from './compare.ts'
import { placesOf } from './rank-setups.ts'
import type { Verdict } from './verdict.ts'

/** Where a setup stands by one fit, as against the setup that leads by another. */
export interface Standing {
  /** Place by estimate, 1 is best; null where it is not linked with the others. */
  readonly position: number | null
  /** Verdict on it, as a, against the one that leads, as b; null for that one itself. */
  readonly againstFirst: Verdict | 'refused' | null
}

/**
 * Places of setups by a fit, and what it says of each against one of them.
 *
 * @param question metric, conditions and fit
 * @param candidates the setups, each once
 * @param first the one they are held against, one of them
 * @returns a standing for every candidate, by id
 * @source the verdicts are those of `answerForPair`
 */
export function standingsOf(
  question: Question,
  candidates: readonly Candidate[],
  first: Candidate,
): ReadonlyMap<string, Standing> {
  const places = placesOf(question, candidates)
  return new Map(
    candidates.map((candidate): [string, Standing] => {
      const { setupId } = candidate
      const position = places.get(setupId) ?? null
      if (setupId === first.setupId) return [setupId, { position, againstFirst: null }]
      const pair = answerForPair(question, candidate, first)
      const againstFirst = pair.refusal === null ? pair.verdict : 'refused'
      return [setupId, { position, againstFirst }]
    }),
  )
}
