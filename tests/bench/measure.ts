import { setTimeout as sleep } from 'node:timers/promises'

import type { Database } from '../../src/db/client.ts'

export const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(0)} MB`

/** How long the work takes [s]. */
export async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now()
  await work()
  return (performance.now() - start) / 1000
}

export async function countRuns(db: Database): Promise<number> {
  const { rows } = await db.pool.query<{ runs: number }>('SELECT count(*)::int AS runs FROM run')
  return rows[0]!.runs
}

/** Looks at the memory of this process again and again; tells the most it saw. */
export function watchMemory() {
  let peak = process.memoryUsage.rss()
  let done = false
  const watching = (async () => {
    while (!done) {
      peak = Math.max(peak, process.memoryUsage.rss())
      await sleep(20)
    }
  })()
  return {
    async stop(): Promise<number> {
      done = true
      await watching
      return peak
    },
  }
}
