import { OutOfRangeError } from '../errors.ts'
import { type Model, propagate, type UncertainInput } from '../uncertainty/propagate.ts'
import { DEFAULT_U } from './inputs/defaults.ts'
import type { KnownSession } from './inputs/known.ts'
import { linkWing } from './inputs/linked.ts'
import { statedOr } from './inputs/stated.ts'
import { inOrder, positionsOf, standsAt, valuesOf } from './inputs/vector.ts'
import {
  driveInput,
  type FlownLevel,
  flyLevel,
  LEVEL_AIR_POSITIONS,
  type LevelContext,
  partLoadOf,
} from './level-flight.ts'
import { LEVEL_INPUTS, levelInputs, type SubmittedLevel } from './level-inputs.ts'
import type { Air } from './model/air.ts'
import { MOTOR_PART_LOAD } from './model/drive-error.ts'
import { answeringNaN, budgetOf, evidenceOf, LOG_EVIDENCE, OUTPUTS, VALUE } from './outcome.ts'
import type { EnergyUseRun, Evidence, Normalized } from './types.ts'

const S_PER_H = 3600

/** The inputs of an energy use, in the order of its model. */
const ENERGY_INPUTS = [...LEVEL_INPUTS, 'energyWh'] as const
const X = positionsOf(ENERGY_INPUTS)

/** What happened in a level flight on a battery, worked out from the readings. */
export interface FlownEnergy extends FlownLevel {
  /** As measured [W]. */
  readonly electricPowerW: number
  /** In level flight at the reference state [W]. */
  readonly referencePowerW: number
}

/** One energy use with everything filled in and worked out. */
export interface PreparedEnergy {
  readonly inputs: readonly UncertainInput[]
  readonly context: LevelContext
  readonly flown: FlownEnergy
}

/**
 * Gathers the inputs of an energy use and works out what happened in it.
 *
 * @param known air and wing of the session, gaps filled
 * @param submitted entry, run and equipment as submitted
 * @returns the flight, ready for {@link normaliseEnergyUse}
 * @throws {OutOfRangeError} if the drive is not electric or the readings lie outside the physics
 * @source METHOD.md, sections e and j
 */
export function prepareEnergyUse(
  known: KnownSession,
  submitted: SubmittedLevel<EnergyUseRun>,
): PreparedEnergy {
  const { run, equipment } = submitted
  if (equipment.drive !== 'electric') {
    throw new OutOfRangeError('energyWh of a piston engine', run.energyWh, 0, 0)
  }
  const model = { names: ENERGY_INPUTS, massName: 'startMassKg' } as const
  const { inputs: named, links } = linkWing(energyInputs(known, submitted), model, known.wing)
  const context = { pressureIsQnh: known.air.pressureIsQnh, wing: links }
  const inputs = inOrder(ENERGY_INPUTS, named)
  const flown = flyOnBattery(valuesOf(inputs), context)
  const partLoad = partLoadOf(flown, MOTOR_PART_LOAD)
  inputs[X.partLoadFactor] = driveInput('drive at part load', partLoad, equipment.drive)
  return { inputs, context, flown }
}

function energyInputs(known: KnownSession, submitted: SubmittedLevel<EnergyUseRun>) {
  const { energyWh, uncertainty } = submitted.run
  const duration = {
    source: 'time between the energy readings',
    defaultU: DEFAULT_U.energyReadingS,
  }
  return {
    ...levelInputs(known, submitted, duration),
    energyWh: {
      source: 'energy out of the battery',
      value: energyWh,
      standardUncertainty: statedOr(uncertainty, 'energyWh', DEFAULT_U.energyRatio * energyWh),
      sharedWithinSession: false,
    },
  }
}

/**
 * Brings an energy use to level flight at the reference state, with its uncertainty budget.
 *
 *     P = 3600·E/t · 1/(1 + G·Vc/V) · [T(V + v)]_ref/[T(V + v)];   evidence: ln P
 *
 * @param energy what {@link prepareEnergyUse} gave
 * @returns electric power at the reference state [W]; evidence
 * @source METHOD.md, sections e and j
 */
export function normaliseEnergyUse(energy: PreparedEnergy): {
  readonly normalized: Normalized
  readonly evidence: Evidence
} {
  const { inputs, flown } = energy
  const propagation = propagate(inputs, OUTPUTS, energyModel(energy))
  return {
    normalized: {
      metric: 'electricPower',
      value: flown.referencePowerW,
      unit: 'W',
      ...budgetOf(inputs, propagation),
      electricPowerW: flown.referencePowerW,
    },
    evidence: evidenceOf('electricPower', inputs, propagation),
  }
}

/**
 * The model of an energy use: electric power at the reference state [W] and its logarithm.
 *
 * @source METHOD.md, section e
 */
export function energyModel({ inputs, context, flown: { air } }: PreparedEnergy): Model {
  return answeringNaN((x, y) => {
    const knownAir = standsAt(inputs, x, LEVEL_AIR_POSITIONS) ? air : undefined
    const { referencePowerW } = flyOnBattery(x, context, knownAir)
    y[VALUE] = referencePowerW
    y[LOG_EVIDENCE] = Math.log(referencePowerW)
  })
}

/** From readings to the power at the reference state; a battery keeps its mass. */
function flyOnBattery(x: Float64Array, context: LevelContext, knownAir?: Air): FlownEnergy {
  const level = flyLevel(x, { meanMassKg: x[X.startMassKg]!, knownAir }, context)
  const electricPowerW = (S_PER_H * x[X.energyWh]!) / x[X.durationS]!
  // Spelled out for speed, as in a fuel burn.
  return {
    air: level.air,
    meanMassKg: level.meanMassKg,
    airspeedMps: level.airspeedMps,
    thrustN: level.thrustN,
    levelFactor: level.levelFactor,
    levelPowerW: level.levelPowerW,
    toReference: level.toReference,
    electricPowerW,
    referencePowerW: electricPowerW * level.toReference,
  }
}
