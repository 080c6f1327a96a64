import { G0 } from '../atmosphere/constants.ts'
import { densityRatio } from '../atmosphere/density.ts'
import { OutOfRangeError } from '../errors.ts'
import type { UncertainInput } from '../uncertainty/propagate.ts'
import { airAbove } from './inputs/air.ts'
import { linkedValue, type WingLinks } from './inputs/linked.ts'
import { modelFactor } from './inputs/run.ts'
import { L } from './level-inputs.ts'
import type { Air } from './model/air.ts'
import {
  type DriveError,
  type PartLoadWeights,
  partLoadError,
  standardUncertaintyOf,
} from './model/drive-error.ts'
import { discAreaM2 } from './model/induced-power.ts'
import { levelFlowFactor, levelPowerW } from './model/level-power.ts'
import { levelTrimSpeedMps } from './model/trim-speed.ts'
import { REFERENCE, referenceLevelPowerW } from './reference.ts'
import type { Drive } from './types.ts'

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
 * @param flown the flight, worked out
 * @param weights how far drives of the kind stray [1]
 * @returns its parts, with the sign of their correction [1]
 * @source METHOD.md, section e; see {@link partLoadError}
 */
export function partLoadOf({ meanMassKg, air }: FlownLevel, weights: PartLoadWeights): DriveError {
  const massRatio = REFERENCE.allUpMassKg / meanMassKg
  return partLoadError(weights, massRatio, densityRatio(air.densityKgPerM3))
}

const KINDS: Readonly<Record<Drive, string>> = {
  twoStroke: 'two-strokes',
  fourStroke: 'four-strokes',
  electric: 'motors',
}

/**
 * A factor of 1 for what a model leaves out of drives.
 *
 * @param source what varies
 * @param error its parts: the same for everybody, for all drives of this kind, and each drive's own [1]
 * @param drive the kind
 * @returns the factor with the standard uncertainty of all parts together
 * @source METHOD.md, section j
 */
export function driveInput(source: string, error: DriveError, drive: Drive): UncertainInput {
  const standardUncertainty = standardUncertaintyOf(error)
  if (standardUncertainty === 0) return modelFactor(source, 0)
  return modelFactor(source, standardUncertainty, [
    { reach: 'everyone', fraction: error.all / standardUncertainty },
    { reach: 'everyone', among: KINDS[drive], fraction: error.kind / standardUncertainty },
    { reach: 'powerplant', fraction: error.own / standardUncertainty },
  ])
}
