import { G0 } from '../atmosphere/constants.ts'
import { OutOfRangeError } from '../errors.ts'
import { X } from './climb-inputs.ts'
import { airAbove } from './inputs/air.ts'
import { linkedValue, type WingLinks } from './inputs/linked.ts'
import type { Air } from './model/air.ts'
import { barometricGainRatio } from './model/barometric-gain.ts'
import { climbThrustN } from './model/climb-thrust.ts'
import { fullThrottlePowerRatio } from './model/full-throttle-power.ts'
import { discAreaM2, inducedPowerW } from './model/induced-power.ts'
import { levelTrimSpeedMps, STEEPEST_CLIMB_RATIO, sinClimbAngle } from './model/trim-speed.ts'
import type { Drive } from './types.ts'

/** What a climb is worked out with beside its uncertain inputs. */
export interface ClimbContext {
  readonly pressureIsQnh: boolean
  readonly drive: Drive
  readonly wing: WingLinks
}

type Writable<T> = { -readonly [K in keyof T]: T[K] }

/** The air in the middle of a climb, with all that follows from it alone. */
export interface ClimbAir extends Air {
  /** True height gain over barometric height gain [1]. */
  readonly gainRatio: number
  /** Full-throttle power by the rule, over that at ISA sea level [1]. */
  readonly rulePowerRatio: number
}

/** What happened in a climb, worked out from the readings. */
export interface FlownClimb {
  readonly air: ClimbAir
  readonly climbRateMps: number
  /** Airspeed along the path [m/s]. */
  readonly airspeedMps: number
  readonly thrustN: number
  readonly thrustToWeight: number
  /** Full-throttle power in this air over that at ISA sea level [1]. */
  readonly powerRatio: number
  /** Useful induced power at full throttle, ISA sea level [W]. */
  readonly inducedPowerW: number
  readonly discAreaM2: number
}

/** Positions of the inputs that the air in the middle of the climb follows from. */
export const AIR_POSITIONS = [
  X.heightGainM,
  X.elevationM,
  X.temperatureC,
  X.lapseKPerM,
  X.pressureHPa,
  X.relativeHumidityPct,
  X.startHeightM,
] as const

/**
 * From readings to thrust and induced power: sections c and d of the specification, in order.
 *
 * @param x values of the inputs
 * @param context what is not uncertain
 * @param air the air in the middle of the climb
 * @param flown where the climb is written, so that a model that is run over and over makes none anew
 * @returns the same object
 * @throws {OutOfRangeError} if no steady climb agrees with the readings
 * @source METHOD.md, sections c and d
 */
export function flyClimb(
  x: Float64Array,
  { wing }: ClimbContext,
  air: ClimbAir,
  flown: Writable<FlownClimb>,
): FlownClimb {
  const { densityKgPerM3 } = air
  const allUpMassKg = x[X.allUpMassKg]!
  const gainRatio = x[X.gainScale]! * (1 + x[X.barometricShare]! * (air.gainRatio - 1))
  const climbRateMps =
    (x[X.heightGainM]! * gainRatio) / x[X.durationS]! - x[X.ownAirMps]! - x[X.sessionAirMps]!

  const trim = { speedMps: linkedValue(x, wing.trim), atAllUpMassKg: x[X.trimMassKg]! }
  const levelMps = levelTrimSpeedMps(trim, allUpMassKg, densityKgPerM3)
  const sin = sinClimbAngle(climbRateMps / levelMps)
  if (Number.isNaN(sin)) throw tooSteep(climbRateMps / levelMps)
  const airspeedMps = levelMps * Math.sqrt(Math.sqrt(1 - sin * sin))
  const thrustN = x[X.thrustFactor]! * climbThrustN(allUpMassKg, sin, linkedValue(x, wing.glide))
  const areaM2 = discAreaM2(x[X.diameterM]!)
  const powerRatio = x[X.powerRatioFactor]! * air.rulePowerRatio
  const inducedW = inducedPowerW(thrustN, airspeedMps, { densityKgPerM3, areaM2 })
  flown.air = air
  flown.climbRateMps = climbRateMps
  flown.airspeedMps = airspeedMps
  flown.thrustN = thrustN
  flown.thrustToWeight = thrustN / (allUpMassKg * G0)
  flown.powerRatio = powerRatio
  flown.inducedPowerW = inducedW / powerRatio
  flown.discAreaM2 = areaM2
  return flown
}

/**
 * A climb in this air of which nothing is worked out yet.
 *
 * @source common practice
 */
export function unflown(air: ClimbAir): Writable<FlownClimb> {
  return {
    air,
    climbRateMps: Number.NaN,
    airspeedMps: Number.NaN,
    thrustN: Number.NaN,
    thrustToWeight: Number.NaN,
    powerRatio: Number.NaN,
    inducedPowerW: Number.NaN,
    discAreaM2: Number.NaN,
  }
}

/**
 * The air in the middle of the climb.
 *
 * @throws {OutOfRangeError} if a value lies outside the range of the standard atmosphere or CIPM-2007
 * @source METHOD.md, sections a, c and d
 */
export function airOfClimb(x: Float64Array, { pressureIsQnh, drive }: ClimbContext): ClimbAir {
  const field = {
    elevationM: x[X.elevationM]!,
    temperatureC: x[X.temperatureC]!,
    lapseKPerM: x[X.lapseKPerM]!,
    pressureHPa: x[X.pressureHPa]!,
    relativeHumidityPct: x[X.relativeHumidityPct]!,
  }
  const air = airAbove(field, x[X.startHeightM]! + x[X.heightGainM]! / 2, pressureIsQnh)
  return {
    pressurePa: air.pressurePa,
    temperatureK: air.temperatureK,
    densityKgPerM3: air.densityKgPerM3,
    dryPressurePa: air.dryPressurePa,
    virtualTemperatureK: air.virtualTemperatureK,
    gainRatio: barometricGainRatio(air.virtualTemperatureK, air.pressurePa),
    rulePowerRatio: fullThrottlePowerRatio(drive, air),
  }
}

function tooSteep(climbRatio: number): OutOfRangeError {
  const bound = STEEPEST_CLIMB_RATIO
  return new OutOfRangeError('climbRateMps / levelAirspeedMps', climbRatio, -bound, bound)
}
