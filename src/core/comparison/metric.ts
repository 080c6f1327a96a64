import type { Direction } from './verdict.ts'

/** What setups are compared by. */
export const METRICS = ['climbRate', 'climbThrust', 'fuelFlow'] as const

export type Metric = (typeof METRICS)[number]

/** What the statistical model estimates. Climb rate and climb thrust are two readings of one estimate. */
export const QUANTITIES = ['inducedPower', 'fuelFlow'] as const

export type Quantity = (typeof QUANTITIES)[number]

interface MetricFacts {
  readonly quantity: Quantity
  readonly unit: 'm/s' | 'N' | 'L/h'
  readonly better: Direction
  /** Difference that does not matter in practice [%]; editorial, common practice has no figure. */
  readonly equivalenceMarginPercent: number
}

/**
 * The facts of each metric. The margins are judgement: about what a pilot can feel or what a
 * different day does to one flight. A climb rate moves about twice as much as the thrust behind it,
 * hence the smaller margin for thrust.
 */
export const METRIC_FACTS: Readonly<Record<Metric, MetricFacts>> = {
  climbRate: {
    quantity: 'inducedPower',
    unit: 'm/s',
    better: 'higher',
    equivalenceMarginPercent: 5,
  },
  climbThrust: {
    quantity: 'inducedPower',
    unit: 'N',
    better: 'higher',
    equivalenceMarginPercent: 3,
  },
  fuelFlow: { quantity: 'fuelFlow', unit: 'L/h', better: 'lower', equivalenceMarginPercent: 5 },
}
