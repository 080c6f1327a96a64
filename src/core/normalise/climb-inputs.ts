import type { UncertainInput } from '../uncertainty/propagate.ts'
import { airMotionInputs } from './inputs/air-motion.ts'
import { BAROMETRIC_SHARE, DEFAULT_U } from './inputs/defaults.ts'
import type { KnownSession } from './inputs/known.ts'
import {
  diameterInput,
  exactUnlessStated,
  FOLLOWS_PILOT,
  gainInput,
  massInput,
  modelFactor,
  SAME_FOR_ALL,
} from './inputs/run.ts'
import { statedOr } from './inputs/stated.ts'
import { positionsOf } from './inputs/vector.ts'
import type { ClimbRun, Equipment, FlownEntry } from './types.ts'

/** The inputs of a climb, in the order of its model. */
export const CLIMB_INPUTS = [
  'heightGainM',
  'gainScale',
  'barometricShare',
  'durationS',
  'ownAirMps',
  'sessionAirMps',
  'allUpMassKg',
  'glideRatio',
  'trimSpeedMps',
  'trimMassKg',
  'elevationM',
  'temperatureC',
  'lapseKPerM',
  'pressureHPa',
  'relativeHumidityPct',
  'startHeightM',
  'diameterM',
  'thrustFactor',
  'powerRatioFactor',
] as const

export const X = positionsOf(CLIMB_INPUTS)

type ClimbInputs = Readonly<Record<(typeof CLIMB_INPUTS)[number], UncertainInput>>

/**
 * All that a climb is worked out from, each with its standard uncertainty.
 *
 * @param known air and wing of the session, gaps filled
 * @param flown entry, run and equipment as submitted
 * @returns inputs by name; `powerRatioFactor` still without its uncertainty, which needs the air
 * @source normalisation specification 1, section j
 */
export function climbInputs(
  known: KnownSession,
  flown: { readonly entry: FlownEntry; readonly run: ClimbRun; readonly equipment: Equipment },
): ClimbInputs {
  const { air, wing } = known
  const [ownAirMps, sessionAirMps] = airMotionInputs(known.airMotion, 1)
  return {
    ...climbReadings(flown.run),
    ownAirMps,
    sessionAirMps,
    allUpMassKg: massInput(flown.entry),
    glideRatio: wing.glideRatio,
    trimSpeedMps: wing.trimSpeedMps,
    trimMassKg: wing.trimMassKg,
    elevationM: air.elevationM,
    temperatureC: air.temperatureC,
    lapseKPerM: air.lapseKPerM,
    pressureHPa: air.pressureHPa,
    relativeHumidityPct: air.relativeHumidityPct,
    diameterM: diameterInput(flown.equipment),
    thrustFactor: modelFactor('thrust from climb', DEFAULT_U.thrustModelRatio, SAME_FOR_ALL),
    powerRatioFactor: modelFactor('full-throttle power in this air', 0),
  }
}

/** The readings of the run itself. */
function climbReadings(run: ClimbRun) {
  const share = BAROMETRIC_SHARE[run.heightSource]
  const compensated = run.heightSource === 'barometricTemperatureCompensated'
  return {
    heightGainM: gainInput(run),
    gainScale: modelFactor(
      'temperature compensation of the instrument',
      compensated ? DEFAULT_U.temperatureCompensationRatio : 0,
      FOLLOWS_PILOT,
    ),
    barometricShare: {
      source: 'kind of height reading',
      value: share.value,
      standardUncertainty: share.u,
      sharedWithinSession: true,
      common: FOLLOWS_PILOT,
    },
    durationS: {
      source: 'climb time',
      value: run.durationS,
      standardUncertainty: statedOr(run.uncertainty, 'durationS', DEFAULT_U.stopwatchS),
      sharedWithinSession: false,
    },
    startHeightM: exactUnlessStated('height at the start', run.startHeightAboveSiteM, {
      uncertainty: run.uncertainty,
      field: 'startHeightAboveSiteM',
    }),
  }
}
