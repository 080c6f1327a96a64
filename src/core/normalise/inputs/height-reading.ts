import type { UncertainInput } from '../../uncertainty/propagate.ts'
import type { HeightSource, Stated } from '../types.ts'
import { BAROMETRIC_SHARE, DEFAULT_U } from './defaults.ts'
import { FOLLOWS_PILOT, modelFactor } from './run.ts'
import { statedOr } from './stated.ts'

/** A height difference as an instrument showed it. */
export interface HeightReading {
  /** What varies, in words a pilot understands. */
  readonly source: string
  /** Name of the field, for a stated uncertainty. */
  readonly field: string
  readonly heightM: number
  readonly heightSource: HeightSource
  readonly uncertainty?: Stated
}

/**
 * A height difference as shown [m], with the uncertainty of its reading.
 *
 *     barometric: u² = (√2/√12)² + 0.3² + (0.005·Δh)²      satellite: u = 2 m
 *
 * @source METHOD.md, section j
 */
export function heightInput(reading: HeightReading): UncertainInput {
  const { source, field, heightM, heightSource, uncertainty } = reading
  const barometricU = Math.hypot(
    DEFAULT_U.barometricDisplayM,
    DEFAULT_U.barometricNoiseM,
    DEFAULT_U.barometricScaleRatio * heightM,
  )
  const fallback = heightSource === 'gnss' ? DEFAULT_U.gnssGainM : barometricU
  return {
    source,
    value: heightM,
    standardUncertainty: statedOr(uncertainty, field, fallback),
    sharedWithinSession: false,
  }
}

/**
 * How far the correction for the temperature of the air applies to a height reading: a factor for
 * what an instrument that corrects itself leaves over, and the share of the correction.
 *
 * @source METHOD.md, section c
 */
export function heightCorrectionInputs(heightSource: HeightSource): {
  readonly gainScale: UncertainInput
  readonly barometricShare: UncertainInput
} {
  const share = BAROMETRIC_SHARE[heightSource]
  const compensated = heightSource === 'barometricTemperatureCompensated'
  return {
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
  }
}
