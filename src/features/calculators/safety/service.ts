import { ApiProblem } from '../../../contract/problems.ts'
import { OutOfRangeError } from '../../../core/errors.ts'
import {
  NOISE_CRITERION,
  noiseDosePct,
  permissibleExposureMin,
} from '../../../core/safety/noise-exposure.ts'
import { type TipClearanceAnswer, tipClearance } from '../../../core/safety/tip-clearance.ts'
import type {
  NoiseExposure,
  NoiseExposureQuery,
  TipClearance,
  TipClearanceQuestion,
} from './schema.ts'
import {
  clearanceAssumptions,
  clearanceCautions,
  clearanceSentence,
  NOISE_ASSUMPTIONS,
  NOISE_CAUTIONS,
  NOISE_CRITERION_NAME,
} from './wording.ts'

const SECONDS_PER_MINUTE = 60
const MINUTES_PER_DAY = 1440

/** How long a day may hold a noise level, and what dose a stated time makes. */
export function noiseExposure({ levelDbA, durationMin }: NoiseExposureQuery): NoiseExposure {
  const minutes = permissibleExposureMin(levelDbA)
  return {
    levelDbA,
    permissibleExposureMin: minutes,
    permissibleExposure: inWords(minutes),
    dosePct: durationMin === undefined ? undefined : noiseDosePct([{ levelDbA, durationMin }]),
    criterion: {
      name: NOISE_CRITERION_NAME,
      levelDbA: NOISE_CRITERION.levelDbA,
      referenceDurationMin: NOISE_CRITERION.durationMin,
      exchangeRateDb: NOISE_CRITERION.exchangeRateDb,
    },
    assumptions: NOISE_ASSUMPTIONS,
    cautions: NOISE_CAUTIONS,
  }
}

/** Hours, minutes and seconds, whole seconds and never rounded up. */
function inWords(minutes: number): string {
  if (minutes > MINUTES_PER_DAY) return 'more than a day: this criterion sets no limit'
  const seconds = Math.floor(minutes * SECONDS_PER_MINUTE + 1e-9)
  const parts = [
    [Math.floor(seconds / 3600), 'h'],
    [Math.floor(seconds / 60) % 60, 'min'],
    [seconds % 60, 's'],
  ] as const
  const shown = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count} ${unit}`)
  return shown.length === 0 ? 'less than 1 s' : shown.join(' ')
}

/**
 * Movement of the propeller's tips and the clearance they need, held against a measured one.
 *
 * @throws {ApiProblem} outside-model-range where the figures move a tip beyond every cage
 */
export function tipClearanceOf(question: TipClearanceQuestion): TipClearance {
  const answer = withinModel(question)
  const { comparison, topMovementMm, bottomMovementMm, requiredClearanceMm, ...rest } = answer
  const { staticClearanceMm } = question
  return {
    ...rest,
    topMovementMm: plain(topMovementMm),
    bottomMovementMm: plain(bottomMovementMm),
    requiredClearanceMm: plain(requiredClearanceMm),
    budget: [...answer.budget],
    comparison:
      comparison === null || staticClearanceMm === undefined
        ? null
        : {
            staticClearanceMm,
            marginMm: plain(comparison.marginMm),
            verdict: comparison.verdict,
            sentence: clearanceSentence(comparison.verdict, {
              measuredMm: staticClearanceMm,
              requiredMm: requiredClearanceMm.value,
            }),
          },
    assumptions: clearanceAssumptions(question),
    cautions: clearanceCautions(answer),
  }
}

function withinModel(question: TipClearanceQuestion): TipClearanceAnswer {
  try {
    return tipClearance(question)
  } catch (error) {
    if (!(error instanceof OutOfRangeError)) throw error
    const detail =
      'With these mounts a tip would move by more than half a metre, or nothing resists its tilt: check stiffness and heights.'
    throw new ApiProblem('outside-model-range', { errors: [{ pointer: '/mounts', detail }] })
  }
}

function plain<E extends { readonly interval95: readonly [number, number] }>(estimate: E) {
  const [low, high] = estimate.interval95
  return { ...estimate, interval95: [low, high] as [number, number] }
}
