import { densityRatio } from '../atmosphere/density.ts'
import { OutOfRangeError } from '../errors.ts'
import { propagate, type UncertainInput } from '../uncertainty/propagate.ts'
import { BURN_INPUTS, burnInputs, X } from './fuel-burn-inputs.ts'
import { airAbove } from './inputs/air.ts'
import type { KnownSession } from './inputs/known.ts'
import { byCorrection, modelFactor } from './inputs/run.ts'
import { agree, inOrder, valuesOf } from './inputs/vector.ts'
import type { Air } from './model/air.ts'
import {
  GASOLINE_DENSITY_15C_KG_PER_M3,
  gasolineExpansionPerK,
  volumeCorrectionFactor,
} from './model/fuel-volume.ts'
import { discAreaM2 } from './model/induced-power.ts'
import { levelFlowFactor, levelPowerW, partLoadError } from './model/level-power.ts'
import { levelTrimSpeedMps } from './model/trim-speed.ts'
import { answeringNaN, budgetOf, evidenceOf, LOG_EVIDENCE, OUTPUTS, VALUE } from './outcome.ts'
import { REFERENCE, referenceLevelPowerW } from './reference.ts'
import type { Equipment, Evidence, FlownEntry, FuelBurnRun, Normalized } from './types.ts'

const EXPANSION_PER_K = gasolineExpansionPerK(GASOLINE_DENSITY_15C_KG_PER_M3)
const ML_PER_L = 1000
const S_PER_H = 3600

/** What happened in a fuel burn, worked out from the readings. */
export interface FlownBurn {
  readonly air: Air
  /** Mean all-up mass over the burn [kg]. */
  readonly meanMassKg: number
  readonly airspeedMps: number
  /** As measured, volume at 15 °C [L/h]. */
  readonly fuelFlowLPerH: number
  /** Factor for height not held [1]. */
  readonly levelFactor: number
  /** Induced power of level flight in this air [W]. */
  readonly levelPowerW: number
  /** In level flight at the reference state, volume at 15 °C [L/h]. */
  readonly referenceFlowLPerH: number
}

/** Positions of the inputs that the air of the burn follows from. */
const AIR_POSITIONS = [
  X.elevationM,
  X.temperatureC,
  X.lapseKPerM,
  X.pressureHPa,
  X.relativeHumidityPct,
  X.heightAboveSiteM,
] as const

/** One fuel burn with everything filled in and worked out. */
export interface PreparedBurn {
  readonly inputs: readonly UncertainInput[]
  readonly pressureIsQnh: boolean
  readonly flown: FlownBurn
}

/**
 * Gathers the inputs of a fuel burn and works out what happened in it.
 *
 * @param known air and wing of the session, gaps filled
 * @param submitted entry, run and equipment as submitted
 * @returns the burn, ready for {@link normaliseFuelBurn}
 * @throws {OutOfRangeError} if the drive burns no fuel or the readings lie outside the physics
 * @source normalisation specification 1, sections e and j
 */
export function prepareFuelBurn(
  known: KnownSession,
  submitted: {
    readonly entry: FlownEntry
    readonly run: FuelBurnRun
    readonly equipment: Equipment
  },
): PreparedBurn {
  if (submitted.equipment.drive === 'electric') {
    throw new OutOfRangeError('volumeMl of an electric drive', submitted.run.volumeMl, 0, 0)
  }
  const { pressureIsQnh } = known.air
  const named = burnInputs(known, submitted)
  const inputs = inOrder(BURN_INPUTS, named)
  const flown = flyBurn(valuesOf(inputs), pressureIsQnh)
  const partLoad = partLoadError(
    REFERENCE.allUpMassKg / flown.meanMassKg,
    densityRatio(flown.air.densityKgPerM3),
  )
  inputs[X.partLoadFactor] = modelFactor(
    named.partLoadFactor.source,
    partLoad.standardUncertainty,
    byCorrection(partLoad.correction),
  )
  return { inputs, pressureIsQnh, flown }
}

