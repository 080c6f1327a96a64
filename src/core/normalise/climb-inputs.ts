import type { UncertainInput } from '../uncertainty/propagate.ts'
import { airMotionInputs } from './inputs/air-motion.ts'
import { DEFAULT_U } from './inputs/defaults.ts'
import { heightCorrectionInputs, heightInput } from './inputs/height-reading.ts'
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
 * All that a climb is worked out from, each with its standard uncertainty. One literal, without spreads:
 * every run of every submission passes here.
 *
 * @param known air and wing of the session, gaps filled
 * @param flown entry, run and equipment as submitted
 * @returns inputs by name; `powerRatioFactor` still without its uncertainty, which needs the air
 * @source METHOD.md, section j
 */
export function climbInputs(
  known: KnownSession,
  flown: { readonly entry: FlownEntry; readonly run: ClimbRun; readonly equipment: Equipment },
): ClimbInputs {
  const { air, wing } = known
  const { entry, run, equipment } = flown
  const [ownAirMps, sessionAirMps] = airMotionInputs(known.airMotion, 1)
  const { gainScale, barometricShare } = heightCorrectionInputs(run.heightSource)
  return {
    heightGainM: gainInput(run),
    gainScale,
    barometricShare,
    durationS: {
      source: 'climb time',
      value: run.durationS,
      standardUncertainty: statedOr(run.uncertainty, 'durationS', DEFAULT_U.stopwatchS),
      sharedWithinSession: false,
    },
    ownAirMps,
    sessionAirMps,
    allUpMassKg: massInput(entry),
    glideRatio: wing.glideRatio,
    trimSpeedMps: wing.trimSpeedMps,
    trimMassKg: wing.trimMassKg,
    elevationM: air.elevationM,
    temperatureC: air.temperatureC,
    lapseKPerM: air.lapseKPerM,
    pressureHPa: air.pressureHPa,
    relativeHumidityPct: air.relativeHumidityPct,
    startHeightM: exactUnlessStated('height at the start', run.startHeightAboveSiteM, {
      uncertainty: run.uncertainty,
      field: 'startHeightAboveSiteM',
    }),
    diameterM: diameterInput(equipment),
    thrustFactor: modelFactor('thrust from climb', DEFAULT_U.thrustModelRatio, SAME_FOR_ALL),
    powerRatioFactor: modelFactor('full-throttle power in this air', 0),
  }
}

/** The height gain as the instrument showed it. */
function gainInput({ heightGainM, heightSource, uncertainty }: ClimbRun): UncertainInput {
  return heightInput({
    source: 'height gain',
    field: 'heightGainM',
    heightM: heightGainM,
    heightSource,
    uncertainty,
  })
}
