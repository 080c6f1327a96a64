import { drawCommunity } from '../world/community.ts'
import type { HabitName } from '../world/habits.ts'
import type { Switches } from '../world/sources.ts'
import { evidenceOf } from './fits.ts'
import { STUDIED, type StudiedFit, type StudiedMetric, studyMetric } from './pairs.ts'
import { type Summary, summarise } from './summary.ts'

export interface Recovery {
  readonly pilots: number
  readonly habits: HabitName
  readonly brokenOff: number
  readonly refusedSubmissions: number
  readonly metrics: Readonly<Record<StudiedMetric, Summary>>
  /** Every community's pairs, for a closer look. */
  readonly fits: Readonly<Record<StudiedMetric, readonly StudiedFit[]>>
}

/**
 * Draws communities of one size, lets the service's method judge what they handed in, and holds its
 * answers against the truth.
 */
export function recover({
  pilots,
  habits,
  seeds,
  on,
}: {
  readonly pilots: number
  readonly habits: HabitName
  readonly seeds: readonly number[]
  readonly on: Switches
}): Recovery {
  const fits: Record<StudiedMetric, StudiedFit[]> = { climbRate: [], fuelFlow: [] }
  let brokenOff = 0
  let refusedSubmissions = 0
  for (const seed of seeds) {
    const community = drawCommunity({ seed, pilots, habits, on })
    const { rows, refused } = evidenceOf(community.submissions)
    brokenOff += community.brokenOff
    refusedSubmissions += refused
    for (const metric of Object.keys(STUDIED) as StudiedMetric[]) {
      fits[metric].push(studyMetric(metric, community, rows))
    }
  }
  const metrics = { climbRate: summarise(fits.climbRate), fuelFlow: summarise(fits.fuelFlow) }
  return { pilots, habits, brokenOff, refusedSubmissions, metrics, fits }
}
