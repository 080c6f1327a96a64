import type { Candidate, Question } from '../../core/comparison/compare.ts'
import type { JointSpread } from '../../core/comparison/joint-spread.ts'
import {
  bySetup,
  type RankedSetup,
  type RankingTask,
  rankingTask,
  rankSetups,
} from '../../core/comparison/rank-setups.ts'
import { sharedArray } from '../../threads/shared-arrays.ts'
import { Thread } from '../../threads/thread.ts'

/** Setups that are ranked where they are asked for, in some hundredths of a second; editorial. */
const RANKED_IN_PLACE = 24

/** Ranks setups: a few at once, many in a thread of its own, so that no request waits for another's ranking. */
export class Ranker {
  readonly #thread = new Thread(import.meta.url, 'worker')
  /** What a fit knows in memory that the thread shares: copied once per fit. */
  readonly #shared = new WeakMap<JointSpread, JointSpread>()

  /** What `rankSetups` gives, with the same numbers. */
  async rank(
    question: Question,
    candidates: readonly Candidate[],
  ): Promise<ReadonlyMap<string, RankedSetup>> {
    if (candidates.length <= RANKED_IN_PLACE) return rankSetups(question, candidates)
    const task = rankingTask(question, candidates)
    if (task === null) return new Map()
    const spread = this.#share(task.spread)
    return bySetup(await this.#thread.run<RankedSetup[]>({ ...task, spread } satisfies RankingTask))
  }

  async close(): Promise<void> {
    await this.#thread.close()
  }

  #share(spread: JointSpread): JointSpread {
    const known = this.#shared.get(spread)
    if (known !== undefined) return known
    const { setupCount, flights, whole, slopes, ofVariances } = spread
    const shared = {
      setupCount,
      flights: sharedArray.copyOf(flights),
      whole: sharedArray.copyOf(whole),
      slopes: sharedArray.copyOf(slopes),
      ofVariances,
    }
    this.#shared.set(spread, shared)
    return shared
  }
}
