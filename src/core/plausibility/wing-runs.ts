import type { PreparedLevelSpeed } from '../normalise/level-speed.ts'
import type { PreparedSink } from '../normalise/sink.ts'
import type { SinkRun } from '../normalise/types.ts'
import { METRES_PER_FOOT } from '../units.ts'
import type { FindingList } from './findings.ts'
import { DERIVED_LIMITS, isInside } from './limits.ts'
import { withUnit } from './unit-mistakes.ts'

/** Metres below the field that still count as landing on it. */
const GROUND_MARGIN_M = 20

/**
 * Holds what follows from a sink run against its limits.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the run
 * @param sink the glide, worked out
 * @param run the run as submitted
 * @source METHOD.md, section k
 */
export function checkSink(
  found: FindingList,
  pointer: string,
  { sink, run }: { readonly sink: PreparedSink; readonly run: SinkRun },
): void {
  const loss = `${pointer}/heightLossM`
  const { sinkRateMps, glideRatio } = sink.flown
  const taken = found.check(loss, sinkRateMps, DERIVED_LIMITS.sinkRate, sinkHint(sinkRateMps, run))
  if (taken) found.check(loss, glideRatio, DERIVED_LIMITS.ownGlideRatio, GLIDE_HINT)
  const endM = run.startHeightAboveSiteM - run.heightLossM
  if (endM < -GROUND_MARGIN_M) {
    const detail = `This glide would end ${withUnit(-endM, 'm')} below the field: check its start and its height loss.`
    found.warn(`${pointer}/startHeightAboveSiteM`, 'endsBelowField', detail)
  }
}

const GLIDE_HINT =
  'Air that rose or sank, an engine that was not off, or a trim speed that is not that of the wing would explain it.'

/**
 * What a sink rate out of range may come from: feet, or minutes.
 *
 * @param sinkRateMps sink rate [m/s]
 * @param run the run it follows from
 * @returns a sentence, or an empty string
 * @source common practice
 */
export function sinkHint(sinkRateMps: number, run: SinkRun): string {
  const { soft, unit } = DERIVED_LIMITS.sinkRate
  const inFeet = sinkRateMps * METRES_PER_FOOT
  if (isInside(inFeet, soft)) {
    return `heightLossM looks like feet: ${withUnit(run.heightLossM, 'ft')} would make ${withUnit(inFeet, unit)}.`
  }
  const inMinutes = sinkRateMps / 60
  if (isInside(inMinutes, soft)) {
    return `durationS looks like minutes: that would make ${withUnit(inMinutes, unit)}.`
  }
  return ''
}

/**
 * Holds what follows from a level speed run against its limits.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the run
 * @param speed the run, worked out
 * @source METHOD.md, sections g and k
 */
export function checkLevelSpeed(
  found: FindingList,
  pointer: string,
  { flown }: PreparedLevelSpeed,
): void {
  const { trueAirspeedMps, windMps, rmsMps } = flown.legs
  const legs = `${pointer}/legs`
  found.check(legs, trueAirspeedMps, DERIVED_LIMITS.trueAirspeed)
  found.check(legs, windMps / trueAirspeedMps, DERIVED_LIMITS.windToAirspeed)
  if (rmsMps !== null) found.check(legs, rmsMps, DERIVED_LIMITS.windFitRms)
}
