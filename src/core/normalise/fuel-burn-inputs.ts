import type { UncertainInput } from '../uncertainty/propagate.ts'
import { airMotionInputs } from './inputs/air-motion.ts'
import { BURN_AIR_MOTION_FACTOR, DEFAULT_U } from './inputs/defaults.ts'
import type { KnownSession } from './inputs/known.ts'
import {
  diameterInput,
  exactUnlessStated,
  massInput,
  modelFactor,
  SAME_FOR_ALL,
} from './inputs/run.ts'
import { statedOr } from './inputs/stated.ts'
import { positionsOf } from './inputs/vector.ts'
import type { Equipment, FlownEntry, FuelBurnRun } from './types.ts'

/** The inputs of a fuel burn, in the order of its model. */
export const BURN_INPUTS = [
  'volumeMl',
  'durationS',
  'fuelTemperatureC',
  'expansionFactor',
  'heightChangeM',
  'levelFlyingFactor',
  'ownAirMps',
  'sessionAirMps',
  'startMassKg',
  'glideRatio',
  'trimSpeedMps',
  'trimMassKg',
  'elevationM',
  'temperatureC',
  'lapseKPerM',
  'pressureHPa',
  'relativeHumidityPct',
  'heightAboveSiteM',
  'diameterM',
  'partLoadFactor',
] as const

export const X = positionsOf(BURN_INPUTS)

type BurnInputs = Readonly<Record<(typeof BURN_INPUTS)[number], UncertainInput>>

/**
 * All that a fuel burn is worked out from, each with its standard uncertainty.
 *
 * @param known air and wing of the session, gaps filled
 * @param submitted entry, run and equipment as submitted
 * @returns inputs by name; `partLoadFactor` still without its uncertainty, which needs the air
 * @source normalisation specification 1, sections e and j
 */
export function burnInputs(
  known: KnownSession,
  submitted: {
    readonly entry: FlownEntry
    readonly run: FuelBurnRun
    readonly equipment: Equipment
  },
): BurnInputs {
  const { air, wing } = known
  const { run } = submitted
  const [ownAirMps, sessionAirMps] = airMotionInputs(known.airMotion, BURN_AIR_MOTION_FACTOR)
  return {
    ...burnReadings(run, known),
    expansionFactor: modelFactor(
      'expansion of the fuel',
      DEFAULT_U.fuelExpansionRatio,
      SAME_FOR_ALL,
    ),
    levelFlyingFactor: {
      ...modelFactor('speed and bank held by hand', DEFAULT_U.levelFlyingRatio),
      sharedWithinSession: false,
    },
    ownAirMps,
    sessionAirMps,
    startMassKg: massInput(submitted.entry),
    glideRatio: wing.glideRatio,
    trimSpeedMps: wing.trimSpeedMps,
    trimMassKg: wing.trimMassKg,
    elevationM: air.elevationM,
    temperatureC: air.temperatureC,
    lapseKPerM: air.lapseKPerM,
    pressureHPa: air.pressureHPa,
    relativeHumidityPct: air.relativeHumidityPct,
    diameterM: diameterInput(submitted.equipment),
    partLoadFactor: modelFactor('engine at part load', 0),
  }
}

/** The readings of the run itself. */
function burnReadings(run: FuelBurnRun, { air }: KnownSession) {
  const { uncertainty } = run
  const own = { sharedWithinSession: false } as const
  return {
    volumeMl: {
      source: 'fuel volume',
      value: run.volumeMl,
      standardUncertainty: statedOr(uncertainty, 'volumeMl', DEFAULT_U.volumeRatio * run.volumeMl),
      ...own,
    },
    durationS: {
      source: 'burn time and instant of starvation',
      value: run.durationS,
      standardUncertainty: statedOr(
        uncertainty,
        'durationS',
        Math.hypot(DEFAULT_U.starvationS, DEFAULT_U.stopwatchS),
      ),
      ...own,
    },
    fuelTemperatureC: {
      source: 'fuel temperature',
      value: run.fuelTemperatureC ?? air.temperatureC.value,
      standardUncertainty: statedOr(uncertainty, 'fuelTemperatureC', DEFAULT_U.fuelTemperatureC),
      sharedWithinSession: true,
    },
    heightChangeM: {
      source: 'height not held',
      value: run.heightChangeM,
      standardUncertainty: statedOr(uncertainty, 'heightChangeM', DEFAULT_U.heightChangeM),
      ...own,
    },
    heightAboveSiteM: exactUnlessStated('height above the field', run.heightAboveSiteM, {
      uncertainty,
      field: 'heightAboveSiteM',
    }),
  }
}
