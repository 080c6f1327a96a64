import type { Run } from '../../../src/core/normalise/types.ts'
import type { WorldSubmission } from '../world/community.ts'
import type { StudiedMetric } from './pairs.ts'

/**
 * What people do without a service: the plain mean of all readings of a setup, climb rate as shown
 * [m/s] or volume over burn time [L/h].
 */
export function rawMeans(
  metric: StudiedMetric,
  submissions: readonly WorldSubmission[],
): ReadonlyMap<string, number> {
  const sums = new Map<string, { sum: number; count: number }>()
  for (const { setupId, runs } of submissions.flatMap(({ entries }) => entries)) {
    for (const run of runs) {
      const value = rawValue(metric, run)
      if (value === null) continue
      const { sum, count } = sums.get(setupId) ?? { sum: 0, count: 0 }
      sums.set(setupId, { sum: sum + value, count: count + 1 })
    }
  }
  return new Map([...sums].map(([id, { sum, count }]) => [id, sum / count]))
}

function rawValue(metric: StudiedMetric, run: Run): number | null {
  if (metric === 'climbRate') {
    return run.kind === 'climb' ? run.heightGainM / run.durationS : null
  }
  return run.kind === 'fuelBurn' ? (3.6 * run.volumeMl) / run.durationS : null
}
