import { densityRatio } from '../atmosphere/density.ts'
import { OutOfRangeError } from '../errors.ts'
import { type Model, propagate, type UncertainInput } from '../uncertainty/propagate.ts'
import { BURN_INPUTS, burnInputs, X } from './fuel-burn-inputs.ts'
import type { KnownSession } from './inputs/known.ts'
import { linkWing } from './inputs/linked.ts'
import { inOrder, standsAt, valuesOf } from './inputs/vector.ts'
import {
  driveInput,
  type FlownLevel,
  flyLevel,
  LEVEL_AIR_POSITIONS,
  type LevelContext,
  partLoadOf,
} from './level-flight.ts'
import type { SubmittedLevel } from './level-inputs.ts'
import type { Air } from './model/air.ts'
import { ENGINE_PART_LOAD, mixtureError } from './model/drive-error.ts'
import {
  GASOLINE_DENSITY_15C_KG_PER_M3,
  gasolineExpansionPerK,
  volumeCorrectionFactor,
} from './model/fuel-volume.ts'
import { answeringNaN, budgetOf, evidenceOf, LOG_EVIDENCE, OUTPUTS, VALUE } from './outcome.ts'
import type { Evidence, FuelBurnRun, Normalized } from './types.ts'

const EXPANSION_PER_K = gasolineExpansionPerK(GASOLINE_DENSITY_15C_KG_PER_M3)
const ML_PER_L = 1000
const S_PER_H = 3600

/** What happened in a fuel burn, worked out from the readings. */
export interface FlownBurn extends FlownLevel {
  /** As measured, volume at 15 °C [L/h]. */
  readonly fuelFlowLPerH: number
  /** In level flight at the reference state, volume at 15 °C [L/h]. */
  readonly referenceFlowLPerH: number
}

/** One fuel burn with everything filled in and worked out. */
export interface PreparedBurn {
  readonly inputs: readonly UncertainInput[]
  readonly context: LevelContext
  readonly flown: FlownBurn
}

/**
 * Gathers the inputs of a fuel burn and works out what happened in it.
 *
 * @param known air and wing of the session, gaps filled
 * @param submitted entry, run and equipment as submitted
 * @returns the burn, ready for {@link normaliseFuelBurn}
 * @throws {OutOfRangeError} if the drive burns no fuel or the readings lie outside the physics
 * @source METHOD.md, sections e and j
 */
export function prepareFuelBurn(
  known: KnownSession,
  submitted: SubmittedLevel<FuelBurnRun>,
): PreparedBurn {
  if (submitted.equipment.drive === 'electric') {
    throw new OutOfRangeError('volumeMl of an electric drive', submitted.run.volumeMl, 0, 0)
  }
  const model = { names: BURN_INPUTS, massName: 'startMassKg' } as const
  const { inputs: named, links } = linkWing(burnInputs(known, submitted), model, known.wing)
  const context = { pressureIsQnh: known.air.pressureIsQnh, wing: links }
  const inputs = inOrder(BURN_INPUTS, named)
  const flown = flyBurn(valuesOf(inputs), context)
  const { drive } = submitted.equipment
  const friction = partLoadOf(flown, ENGINE_PART_LOAD)
  const mixture = mixtureError(densityRatio(flown.air.densityKgPerM3))
  inputs[X.partLoadFactor] = driveInput(named.partLoadFactor.source, friction, drive)
  inputs[X.mixtureFactor] = driveInput(named.mixtureFactor.source, mixture, drive)
  return { inputs, context, flown }
}

/**
 * Brings a fuel burn to level flight at the reference state, with its uncertainty budget.
 *
 *     ff = 3600·V15/t · 1/(1 + G·Vc/V) · [T(V + v)]_ref/[T(V + v)];   evidence: ln ff
 *
 * @param burn what {@link prepareFuelBurn} gave
 * @returns fuel flow at the reference state, volume at 15 °C [L/h]; evidence
 * @source METHOD.md, sections e and j
 */
export function normaliseFuelBurn(burn: PreparedBurn): {
  readonly normalized: Normalized
  readonly evidence: Evidence
} {
  const { inputs, flown } = burn
  const propagation = propagate(inputs, OUTPUTS, burnModel(burn))
  return {
    normalized: {
      metric: 'fuelFlow',
      value: flown.referenceFlowLPerH,
      unit: 'L/h',
      ...budgetOf(inputs, propagation),
      fuelFlowLPerH: flown.referenceFlowLPerH,
    },
    evidence: evidenceOf('fuelFlow', inputs, propagation),
  }
}

/**
 * The model of a fuel burn: flow at the reference state [L/h] and its logarithm.
 *
 * @source METHOD.md, section e
 */
export function burnModel({ inputs, context, flown: { air } }: PreparedBurn): Model {
  return answeringNaN((x, y) => {
    const knownAir = standsAt(inputs, x, LEVEL_AIR_POSITIONS) ? air : undefined
    const { referenceFlowLPerH } = flyBurn(x, context, knownAir)
    y[VALUE] = referenceFlowLPerH
    y[LOG_EVIDENCE] = Math.log(referenceFlowLPerH)
  })
}

/** From readings to the flow at the reference state: section e of the specification, in order. */
function flyBurn(x: Float64Array, context: LevelContext, knownAir?: Air): FlownBurn {
  const expansion = x[X.expansionFactor]! * EXPANSION_PER_K
  const volumeFactor = volumeCorrectionFactor(expansion, x[X.fuelTemperatureC]!)
  const litres = (x[X.volumeMl]! / ML_PER_L) * volumeFactor
  const burnedKg = (litres * GASOLINE_DENSITY_15C_KG_PER_M3) / 1000
  const meanMassKg = x[X.startMassKg]! - burnedKg / 2
  const level = flyLevel(x, { meanMassKg, knownAir }, context)
  const fuelFlowLPerH = (S_PER_H * litres) / x[X.durationS]!
  const toReference = level.toReference * x[X.mixtureFactor]!
  // Spelled out: this runs twice for each uncertain input, and spreading took half of the time.
  return {
    air: level.air,
    meanMassKg: level.meanMassKg,
    airspeedMps: level.airspeedMps,
    thrustN: level.thrustN,
    levelFactor: level.levelFactor,
    levelPowerW: level.levelPowerW,
    toReference,
    fuelFlowLPerH,
    referenceFlowLPerH: fuelFlowLPerH * toReference,
  }
}
