import { G0 } from '../atmosphere/constants.ts'
import { densityRatio } from '../atmosphere/density.ts'
import { OutOfRangeError } from '../errors.ts'
import { type Model, propagate, type UncertainInput } from '../uncertainty/propagate.ts'
import { CLIMB_INPUTS, climbInputs, X } from './climb-inputs.ts'
import { airAbove } from './inputs/air.ts'
import type { KnownSession } from './inputs/known.ts'
import { linkedValue, linkWing, type WingLinks } from './inputs/linked.ts'
import { byCorrection, modelFactor, POWER_RULE_SHARE } from './inputs/run.ts'
import { agree, inOrder, valuesOf } from './inputs/vector.ts'
import type { Air } from './model/air.ts'
import { barometricGainRatio } from './model/barometric-gain.ts'
import { climbThrustN } from './model/climb-thrust.ts'
import { fullThrottlePowerRatio, powerRatioUncertainty } from './model/full-throttle-power.ts'
import { discAreaM2, inducedPowerW } from './model/induced-power.ts'
import { type SteadyClimb, steadyClimb } from './model/steady-climb.ts'
import { levelTrimSpeedMps, STEEPEST_CLIMB_RATIO, sinClimbAngle } from './model/trim-speed.ts'
import { answeringNaN, budgetOf, evidenceOf, LOG_EVIDENCE, OUTPUTS, VALUE } from './outcome.ts'
import { referenceFlight } from './reference.ts'
import type { ClimbRun, Drive, Equipment, Evidence, FlownEntry, Normalized } from './types.ts'

interface ClimbContext {
  readonly pressureIsQnh: boolean
  readonly drive: Drive
  readonly wing: WingLinks
}

