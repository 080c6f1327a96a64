import {
  atDistanceDb,
  backgroundCorrectionDb,
  fullCorrectionDb,
  LEAST_DISTANCE_M,
  LEAST_MARGIN_DB,
  NEPER_PER_DB,
  REFERENCE_DISTANCE_M,
} from '../acoustics/level.ts'
import { type Model, propagate, type UncertainInput } from '../uncertainty/propagate.ts'
import { DEFAULT_U, SOUND_U_DB } from './inputs/defaults.ts'
import { FOLLOWS_PILOT, SAME_FOR_ALL } from './inputs/run.ts'
import { statedOr } from './inputs/stated.ts'
import { inOrder, positionsOf, valuesOf } from './inputs/vector.ts'
import { answeringNaN, budgetOf, evidenceOf, LOG_EVIDENCE, OUTPUTS, VALUE } from './outcome.ts'
import type { Evidence, Normalized, SoundLevelRun } from './types.ts'

/** The inputs of a sound level, in the order of its model. */
const SOUND_INPUTS = [
  'levelDbA',
  'meterDb',
  'backgroundDbA',
  'closenessDb',
  'distanceM',
  'spreadingFactor',
] as const
const X = positionsOf(SOUND_INPUTS)

/** One sound level with everything filled in and worked out. */
export interface PreparedSound {
  readonly inputs: readonly UncertainInput[]
  readonly run: SoundLevelRun
  /** Of the source alone, at the reference distance where the distance rule applies [dB]. */
  readonly levelDb: number
}

/**
 * Gathers the inputs of a sound level and works out that of the source alone.
 *
 * Closer than 6 dB to the background the correction stops and all of it counts as uncertain. The error of
 * the meter moves level and background alike, so it does not touch the background
 * correction; it follows the pilot from session to session.
 *
 * @param run the run as submitted
 * @returns the level, ready for {@link normaliseSoundLevel}
 * @throws {OutOfRangeError} if the level does not stand above the background
 * @source METHOD.md, sections h and j
 */
export function prepareSoundLevel(run: SoundLevelRun): PreparedSound {
  const inputs = inOrder(SOUND_INPUTS, soundInputs(run))
  return { inputs, run, levelDb: levelOfSource(valuesOf(inputs), run) }
}

/**
 * Whether the distance rule takes this level to the reference distance.
 *
 * @param run the run as submitted
 * @returns true at a distance of 2.5 m or more
 * @source METHOD.md, section h
 */
export function isBroughtToReferenceDistance(run: SoundLevelRun): boolean {
  return run.position === 'distance' && (run.distanceM ?? 0) >= LEAST_DISTANCE_M
}

function soundInputs(run: SoundLevelRun) {
  const { levelDbA, backgroundDbA, distanceM, uncertainty } = run
  const own = { sharedWithinSession: false } as const
  const meterU = statedOr(uncertainty, 'levelDbA', SOUND_U_DB[run.instrument ?? 'phone'])
  const backgroundU = statedOr(uncertainty, 'backgroundDbA', DEFAULT_U.backgroundDb)
  const distanceU = DEFAULT_U.soundDistanceRatio * (distanceM ?? 0)
  const margin = backgroundDbA === undefined ? Number.POSITIVE_INFINITY : levelDbA - backgroundDbA
  return {
    levelDbA: {
      source: 'place of the microphone and its surroundings',
      value: levelDbA,
      standardUncertainty: DEFAULT_U.soundSiteDb,
      ...own,
    },
    meterDb: {
      source: 'sound level meter',
      value: 0,
      standardUncertainty: meterU,
      sharedWithinSession: true,
      common: FOLLOWS_PILOT,
    },
    backgroundDbA: {
      source: 'background level',
      value: backgroundDbA ?? Number.NEGATIVE_INFINITY,
      standardUncertainty: backgroundDbA === undefined ? 0 : backgroundU,
      ...own,
    },
    closenessDb: {
      source: 'background closer than 6 dB',
      value: 0,
      standardUncertainty: margin < LEAST_MARGIN_DB ? fullCorrectionDb(margin) : 0,
      ...own,
    },
    distanceM: {
      source: 'distance of the microphone',
      value: distanceM ?? 0,
      standardUncertainty: statedOr(uncertainty, 'distanceM', distanceU),
      min: isBroughtToReferenceDistance(run) ? LEAST_DISTANCE_M : 0,
      ...own,
    },
    spreadingFactor: {
      source: 'ground, air and wind on the way',
      value: 1,
      standardUncertainty: isBroughtToReferenceDistance(run) ? DEFAULT_U.spreadingRatio : 0,
      sharedWithinSession: true,
      common: SAME_FOR_ALL,
    },
  }
}

/**
 * Brings a sound level to that of the source alone, at a distance to 20 m, with its budget.
 *
 *     L = L_measured − K1;  at a distance of 2.5 m or more  − 20·lg(20 m/r);   evidence: L·ln(10)/20
 *
 * Ear and distance are never converted into one another, and the air makes no difference. Only full
 * throttle is evidence, and at a distance only what the distance rule could take to 20 m.
 *
 * @param prepared what {@link prepareSoundLevel} gave
 * @returns level [dB(A)]; evidence as ln of sound pressure over 20 µPa, or null
 * @source METHOD.md, sections h and j
 */
export function normaliseSoundLevel(prepared: PreparedSound): {
  readonly normalized: Normalized
  readonly evidence: Evidence | null
} {
  const { inputs, run, levelDb } = prepared
  const { position, power } = run
  const propagation = propagate(inputs, OUTPUTS, soundModel(prepared))
  const converted = isBroughtToReferenceDistance(run)
  const distanceM = converted ? REFERENCE_DISTANCE_M : run.distanceM
  const quantity = position === 'pilotEar' ? 'soundAtEar' : 'soundAtDistance'
  const counts = power === 'full' && (position === 'pilotEar' || converted)
  return {
    normalized: {
      metric: 'soundLevel',
      value: levelDb,
      unit: 'dB',
      ...budgetOf(inputs, propagation),
      position,
      ...(position === 'distance' && distanceM !== undefined ? { distanceM } : {}),
      power,
    },
    evidence: counts ? evidenceOf(quantity, inputs, propagation) : null,
  }
}

/**
 * The model of a sound level: that of the source alone [dB] and ln of its sound pressure over 20 µPa.
 *
 * @source METHOD.md, section h
 */
export function soundModel({ run }: PreparedSound): Model {
  return answeringNaN((x, y) => {
    y[VALUE] = levelOfSource(x, run)
    y[LOG_EVIDENCE] = NEPER_PER_DB * y[VALUE]!
  })
}

/** From readings to the level of the source alone: section h of the specification, in order. */
function levelOfSource(x: Float64Array, run: SoundLevelRun): number {
  const margin = x[X.levelDbA]! - x[X.backgroundDbA]!
  const correction = margin === Number.POSITIVE_INFINITY ? 0 : backgroundCorrectionDb(margin)
  const level = x[X.levelDbA]! + x[X.meterDb]! - correction - x[X.closenessDb]!
  if (!isBroughtToReferenceDistance(run)) return level
  const moved = atDistanceDb(level, x[X.distanceM]!, REFERENCE_DISTANCE_M)
  return level + x[X.spreadingFactor]! * (moved - level)
}
