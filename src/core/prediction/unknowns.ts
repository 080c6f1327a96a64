import { densityRatio } from '../atmosphere/density.ts'
import { DEFAULT_U } from '../normalise/inputs/defaults.ts'
import { airAt } from '../normalise/model/air.ts'
import {
  ENGINE_PART_LOAD,
  MOTOR_PART_LOAD,
  mixtureError,
  partLoadError,
  standardUncertaintyOf,
} from '../normalise/model/drive-error.ts'
import {
  fullThrottlePowerRatio,
  powerRatioUncertainty,
} from '../normalise/model/full-throttle-power.ts'
import { REFERENCE } from '../normalise/reference.ts'
import type { Drive } from '../normalise/types.ts'
import { type Known, stateOf } from './asked.ts'
import { INPUTS, type InputName } from './forecast.ts'
import { type Basis, type PredictionQuestion, refusalOfEvidence } from './question.ts'
import type { Unknown } from './spread.ts'

/** Expected engine speed at full throttle over the maker's rated one [1]: editorial, the propeller decides. */
const RATED_RPM_U_RATIO = 0.1
/** A factor that stands for what a model leaves out, within anything it could be. */
const FACTOR_RANGE = [0.01, 10] as const
const NOT_KNOWN: Known = { value: Number.NaN, u: 0 }

/**
 * All unknowns of a prediction, in the order of the forecast.
 *
 * @param question setup, complete conditions and the fits
 * @param about the mean over pilots and evenings, or a further evening of a further pilot
 * @returns values with their uncertainties; NaN for what is not known
 * @throws {OutOfRangeError} if the air lies outside what the model is valid for
 * @source METHOD.md, sections d, e and j
 */
export function unknownsOf(question: PredictionQuestion, about: 'mean' | 'nextSession'): Unknown[] {
  const { setup, conditions } = question
  const { temperatureC, tankL } = conditions
  const fuelC = { value: temperatureC.value, u: DEFAULT_U.fuelTemperatureC }
  const rpm = setup.ratedRpm
  const rated = rpm === null ? NOT_KNOWN : { value: rpm, u: RATED_RPM_U_RATIO * rpm }
  const named: Record<InputName, Unknown> = {
    logPower: estimateOf(question, 'inducedPower', about),
    logFlow: estimateOf(question, 'fuelFlow', about),
    logElectric: estimateOf(question, 'electricPower', about),
    logThrust: estimateOf(question, 'staticThrust', about),
    allUpMassKg: unknown('all-up mass', conditions.allUpMassKg, [20, 1000]),
    temperatureC: unknown('air temperature', temperatureC, [-80, 60]),
    stationPressureHPa: unknown('air pressure', conditions.stationPressureHPa, [300, 1300]),
    relativeHumidityPct: unknown('relative humidity', conditions.relativeHumidityPct, [0, 100]),
    glideRatio: unknown('glide ratio', conditions.glideRatio, [4, 20]),
    trimSpeedMps: unknown('trim speed', conditions.trimSpeedMps, [1, 60]),
    trimMassKg: unknown('mass at the trim speed', conditions.trimAtAllUpMassKg, [20, 1000]),
    ...modelFactors(question),
    tankL: unknown('fuel in the tank', tankL ?? NOT_KNOWN, [0, 1000]),
    fuelTemperatureC: unknown('fuel temperature', fuelC, [-60, 90]),
    ratedRpm: unknown('engine speed with this propeller', rated, [0, 1e5]),
  }
  return INPUTS.map((name) => named[name])
}

function unknown(
  source: string,
  { value, u }: Known,
  [min, max]: readonly [number, number],
): Unknown {
  return { source, value, standardUncertainty: u, min, max }
}

/** The fit's estimate of the setup; not known where it may not be used. */
function estimateOf(
  question: PredictionQuestion,
  basis: Basis,
  about: 'mean' | 'nextSession',
): Unknown {
  const source =
    basis === 'staticThrust' ? 'pulls behind the estimate' : 'flights behind the estimate'
  if (refusalOfEvidence(question, basis) !== null) {
    return { source, value: Number.NaN, standardUncertainty: 0 }
  }
  const { setupId } = question.setup
  const evidence = question.evidence[basis]
  const spread =
    about === 'mean'
      ? evidence.view.contrast([{ setup: setupId, weight: 1 }])
      : evidence.nextSession(setupId)
  return {
    source,
    value: evidence.view.logQuantityOf(setupId)!,
    standardUncertainty: spread.standardError,
    degreesOfFreedom: spread.degreesOfFreedom,
  }
}

/** What the models leave out between the reference state and these conditions. */
function modelFactors({ setup, conditions }: PredictionQuestion) {
  const { drive } = setup.equipment
  const state = stateOf(conditions)
  const air = airAt(state)
  const sigma = densityRatio(air.densityKgPerM3)
  const phi = fullThrottlePowerRatio(drive, air)
  const powerRatio = { value: 1, u: powerRatioUncertainty(drive, phi, sigma) / phi }
  const massRatio = REFERENCE.allUpMassKg / state.allUpMassKg
  const partLoad = { value: 1, u: partLoadUncertainty(drive, massRatio, sigma) }
  return {
    powerRatioFactor: unknown('engine power in this air', powerRatio, FACTOR_RANGE),
    partLoadFactor: unknown(
      drive === 'electric' ? 'drive at part load' : 'engine at part load',
      partLoad,
      FACTOR_RANGE,
    ),
  }
}

/** A motor has no mixture, and next to no friction. */
function partLoadUncertainty(drive: Drive, massRatio: number, sigma: number): number {
  if (drive === 'electric') {
    return standardUncertaintyOf(partLoadError(MOTOR_PART_LOAD, massRatio, sigma))
  }
  const friction = partLoadError(ENGINE_PART_LOAD, massRatio, sigma)
  return Math.hypot(standardUncertaintyOf(friction), standardUncertaintyOf(mixtureError(sigma)))
}
