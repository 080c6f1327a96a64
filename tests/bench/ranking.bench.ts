import { monitorEventLoopDelay } from 'node:perf_hooks'

import { Ranker } from '../../src/features/comparisons/ranker.ts'
import { wideQuestion } from '../support/wide-fit.ts'

type Write = (line: string) => void

const SIZES = [
  [100_000, 100],
  [100_000, 1_000],
] as const

/** Time of a ranking, and how long it keeps others waiting at most; the first one starts its thread. */
export async function benchRanking(write: Write): Promise<void> {
  const ranker = new Ranker()
  write('      setups   ranking ms   longest wait of others ms')
  for (const [runs, setups] of SIZES) {
    const { question, candidates } = wideQuestion({ runs, setups })
    for (const _ of ['first', 'second']) {
      const delay = monitorEventLoopDelay({ resolution: 1 })
      delay.enable()
      const start = performance.now()
      await ranker.rank(question, candidates)
      const ms = performance.now() - start
      delay.disable()
      write(
        `    ${String(setups).padStart(8)} ${ms.toFixed(0).padStart(12)} ${(delay.max / 1e6).toFixed(0).padStart(18)}`,
      )
    }
  }
  await ranker.close()
  write('    goal: others wait 50 ms at most')
}
