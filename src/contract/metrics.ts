import { z } from 'zod'

/** What setups are compared by. */
export const METRICS = ['climbRate', 'climbThrust', 'fuelFlow'] as const

export const Metric = z.enum(METRICS).describe('What is compared; lower is better for fuelFlow')

export type Metric = z.infer<typeof Metric>

/** What the statistical model estimates. Climb rate and climb thrust are two readings of one estimate. */
export const QUANTITIES = ['inducedPower', 'fuelFlow'] as const

export type Quantity = (typeof QUANTITIES)[number]

export const QUANTITY_OF_METRIC: Readonly<Record<Metric, Quantity>> = {
  climbRate: 'inducedPower',
  climbThrust: 'inducedPower',
  fuelFlow: 'fuelFlow',
}

export const UNIT_OF_METRIC: Readonly<Record<Metric, string>> = {
  climbRate: 'm/s',
  climbThrust: 'N',
  fuelFlow: 'L/h',
}

export const BETTER: Readonly<Record<Metric, 'higher' | 'lower'>> = {
  climbRate: 'higher',
  climbThrust: 'higher',
  fuelFlow: 'lower',
}
