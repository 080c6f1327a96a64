import { type Model, propagate, type UncertainInput } from '../uncertainty/propagate.ts'
import { airAbove } from './inputs/air.ts'
import { DEFAULT_U } from './inputs/defaults.ts'
import type { KnownSession } from './inputs/known.ts'
import { type MeasuredFigure, measuredFigure } from './inputs/own-figure.ts'
import { standsAt, valuesOf } from './inputs/vector.ts'
import {
  LEVEL_SPEED_INPUTS,
  legsAmong,
  levelSpeedInputs,
  windChangeInput,
  X,
} from './level-speed-inputs.ts'
import type { Air } from './model/air.ts'
import { sameWingAtReferenceMps } from './model/same-wing.ts'
import { type AirspeedAndWind, airspeedAndWind } from './model/true-airspeed.ts'
import { answeringNaN, budgetOf, OUTPUTS, VALUE } from './outcome.ts'
import type { BudgetLine, FlownEntry, LevelSpeedRun, Normalized } from './types.ts'

/** Second output of the model: ln V_ref. */
const LOG_SPEED = 1

/** What happened in a level speed run, worked out from the readings. */
export interface FlownLevelSpeed {
  readonly air: Air
  readonly legs: AirspeedAndWind
  /** Of the same wing at the reference mass and density [m/s]. */
  readonly referenceSpeedMps: number
}

/** Positions of the inputs that the air follows from. */
const AIR_POSITIONS = [
  X.elevationM,
  X.temperatureC,
  X.lapseKPerM,
  X.pressureHPa,
  X.relativeHumidityPct,
  X.heightAboveSiteM,
] as const

/** One level speed run with everything filled in and worked out. */
export interface PreparedLevelSpeed {
  readonly inputs: readonly UncertainInput[]
  readonly pressureIsQnh: boolean
  readonly flown: FlownLevelSpeed
  readonly atTrim: boolean
}

/**
 * Gathers the inputs of a level speed run and works out airspeed and wind.
 *
 * @param known air of the session, gaps filled
 * @param submitted entry and run as submitted
 * @returns the run, ready for {@link normaliseLevelSpeed}
 * @throws {OutOfRangeError} if the legs lie too nearly on one line, or the readings lie outside the
 *   physics
 * @source METHOD.md, sections g and j
 */
export function prepareLevelSpeed(
  known: KnownSession,
  submitted: { readonly entry: FlownEntry; readonly run: LevelSpeedRun },
): PreparedLevelSpeed {
  const inputs = levelSpeedInputs(known, submitted)
  const { pressureIsQnh } = known.air
  const flown = flyLegs(valuesOf(inputs), pressureIsQnh)
  inputs[X.windChangeMps] = windChangeInput(windChangeUncertaintyMps(flown.legs))
  return { inputs, pressureIsQnh, flown, atTrim: submitted.run.atTrim ?? true }
}

/**
 * Airspeed of the same wing at the reference state, with its uncertainty.
 *
 *     V from |g_i − w| = V;   V_ref = V·√[(m_ref/m)(ρ/ρ0)]
 *
 * @param run what {@link prepareLevelSpeed} gave
 * @returns airspeed at the reference state and as flown [m/s], wind; no evidence, because an airspeed
 *   says nothing of engine and propeller
 * @source METHOD.md, section g
 */
export function normaliseLevelSpeed(run: PreparedLevelSpeed): {
  readonly normalized: Normalized
  readonly evidence: null
} {
  const { inputs, flown, atTrim } = run
  const propagation = propagate(inputs, OUTPUTS, levelSpeedModel(run))
  const { standardUncertainty, budget } = budgetOf(inputs, propagation)
  const { trueAirspeedMps, windMps, windFromDeg } = flown.legs
  return {
    normalized: {
      metric: 'levelSpeed',
      value: flown.referenceSpeedMps,
      unit: 'm/s',
      standardUncertainty,
      budget: mergedBySource(budget),
      trueAirspeedMps,
      windMps,
      windFromDeg,
      atTrim,
    },
    evidence: null,
  }
}

/**
 * Airspeed of a level speed run at the reference mass and density, with what its error shares with
 * other runs of the session.
 *
 * @param run what {@link prepareLevelSpeed} gave
 * @returns ln of the airspeed [m/s] and its uncertainties [1], to serve the session as trim speed
 * @source METHOD.md, section g
 */
export function speedShownBy(run: PreparedLevelSpeed): MeasuredFigure {
  const propagation = propagate(run.inputs, OUTPUTS, levelSpeedModel(run))
  return measuredFigure(LEVEL_SPEED_INPUTS, propagation, { output: LOG_SPEED, outputs: OUTPUTS })
}

/**
 * The model of a level speed run: airspeed at the reference state [m/s] and its logarithm.
 *
 * @source METHOD.md, section g
 */
export function levelSpeedModel(run: PreparedLevelSpeed): Model {
  return answeringNaN((x, y) => {
    const knownAir = standsAt(run.inputs, x, AIR_POSITIONS) ? run.flown.air : undefined
    const { referenceSpeedMps } = flyLegs(x, run.pressureIsQnh, knownAir)
    y[VALUE] = referenceSpeedMps
    y[LOG_SPEED] = Math.log(referenceSpeedMps)
  })
}

function flyLegs(x: Float64Array, pressureIsQnh: boolean, knownAir?: Air): FlownLevelSpeed {
  const air = knownAir ?? airOfLevel(x, pressureIsQnh)
  const legs = airspeedAndWind(legsAmong(x))
  const speedMps = legs.trueAirspeedMps + x[X.windChangeMps]!
  const referenceSpeedMps = sameWingAtReferenceMps(speedMps, x[X.allUpMassKg]!, air.densityKgPerM3)
  return { air, legs, referenceSpeedMps }
}

function airOfLevel(x: Float64Array, pressureIsQnh: boolean): Air {
  const field = {
    elevationM: x[X.elevationM]!,
    temperatureC: x[X.temperatureC]!,
    lapseKPerM: x[X.lapseKPerM]!,
    pressureHPa: x[X.pressureHPa]!,
    relativeHumidityPct: x[X.relativeHumidityPct]!,
  }
  return airAbove(field, x[X.heightAboveSiteM]!, pressureIsQnh)
}

/**
 * u of the airspeed for a wind that differs from leg to leg: 0.3 m/s for three legs well spread, and
 * as much more as they are worse spread; where more legs scatter by more than that explains, as much
 * as they scatter.
 */
function windChangeUncertaintyMps({ dilution, rmsMps }: AirspeedAndWind): number {
  const expected = 3 * DEFAULT_U.windChangeMps ** 2
  const seen = rmsMps === null ? 0 : rmsMps ** 2 - DEFAULT_U.groundSpeedMps ** 2
  return dilution * Math.sqrt(Math.max(expected, seen))
}

/** One line for all legs: which of them is off, the budget can't tell. */
function mergedBySource(budget: readonly BudgetLine[]): BudgetLine[] {
  const merged = new Map<string, BudgetLine>()
  for (const line of budget) {
    const before = merged.get(line.source)
    const standardUncertainty = Math.hypot(
      before?.standardUncertainty ?? 0,
      line.standardUncertainty,
    )
    const share = (before?.share ?? 0) + line.share
    merged.set(line.source, { ...line, standardUncertainty, share })
  }
  return [...merged.values()].sort((a, b) => b.share - a.share)
}
