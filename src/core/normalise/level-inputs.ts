import type { UncertainInput } from '../uncertainty/propagate.ts'
import { airMotionInputs } from './inputs/air-motion.ts'
import { BURN_AIR_MOTION_FACTOR, DEFAULT_U } from './inputs/defaults.ts'
import type { KnownSession } from './inputs/known.ts'
import { diameterInput, exactUnlessStated, massInput, modelFactor } from './inputs/run.ts'
import { statedOr } from './inputs/stated.ts'
import { positionsOf } from './inputs/vector.ts'
import type { EnergyUseRun, Equipment, FlownEntry, FuelBurnRun } from './types.ts'

/** The inputs of any level flight; those of what it used come after them. */
export const LEVEL_INPUTS = [
  'durationS',
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

export const L = positionsOf(LEVEL_INPUTS)

type LevelInputs = Readonly<Record<(typeof LEVEL_INPUTS)[number], UncertainInput>>

/** A level flight as submitted, whatever it used. */
export interface SubmittedLevel<R extends FuelBurnRun | EnergyUseRun> {
  readonly entry: FlownEntry
  readonly run: R
  readonly equipment: Equipment
}

/**
 * All that a level flight is worked out from but what it used, each with its standard uncertainty.
 *
 * @param known air and wing of the session, gaps filled
 * @param submitted entry, run and equipment as submitted
 * @param duration what makes the time uncertain, and its default standard uncertainty [s]
 * @returns inputs by name; `partLoadFactor` still without its uncertainty, which needs the air
 * @source METHOD.md, sections e and j
 */
export function levelInputs(
  known: KnownSession,
  { entry, run, equipment }: SubmittedLevel<FuelBurnRun | EnergyUseRun>,
  duration: { readonly source: string; readonly defaultU: number },
): LevelInputs {
  const { air, wing } = known
  const { uncertainty } = run
  const [ownAirMps, sessionAirMps] = airMotionInputs(known.airMotion, BURN_AIR_MOTION_FACTOR)
  return {
    durationS: {
      source: duration.source,
      value: run.durationS,
      standardUncertainty: statedOr(uncertainty, 'durationS', duration.defaultU),
      sharedWithinSession: false,
    },
    heightChangeM: {
      source: 'height not held',
      value: run.heightChangeM,
      standardUncertainty: statedOr(uncertainty, 'heightChangeM', DEFAULT_U.heightChangeM),
      sharedWithinSession: false,
    },
    levelFlyingFactor: {
      ...modelFactor('speed and bank held by hand', DEFAULT_U.levelFlyingRatio),
      sharedWithinSession: false,
    },
    ownAirMps,
    sessionAirMps,
    startMassKg: massInput(entry),
    glideRatio: wing.glideRatio,
    trimSpeedMps: wing.trimSpeedMps,
    trimMassKg: wing.trimMassKg,
    elevationM: air.elevationM,
    temperatureC: air.temperatureC,
    lapseKPerM: air.lapseKPerM,
    pressureHPa: air.pressureHPa,
    relativeHumidityPct: air.relativeHumidityPct,
    heightAboveSiteM: exactUnlessStated('height above the field', run.heightAboveSiteM, {
      uncertainty,
      field: 'heightAboveSiteM',
    }),
    diameterM: diameterInput(equipment),
    partLoadFactor: modelFactor('engine at part load', 0),
  }
}