/**
 * Brings a fuel burn to level flight at the reference state, with its uncertainty budget.
 *
 *     ff = 3600·V15/t · 1/(1 + G·Vc/V) · [T(V + v)]_ref/[T(V + v)];   evidence: ln ff
 *
 * @param burn what {@link prepareFuelBurn} gave
 * @returns fuel flow at the reference state, volume at 15 °C [L/h]; evidence
 * @source normalisation specification 1, sections e and j
 */
export function normaliseFuelBurn(burn: PreparedBurn): {
  readonly normalized: Normalized
  readonly evidence: Evidence
} {
  const { inputs, pressureIsQnh, flown } = burn
  const nominal = valuesOf(inputs)
  const model = answeringNaN((x, y) => {
    const knownAir = agree(x, nominal, AIR_POSITIONS) ? flown.air : undefined
    const { referenceFlowLPerH } = flyBurn(x, pressureIsQnh, knownAir)
    y[VALUE] = referenceFlowLPerH
    y[LOG_EVIDENCE] = Math.log(referenceFlowLPerH)
  })
  const propagation = propagate(inputs, OUTPUTS, model)
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

/** From readings to the flow at the reference state: section e of the specification, in order. */
function flyBurn(x: Float64Array, pressureIsQnh: boolean, knownAir?: Air): FlownBurn {
  const air = knownAir ?? airOfBurn(x, pressureIsQnh)
  const expansion = x[X.expansionFactor]! * EXPANSION_PER_K
  const volumeFactor = volumeCorrectionFactor(expansion, x[X.fuelTemperatureC]!)
  const litres = (x[X.volumeMl]! / ML_PER_L) * volumeFactor
  const burnedKg = (litres * GASOLINE_DENSITY_15C_KG_PER_M3) / 1000
  const meanMassKg = x[X.startMassKg]! - burnedKg / 2

  const glideRatio = x[X.glideRatio]!
  const trim = { speedMps: x[X.trimSpeedMps]!, atAllUpMassKg: x[X.trimMassKg]! }
  const airspeedMps = levelTrimSpeedMps(trim, meanMassKg, air.densityKgPerM3)
  const durationS = x[X.durationS]!
  const climbRateMps = x[X.heightChangeM]! / durationS - x[X.ownAirMps]! - x[X.sessionAirMps]!
  const levelFactor = levelFlowFactor(climbRateMps, glideRatio, airspeedMps)
  const area = discAreaM2(x[X.diameterM]!)
  const power = levelPowerW({
    allUpMassKg: meanMassKg,
    glideRatio,
    airspeedMps,
    densityKgPerM3: air.densityKgPerM3,
    discAreaM2: area,
  })
  const fuelFlowLPerH = (S_PER_H * litres) / durationS
  const factors = x[X.levelFlyingFactor]! * x[X.partLoadFactor]! * levelFactor
  const referenceFlowLPerH = (fuelFlowLPerH * factors * referenceLevelPowerW(area)) / power
  if (!(referenceFlowLPerH > 0)) {
    // The wing sank at least as fast as it glides: such a burn says nothing of level flight.
    throw new OutOfRangeError('levelFactor', levelFactor, 0, Number.POSITIVE_INFINITY)
  }
  return {
    air,
    meanMassKg,
    airspeedMps,
    fuelFlowLPerH,
    levelFactor,
    levelPowerW: power,
    referenceFlowLPerH,
  }
}

/** The air at the height of the burn. */
function airOfBurn(x: Float64Array, pressureIsQnh: boolean): Air {
  const field = {
    elevationM: x[X.elevationM]!,
    temperatureC: x[X.temperatureC]!,
    lapseKPerM: x[X.lapseKPerM]!,
    pressureHPa: x[X.pressureHPa]!,
    relativeHumidityPct: x[X.relativeHumidityPct]!,
  }
  return airAbove(field, x[X.heightAboveSiteM]!, pressureIsQnh)
}
