import type { PreparedRun } from '../normalise/prepare.ts'
import type { RunOutcome, Warning } from '../normalise/types.ts'
import type { FindingList } from './findings.ts'
import { DERIVED_LIMITS, isInside } from './limits.ts'
import { withUnit } from './unit-mistakes.ts'

/** How many standard uncertainties apart two ways of measuring may lie. */
const COVERAGE = 3

/**
 * Holds the runs of one entry against one another: engine speeds and thrusts of climb and static pull,
 * both at full throttle.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the entry's list of runs
 * @param runs the runs of one entry, worked out, in their places; null where one was refused
 * @source METHOD.md, section k (cross checks)
 */
export function crossCheck(
  found: FindingList,
  pointer: string,
  runs: readonly (PreparedRun | null)[],
): void {
  const climbs = runs.filter((run) => run?.kind === 'climb')
  const pullIndex = runs.findIndex((run) => run?.kind === 'staticPull')
  const pulls = runs.filter((run) => run?.kind === 'staticPull')
  if (climbs.length === 0 || pullIndex < 0) return
  const pull = `${pointer}/${pullIndex}`
  const climbThrustN = mean(climbs.map(({ climb }) => climb.atReference.thrustN))
  const staticThrustN = mean(pulls.map((one) => one.pull.flown.standardThrustN))
  found.check(
    `${pull}/thrustN`,
    climbThrustN / staticThrustN,
    DERIVED_LIMITS.climbToStaticThrust,
    `Both at sea level: ${withUnit(climbThrustN, 'N')} in the climb, ${withUnit(staticThrustN, 'N')} at a standstill.`,
  )
  const inClimb = climbs.flatMap(({ run }) => run.rpm ?? [])
  const atStandstill = pulls.flatMap(({ run }) => run.rpm ?? [])
  if (inClimb.length === 0 || atStandstill.length === 0) return
  found.check(
    `${pull}/rpm`,
    mean(inClimb) / mean(atStandstill),
    DERIVED_LIMITS.flightToStaticRpm,
    'Were both flown and pulled at full throttle, with the same propeller?',
  )
}

/**
 * Warns where climbs of one entry read by barometer and by satellite do not agree.
 *
 *     |x̄_baro − x̄_gnss| > 3·√(u²(x̄_baro) + u²(x̄_gnss)),  x̄ weighted by 1/u²; own uncertainties only
 *
 * @param runs the runs of one entry, worked out, in their places
 * @param outcomes the same runs, normalised
 * @param pointer JSON pointer of the entry's list of runs
 * @returns one warning, or none
 * @source METHOD.md, section k (cross checks)
 */
export function heightSourceWarnings(
  runs: readonly PreparedRun[],
  outcomes: readonly RunOutcome[],
  pointer: string,
): Warning[] {
  const read = (bySatellite: boolean) =>
    runs.flatMap((run, index) => {
      const evidence = outcomes[index]?.evidence
      if (run.kind !== 'climb' || evidence === null || evidence === undefined) return []
      const { heightSource } = run.run
      if (heightSource === 'unknown' || (heightSource === 'gnss') !== bySatellite) return []
      return [{ index, value: evidence.logValue, u: evidence.ownStandardUncertainty }]
    })
  const byBarometer = read(false)
  const bySatellite = read(true)
  if (byBarometer.length === 0 || bySatellite.length === 0) return []
  const a = weightedMean(byBarometer)
  const b = weightedMean(bySatellite)
  const allowed = COVERAGE * Math.hypot(a.u, b.u)
  if (isInside(a.value - b.value, { min: -allowed, max: allowed })) return []
  const percent = Math.round(100 * (Math.exp(Math.abs(a.value - b.value)) - 1))
  const more = a.value > b.value ? 'barometer' : 'satellite'
  return [
    {
      pointer: `${pointer}/${byBarometer[0]!.index}/heightSource`,
      code: 'heightSourcesDisagree',
      detail: `By ${more} the climbs show ${percent} % more power, more than the uncertainties explain: is it said rightly how each height was read?`,
    },
  ]
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

function weightedMean(values: readonly { readonly value: number; readonly u: number }[]) {
  let weight = 0
  let sum = 0
  for (const { value, u } of values) {
    weight += 1 / u ** 2
    sum += value / u ** 2
  }
  return { value: sum / weight, u: 1 / Math.sqrt(weight) }
}