/** What happened in a climb, worked out from the readings. */
export interface FlownClimb {
  readonly air: Air
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
const AIR_POSITIONS = [
  X.heightGainM,
  X.elevationM,
  X.temperatureC,
  X.lapseKPerM,
  X.pressureHPa,
  X.relativeHumidityPct,
  X.startHeightM,
] as const

/** One climb with everything filled in and worked out. */
export interface PreparedClimb {
  readonly inputs: readonly UncertainInput[]
  readonly context: ClimbContext
  readonly flown: FlownClimb
  /** The climb that the same induced power carries at the reference state. */
  readonly atReference: SteadyClimb
}

/**
 * Gathers the inputs of a climb and works out what happened in it.
 *
 * @param known air and wing of the session, gaps filled
 * @param submitted entry, run and equipment as submitted
 * @returns the climb as flown and at the reference state, ready for {@link normaliseClimb}
 * @throws {OutOfRangeError} if the readings lie outside the physics, such as a climb too steep for
 *   its airspeed, or a power the reference wing has no steady climb for
 * @source normalisation specification 1, sections c, d and j
 */
export function prepareClimb(
  known: KnownSession,
  submitted: { readonly entry: FlownEntry; readonly run: ClimbRun; readonly equipment: Equipment },
): PreparedClimb {
  const { inputs: named, links } = linkWing(
    climbInputs(known, submitted),
    { names: CLIMB_INPUTS },
    known.wing,
  )
  const { drive } = submitted.equipment
  const context = { pressureIsQnh: known.air.pressureIsQnh, drive, wing: links }
  const inputs = inOrder(CLIMB_INPUTS, named)
  const flown = flyClimb(valuesOf(inputs), context)
  const { powerRatio } = flown
  const sigma = densityRatio(flown.air.densityKgPerM3)
  inputs[X.powerRatioFactor] = modelFactor(
    named.powerRatioFactor.source,
    powerRatioUncertainty(drive, powerRatio, sigma) / powerRatio,
    byCorrection(1 - powerRatio, POWER_RULE_SHARE),
  )
  return { inputs, context, flown, atReference: climbAtReference(flown) }
}

/**
 * Brings a climb to the reference state, with its uncertainty budget.
 *
 *     Δh/t → Vc → T → P_i/φ = P_ref → T_ref, Vc_ref;   evidence: ln P_ref
 *
 * @param climb what {@link prepareClimb} gave
 * @returns climb rate [m/s], thrust [N] and induced power [W] at the reference state; evidence
 * @source normalisation specification 1, sections d and j
 */
export function normaliseClimb(climb: PreparedClimb): {
  readonly normalized: Normalized
  readonly evidence: Evidence
} {
  const { inputs, atReference } = climb
  const propagation = propagate(inputs, OUTPUTS, climbModel(climb))
  return {
    normalized: {
      metric: 'climbRate',
      value: atReference.climbRateMps,
      unit: 'm/s',
      ...budgetOf(inputs, propagation),
      inducedPowerW: climb.flown.inducedPowerW,
      thrustN: atReference.thrustN,
      climbRateMps: atReference.climbRateMps,
    },
    evidence: evidenceOf('inducedPower', inputs, propagation),
  }
}

/**
 * The model of a climb: climb rate at the reference state [m/s] and ln of the induced power.
 *
 * @source normalisation specification 1, section d
 */
export function climbModel({ inputs, context, flown: { air } }: PreparedClimb): Model {
  const nominal = valuesOf(inputs)
  return answeringNaN((x, y) => {
    const knownAir = agree(x, nominal, AIR_POSITIONS) ? air : undefined
    const flown = flyClimb(x, context, knownAir)
    y[VALUE] = climbAtReference(flown).climbRateMps
    y[LOG_EVIDENCE] = Math.log(flown.inducedPowerW)
  })
}

/** From readings to thrust and induced power: sections c and d of the specification, in order. */
function flyClimb(
  x: Float64Array,
  { pressureIsQnh, drive, wing }: ClimbContext,
  knownAir?: Air,
): FlownClimb {
  const air = knownAir ?? airOfClimb(x, pressureIsQnh)
  const allUpMassKg = x[X.allUpMassKg]!
  const full = barometricGainRatio(air.virtualTemperatureK, air.pressurePa)
  const gainRatio = x[X.gainScale]! * (1 + x[X.barometricShare]! * (full - 1))
  const climbRateMps =
    (x[X.heightGainM]! * gainRatio) / x[X.durationS]! - x[X.ownAirMps]! - x[X.sessionAirMps]!

  const trim = { speedMps: linkedValue(x, wing.trim), atAllUpMassKg: x[X.trimMassKg]! }
  const levelMps = levelTrimSpeedMps(trim, allUpMassKg, air.densityKgPerM3)
  const sin = sinClimbAngle(climbRateMps / levelMps)
  if (Number.isNaN(sin)) throw tooSteep(climbRateMps / levelMps)
  const airspeedMps = levelMps * Math.sqrt(Math.sqrt(1 - sin * sin))
  const thrustN = x[X.thrustFactor]! * climbThrustN(allUpMassKg, sin, linkedValue(x, wing.glide))
  const areaM2 = discAreaM2(x[X.diameterM]!)
  const disc = { densityKgPerM3: air.densityKgPerM3, areaM2 }
  const powerRatio = x[X.powerRatioFactor]! * fullThrottlePowerRatio(drive, air)
  return {
    air,
    climbRateMps,
    airspeedMps,
    thrustN,
    thrustToWeight: thrustN / (allUpMassKg * G0),
    powerRatio,
    inducedPowerW: inducedPowerW(thrustN, airspeedMps, disc) / powerRatio,
    discAreaM2: areaM2,
  }
}

/** The air in the middle of the climb. */
function airOfClimb(x: Float64Array, pressureIsQnh: boolean): Air {
  const field = {
    elevationM: x[X.elevationM]!,
    temperatureC: x[X.temperatureC]!,
    lapseKPerM: x[X.lapseKPerM]!,
    pressureHPa: x[X.pressureHPa]!,
    relativeHumidityPct: x[X.relativeHumidityPct]!,
  }
  return airAbove(field, x[X.startHeightM]! + x[X.heightGainM]! / 2, pressureIsQnh)
}

function climbAtReference({ inducedPowerW, discAreaM2 }: FlownClimb): SteadyClimb {
  const climb = steadyClimb(inducedPowerW, referenceFlight(discAreaM2))
  if (!climb.withinModel) {
    // More power than the reference wing can turn into a steady climb below 45°.
    throw new OutOfRangeError('inducedPowerW', inducedPowerW, 0, climb.powerW)
  }
  return climb
}

function tooSteep(climbRatio: number): OutOfRangeError {
  const bound = STEEPEST_CLIMB_RATIO
  return new OutOfRangeError('climbRateMps / levelAirspeedMps', climbRatio, -bound, bound)
}
