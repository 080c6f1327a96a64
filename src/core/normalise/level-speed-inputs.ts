import type { UncertainInput } from '../uncertainty/propagate.ts'
import { ASSUMED_LEVEL_HEIGHT, DEFAULT_U } from './inputs/defaults.ts'
import type { KnownSession } from './inputs/known.ts'
import { exactUnlessStated, massInput } from './inputs/run.ts'
import { statedOr } from './inputs/stated.ts'
import { positionsOf } from './inputs/vector.ts'
import type { Leg } from './model/ground-vector.ts'
import type { FlownEntry, LevelSpeedRun, MeasuredLeg } from './types.ts'

/** The inputs of a level speed run, in the order of its model; ground speed and track of each leg follow. */
export const LEVEL_SPEED_INPUTS = [
  'windChangeMps',
  'allUpMassKg',
  'elevationM',
  'temperatureC',
  'lapseKPerM',
  'pressureHPa',
  'relativeHumidityPct',
  'heightAboveSiteM',
] as const

export const X = positionsOf(LEVEL_SPEED_INPUTS)

/**
 * All that a level speed run is worked out from, each with its standard uncertainty.
 *
 * @param known air of the session, gaps filled
 * @param flown entry and run as submitted
 * @returns inputs in their order; the first, the change of the wind, still without its uncertainty,
 *   which needs the legs
 * @source METHOD.md, sections g and j
 */
export function levelSpeedInputs(
  { air }: KnownSession,
  { entry, run }: { readonly entry: FlownEntry; readonly run: LevelSpeedRun },
): UncertainInput[] {
  return [
    windChangeInput(0),
    massInput(entry),
    air.elevationM,
    air.temperatureC,
    air.lapseKPerM,
    air.pressureHPa,
    air.relativeHumidityPct,
    heightInputOf(run),
    ...run.legs.flatMap(legInputs),
  ]
}

/**
 * What a change of the wind between the legs does to the airspeed [m/s].
 *
 * @source METHOD.md, section g
 */
export function windChangeInput(standardUncertainty: number): UncertainInput {
  return {
    source: 'wind changing from leg to leg',
    value: 0,
    standardUncertainty,
    sharedWithinSession: false,
  }
}

/**
 * The legs among the values of the inputs.
 *
 * @param x values of all inputs, in their order
 * @returns tracks [°] and ground speeds [m/s]
 * @source common practice
 */
export function legsAmong(x: Float64Array): Leg[] {
  const legs: Leg[] = []
  for (let at = LEVEL_SPEED_INPUTS.length; at < x.length; at += 2) {
    legs.push({ groundSpeedMps: x[at]!, trackDeg: x[at + 1]! })
  }
  return legs
}

/** The error of a receiver's velocity is taken to be the same along the track and across it. */
function legInputs({ groundSpeedMps, trackDeg, uncertainty }: MeasuredLeg): UncertainInput[] {
  const label = { source: 'ground speeds and tracks of the legs', sharedWithinSession: false }
  const speedU = statedOr(uncertainty, 'groundSpeedMps', DEFAULT_U.groundSpeedMps)
  const acrossDeg = (Math.atan2(DEFAULT_U.groundSpeedMps, groundSpeedMps) * 180) / Math.PI
  const trackU = statedOr(uncertainty, 'trackDeg', acrossDeg)
  return [
    { ...label, value: groundSpeedMps, standardUncertainty: speedU },
    { ...label, value: trackDeg, standardUncertainty: trackU },
  ]
}

function heightInputOf({ heightAboveSiteM, uncertainty }: LevelSpeedRun): UncertainInput {
  const source = 'height above the field'
  if (heightAboveSiteM === undefined) {
    const { valueM, u } = ASSUMED_LEVEL_HEIGHT
    return { source, value: valueM, standardUncertainty: u, sharedWithinSession: false }
  }
  return exactUnlessStated(source, heightAboveSiteM, { uncertainty, field: 'heightAboveSiteM' })
}
