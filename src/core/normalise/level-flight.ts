import { G0 } from '../atmosphere/constants.ts'
import { densityRatio } from '../atmosphere/density.ts'
import { OutOfRangeError } from '../errors.ts'
import type { UncertainInput } from '../uncertainty/propagate.ts'
import { airAbove } from './inputs/air.ts'
import { linkedValue, type WingLinks } from './inputs/linked.ts'
import { modelFactor } from './inputs/run.ts'
import { L } from './level-inputs.ts'
import type { Air } from './model/air.ts'
import { discAreaM2 } from './model/induced-power.ts'
import {
  levelFlowFactor,
  levelPowerW,
  type PartLoadError,
  type PartLoadWeights,
  partLoadError,
} from './model/level-power.ts'
import { levelTrimSpeedMps } from './model/trim-speed.ts'
import { REFERENCE, referenceLevelPowerW } from './reference.ts'

/** What happened in a level flight, worked out from the readings. */
export interface FlownLevel {
  readonly air: Air
  /** Mean all-up mass [kg]. */
  readonly meanMassKg: number
  readonly airspeedMps: number
  readonly thrustN: number
  /** Factor for height not held [1]. */
  readonly levelFactor: number
  /** Induced power of level flight in this air [W]. */
  readonly levelPowerW: number
  /** Factor that takes what was used to level flight at the reference state [1], above 0. */
  readonly toReference: number
}

/** What the model of a level flight knows beside its inputs. */
export interface LevelContext {
  readonly pressureIsQnh: boolean
  readonly wing: WingLinks
}

/** Positions of the inputs that the air of the flight follows from. */
export const LEVEL_AIR_POSITIONS = [
  L.elevationM,
  L.temperatureC,
  L.lapseKPerM,
  L.pressureHPa,
  L.relativeHumidityPct,
  L.heightAboveSiteM,
] as const

/**
 * From readings to the factor that takes what was used to the reference state.
 *
 *     1/(1 + G·Vc/V) · [T(V + v)]_ref/[T(V + v)]
 *
 * @param x values of the level inputs, in their order
 * @param at mean all-up mass of the flight [kg]; the air, where it is known already
 * @param context whether the pressure is a QNH, and what the wing's figures follow
 * @returns the flight, worked out
 * @throws {OutOfRangeError} if the readings lie outside the physics
 * @source METHOD.md, section e
 */
export function flyLevel(
  x: Float64Array,
  at: { readonly meanMassKg: number; readonly knownAir: Air | undefined },
  context: LevelContext,
): FlownLevel {
  const { meanMassKg } = at
  const air = at.knownAir ?? airOfLevel(x, context.pressureIsQnh)
  const glideRatio = linkedValue(x, context.wing.glide)
  const trim = { speedMps: linkedValue(x, context.wing.trim), atAllUpMassKg: x[L.trimMassKg]! }
  const airspeedMps = levelTrimSpeedMps(trim, meanMassKg, air.densityKgPerM3)
  const climbRateMps = x[L.heightChangeM]! / x[L.durationS]! - x[L.ownAirMps]! - x[L.sessionAirMps]!
  const levelFactor = levelFlowFactor(climbRateMps, glideRatio, airspeedMps)
  const area = discAreaM2(x[L.diameterM]!)
  const power = levelPowerW({
    allUpMassKg: meanMassKg,
    glideRatio,
    airspeedMps,
    densityKgPerM3: air.densityKgPerM3,
    discAreaM2: area,
  })
  const factors = x[L.levelFlyingFactor]! * x[L.partLoadFactor]! * levelFactor
  const toReference = (factors * referenceLevelPowerW(area)) / power
  if (!(toReference > 0)) {
    // The wing sank at least as fast as it glides: such a run says nothing of level flight.
    throw new OutOfRangeError('levelFactor', levelFactor, 0, Number.POSITIVE_INFINITY)
  }
  return {
    air,
    meanMassKg,
    airspeedMps,
    thrustN: (meanMassKg * G0) / glideRatio,
    levelFactor,
    levelPowerW: power,
    toReference,
  }
}

/** The air at the height of the flight. */
function airOfLevel(x: Float64Array, pressureIsQnh: boolean): Air {
  const field = {
    elevationM: x[L.elevationM]!,
    temperatureC: x[L.temperatureC]!,
    lapseKPerM: x[L.lapseKPerM]!,
    pressureHPa: x[L.pressureHPa]!,
    relativeHumidityPct: x[L.relativeHumidityPct]!,
  }
  return airAbove(field, x[L.heightAboveSiteM]!, pressureIsQnh)
}

/**
 * The error of a drive that does not work at the same efficiency at every load.
 *
 * @param source what varies
 * @param flown the flight, worked out
 * @param weights how far drives of the kind stray [1]
 * @returns a factor of 1 with that standard uncertainty: the rule's part common to everybody, the rest
 *   each setup's own, both with the sign of their correction
 * @source METHOD.md, section e; see {@link partLoadError}
 */
export function partLoadInput(
  source: string,
  { meanMassKg, air }: FlownLevel,
  weights: PartLoadWeights,
): UncertainInput {
  const massRatio = REFERENCE.allUpMassKg / meanMassKg
  const sigma = densityRatio(air.densityKgPerM3)
  return driveInput(source, partLoadError(weights, massRatio, sigma))
}

/**
 * A factor of 1 for what a model leaves out of drives: in part the same for all, in part each its own.
 *
 * @param source what varies
 * @param error both parts [1]
 * @source METHOD.md, section j
 */
export function driveInput(
  source: string,
  { rule, own, standardUncertainty }: PartLoadError,
): UncertainInput {
  if (standardUncertainty === 0) return modelFactor(source, 0)
  return modelFactor(source, standardUncertainty, [
    { reach: 'everyone', fraction: rule / standardUncertainty },
    { reach: 'setup', fraction: own / standardUncertainty },
  ])
}
