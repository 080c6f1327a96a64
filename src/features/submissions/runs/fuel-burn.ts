import { z } from 'zod'

import { durationS, level, rpm } from './parts.ts'

export const fuelBurn = {
  shape: {
    kind: z.literal('fuelBurn'),
    volumeMl: z
      .number()
      .describe('Fuel burned in level flight, at the temperature of the fuel [mL]'),
    durationS,
    ...level,
    rpm,
    fuelTemperatureC: z.number().optional().describe('Temperature of the fuel when measured [°C]'),
    method: z
      .enum(['measuredTank', 'refill'])
      .optional()
      .describe(
        'measuredTank (when absent): a measured filling burned until the engine starves. refill: filled up again to the mark it started from',
      ),
  },
  measures: [
    'volumeMl',
    'durationS',
    'heightAboveSiteM',
    'heightChangeM',
    'rpm',
    'fuelTemperatureC',
  ],
} as const
