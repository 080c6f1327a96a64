import { RHO0 } from '../atmosphere/constants.ts'
import { densityRatio } from '../atmosphere/density.ts'
import { OutOfRangeError } from '../errors.ts'
import { type Model, propagate, type UncertainInput } from '../uncertainty/propagate.ts'
import { airAbove } from './inputs/air.ts'
import type { KnownSession } from './inputs/known.ts'
import { byPowerRule, bySetup, modelFactor } from './inputs/run.ts'
import { inOrder, valuesOf } from './inputs/vector.ts'
import type { Air } from './model/air.ts'
import { fullThrottlePowerRatio, powerRatioUncertainty } from './model/full-throttle-power.ts'
import { discAreaM2, inducedPowerW } from './model/induced-power.ts'
import { idealStaticThrustN, thrustAlongAxisN } from './model/static-thrust.ts'
import { answeringNaN, budgetOf, evidenceOf, LOG_EVIDENCE, OUTPUTS, VALUE } from './outcome.ts'
import { PULL_INPUTS, pullInputs, X } from './static-pull-inputs.ts'
import type { Drive, Equipment, Evidence, Normalized, StaticPullRun } from './types.ts'

/** u(ln T) per |ln σ|: what the model of constant power leaves out. Source: specification 1, section f. */
const DENSITY_MODEL_RATIO = 0.05

interface PullContext {
  readonly pressureIsQnh: boolean
  readonly drive: Drive
}

/** What happened in a static pull, worked out from the readings. */
export interface FlownPull {
  readonly air: Air
  /** Along the propeller axis, in the wind that blew [N]. */
  readonly thrustN: number
  /** In this air without wind [N]. */
  readonly calmThrustN: number
  /** Full-throttle power in this air over that at ISA sea level [1]. */
  readonly powerRatio: number
  /** In calm air at ISA sea level [N]. */
  readonly standardThrustN: number
  readonly discAreaM2: number
}

/** One static pull with everything filled in and worked out. */
export interface PreparedPull {
  readonly inputs: readonly UncertainInput[]
  readonly context: PullContext
  readonly flown: FlownPull
}

/**
 * Gathers the inputs of a static pull and works out what happened in it.
 *
 * @param known air of the session, gaps filled
 * @param submitted run and equipment as submitted
 * @returns the pull, ready for {@link normaliseStaticPull}
 * @throws {OutOfRangeError} if the readings lie outside the physics
 * @source METHOD.md, sections f and j
 */
export function prepareStaticPull(
  known: KnownSession,
  submitted: { readonly run: StaticPullRun; readonly equipment: Equipment },
): PreparedPull {
  const named = pullInputs(known, submitted)
  const { drive } = submitted.equipment
  const context = { pressureIsQnh: known.air.pressureIsQnh, drive }
  const inputs = inOrder(PULL_INPUTS, named)
  const flown = pull(valuesOf(inputs), context)
  const { powerRatio } = flown
  const sigma = densityRatio(flown.air.densityKgPerM3)
  const logSigma = Math.log(sigma)
  inputs[X.densityFactor] = modelFactor(
    named.densityFactor.source,
    DENSITY_MODEL_RATIO * Math.abs(logSigma),
    bySetup(-logSigma),
  )
  inputs[X.powerRatioFactor] = modelFactor(
    named.powerRatioFactor.source,
    powerRatioUncertainty(drive, powerRatio, sigma) / powerRatio,
    byPowerRule(1 - powerRatio),
  )
  return { inputs, context, flown }
}

/**
 * Brings a static pull to calm standard air at sea level, with its uncertainty budget.
 *
 *     T_std = T·σ^(−⅓)·φ^(−⅔);   evidence: ln T_std
 *
 * A headwind w is taken out by momentum theory at constant power, to first order w/(3v).
 *
 * @param prepared what {@link prepareStaticPull} gave
 * @returns static thrust at ISA sea level [N]; evidence
 * @source METHOD.md, sections f and j
 */
export function normaliseStaticPull(prepared: PreparedPull): {
  readonly normalized: Normalized
  readonly evidence: Evidence
} {
  const { inputs, flown } = prepared
  const propagation = propagate(inputs, OUTPUTS, pullModel(prepared))
  return {
    normalized: {
      metric: 'staticThrust',
      value: flown.standardThrustN,
      unit: 'N',
      ...budgetOf(inputs, propagation),
      thrustN: flown.standardThrustN,
    },
    evidence: evidenceOf('staticThrust', inputs, propagation),
  }
}

/**
 * The model of a static pull: thrust at ISA sea level [N] and its logarithm.
 *
 * @source METHOD.md, section f
 */
export function pullModel({ context }: PreparedPull): Model {
  return answeringNaN((x, y) => {
    const { standardThrustN } = pull(x, context)
    y[VALUE] = standardThrustN
    y[LOG_EVIDENCE] = Math.log(standardThrustN)
  })
}

/** From readings to static thrust at sea level: section f of the specification, in order. */
function pull(x: Float64Array, { pressureIsQnh, drive }: PullContext): FlownPull {
  const air = airAbove(fieldOf(x), 0, pressureIsQnh)
  const thrustN = thrustAlongAxisN(x[X.thrustN]!, x[X.lineAngleDeg]!)
  const areaM2 = discAreaM2(x[X.diameterM]!)
  const disc = { densityKgPerM3: air.densityKgPerM3, areaM2 }
  const powerW = inducedPowerW(thrustN, x[X.headwindMps]!, disc)
  const powerRatio = x[X.powerRatioFactor]! * fullThrottlePowerRatio(drive, air)
  const standardDisc = { densityKgPerM3: RHO0, areaM2 }
  const standardThrustN =
    x[X.densityFactor]! * idealStaticThrustN(powerW / powerRatio, standardDisc)
  if (!(standardThrustN > 0)) {
    throw new OutOfRangeError('standardThrustN', standardThrustN, 0, Number.POSITIVE_INFINITY)
  }
  return {
    air,
    thrustN,
    calmThrustN: idealStaticThrustN(powerW, disc),
    powerRatio,
    standardThrustN,
    discAreaM2: areaM2,
  }
}

function fieldOf(x: Float64Array) {
  return {
    elevationM: x[X.elevationM]!,
    temperatureC: x[X.temperatureC]!,
    lapseKPerM: 0, // the pull is at the field
    pressureHPa: x[X.pressureHPa]!,
    relativeHumidityPct: x[X.relativeHumidityPct]!,
  }
}
