import { z } from 'zod'

import { battery, durationS, level, rpm } from './parts.ts'

export const energyUse = {
  shape: {
    kind: z.literal('energyUse'),
    energyWh: z.number().describe('Energy out of the battery in level flight [Wh]'),
    durationS,
    ...level,
    ...battery,
    rpm,
  },
  measures: [
    'energyWh',
    'durationS',
    'heightAboveSiteM',
    'heightChangeM',
    'batteryStartV',
    'batteryEndV',
    'rpm',
  ],
} as const
