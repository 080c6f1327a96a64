import type { Direction } from './verdict.ts'

/** What setups are compared by. */
export const METRICS = [
  'climbRate',
  'climbThrust',
  'fuelFlow',
  'electricPower',
  'staticThrust',
  'soundLevel',
] as const

export type Metric = (typeof METRICS)[number]

/**
 * What the statistical model estimates, as natural logarithms. Climb rate and climb thrust are two
 * readings of one estimate; sound at the ear and at a distance are two estimates, never converted.
 */
export const QUANTITIES = [
  'inducedPower',
  'fuelFlow',
  'electricPower',
  'staticThrust',
  'soundAtEar',
  'soundAtDistance',
] as const

export type Quantity = (typeof QUANTITIES)[number]

interface MetricFacts {
  readonly quantity: Quantity
  readonly unit: 'm/s' | 'N' | 'L/h' | 'W' | 'dB'
  readonly better: Direction
  /** Differences in per cent of one another, or in decibels. */
  readonly scale: 'ratio' | 'level'
  /** Difference that does not matter in practice [% or dB]; editorial, common practice has no figure. */
  readonly equivalenceMargin: number
}

/**
 * The facts of each metric. The margins are judgement: about what a pilot can feel or what a
 * different day does to one flight. A climb rate moves about twice as much as the thrust behind it,
 * hence the smaller margin for thrust. One decibel is about the least that is heard as a difference.
 */
export const METRIC_FACTS: Readonly<Record<Metric, MetricFacts>> = {
  climbRate: {
    quantity: 'inducedPower',
    unit: 'm/s',
    better: 'higher',
    scale: 'ratio',
    equivalenceMargin: 5,
  },
  climbThrust: {
    quantity: 'inducedPower',
    unit: 'N',
    better: 'higher',
    scale: 'ratio',
    equivalenceMargin: 3,
  },
  fuelFlow: {
    quantity: 'fuelFlow',
    unit: 'L/h',
    better: 'lower',
    scale: 'ratio',
    equivalenceMargin: 5,
  },
  electricPower: {
    quantity: 'electricPower',
    unit: 'W',
    better: 'lower',
    scale: 'ratio',
    equivalenceMargin: 5,
  },
  staticThrust: {
    quantity: 'staticThrust',
    unit: 'N',
    better: 'higher',
    scale: 'ratio',
    equivalenceMargin: 3,
  },
  soundLevel: {
    quantity: 'soundAtEar',
    unit: 'dB',
    better: 'lower',
    scale: 'level',
    equivalenceMargin: 1,
  },
}

/**
 * The quantity behind a metric. Sound at the ear and at a distance are two, never converted into one
 * another.
 *
 * @param asked metric, and for a sound level where it is heard
 * @returns the quantity
 * @source derived
 */
export function quantityOf({
  metric,
  soundPosition,
}: {
  readonly metric: Metric
  readonly soundPosition: 'pilotEar' | 'distance'
}): Quantity {
  const atDistance = metric === 'soundLevel' && soundPosition === 'distance'
  return atDistance ? 'soundAtDistance' : METRIC_FACTS[metric].quantity
}

/** Decibels of a sound level per unit of the natural logarithm of sound pressure: 20/ln 10. */
export const DECIBELS_PER_NEPER = 20 / Math.LN10

/**
 * The margin of a metric as a difference of natural logarithms.
 *
 *     ratio: ln(1 + m/100),   level: m·ln(10)/20
 *
 * @param metric the metric
 * @returns margin [1]
 * @source derived
 */
export function logMarginOf(metric: Metric): number {
  const { scale, equivalenceMargin } = METRIC_FACTS[metric]
  return scale === 'level'
    ? equivalenceMargin / DECIBELS_PER_NEPER
    : Math.log1p(equivalenceMargin / 100)
}
