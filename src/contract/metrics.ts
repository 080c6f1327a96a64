import { z } from 'zod'

import { METRICS } from '../core/comparison/metric.ts'

export const Metric = z
  .enum(METRICS)
  .describe(
    'What is compared; higher is better for climbRate, climbThrust and staticThrust, lower for fuelFlow, electricPower and soundLevel',
  )
  .meta({ id: 'Metric' })

export type Metric = z.infer<typeof Metric>
