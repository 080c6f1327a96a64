import { densityRatio } from '../atmosphere/density.ts'
import type { PreparedClimb } from '../normalise/climb.ts'
import type { PreparedBurn } from '../normalise/fuel-burn.ts'
import type { FlownLevel } from '../normalise/level-flight.ts'
import { GASOLINE_DENSITY_15C_KG_PER_M3 } from '../normalise/model/fuel-volume.ts'
import type { ClimbRun } from '../normalise/types.ts'
import { METRES_PER_FOOT } from '../units.ts'
import type { FindingList } from './findings.ts'
import { DERIVED_LIMITS, isInside } from './limits.ts'
import { withUnit } from './unit-mistakes.ts'

/** Induced power over shaft power of an ordinary propeller [1]: editorial, for the check only. */
const PROPULSIVE_RATIO = 0.8
const W_PER_KW = 1000

/**
 * Holds what follows from a climb against its limits.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the run
 * @param climb the climb, worked out
 * @param run the run as submitted
 * @source METHOD.md, section k
 */
export function checkClimb(
  found: FindingList,
  pointer: string,
  { climb, run }: { readonly climb: PreparedClimb; readonly run: ClimbRun },
): void {
  const { flown, atReference } = climb
  const gain = `${pointer}/heightGainM`
  const { climbRateMps, airspeedMps } = flown
  found.check(gain, climbRateMps, DERIVED_LIMITS.climbRate, climbHint(climbRateMps, run))
  found.check(gain, climbRateMps / airspeedMps, DERIVED_LIMITS.climbRatio)
  found.check(gain, flown.thrustToWeight, DERIVED_LIMITS.thrustToWeight)
  found.check(pointer, flown.powerRatio, DERIVED_LIMITS.powerRatio)
  const { hard } = DERIVED_LIMITS.climbRate
  if (atReference.climbRateMps > hard.max) {
    const detail = `Brought to the reference state, this climb would be ${withUnit(atReference.climbRateMps, 'm/s')}; it must not exceed ${hard.max} m/s.`
    found.refuse(gain, 'outOfRange', detail)
  }
  if (!(atReference.climbRateMps > 0)) {
    const detail =
      'This set-up would not climb at the reference mass; its climb rate there is negative.'
    found.warn(pointer, 'noClimbAtReference', detail)
  }
}

/**
 * What a climb rate out of range may come from: feet, or minutes.
 *
 * @param climbRateMps climb rate [m/s]
 * @param run the run it follows from
 * @returns a sentence, or an empty string
 * @source common practice
 */
export function climbHint(climbRateMps: number, run: ClimbRun): string {
  const { soft, unit } = DERIVED_LIMITS.climbRate
  const inFeet = climbRateMps * METRES_PER_FOOT
  if (isInside(inFeet, soft)) {
    return `heightGainM looks like feet: ${withUnit(run.heightGainM, 'ft')} would make ${withUnit(inFeet, unit)}.`
  }
  const inMinutes = climbRateMps / 60
  if (isInside(inMinutes, soft)) {
    return `durationS looks like minutes: that would make ${withUnit(inMinutes, unit)}.`
  }
  return ''
}

/**
 * Holds what follows from a fuel burn against its limits.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the run
 * @param burn the burn, worked out
 * @source METHOD.md, section k
 */
export function checkBurn(found: FindingList, pointer: string, { flown }: PreparedBurn): void {
  const volume = `${pointer}/volumeMl`
  found.check(volume, flown.fuelFlowLPerH, DERIVED_LIMITS.fuelFlow)
  const shaftKw = flown.levelPowerW / flown.levelFactor / PROPULSIVE_RATIO / W_PER_KW
  const gramsPerH = flown.fuelFlowLPerH * GASOLINE_DENSITY_15C_KG_PER_M3
  found.check(volume, gramsPerH / shaftKw, DERIVED_LIMITS.specificConsumption)
  checkLevelCorrection(found, pointer, flown)
}

/**
 * Holds the size of the correction of a level flight against its limits.
 *
 * Mass and wing may differ from the reference as far as they like without refusal, so that two-seaters
 * are taken; the hard limit is for air and height not held.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the run
 * @param flown the flight, worked out
 * @source METHOD.md, section k
 */
export function checkLevelCorrection(found: FindingList, pointer: string, flown: FlownLevel): void {
  const limit = DERIVED_LIMITS.logCorrection
  const airAndHeight = Math.log(
    flown.levelFactor * Math.sqrt(densityRatio(flown.air.densityKgPerM3)),
  )
  if (!isInside(airAndHeight, limit.hard)) found.check(pointer, airAndHeight, limit)
  else found.check(pointer, Math.log(flown.toReference), { ...limit, hard: UNLIMITED })
}

const UNLIMITED = { min: Number.NEGATIVE_INFINITY, max: Number.POSITIVE_INFINITY }
