import { z } from 'zod'

import { batteryIfElectric, durationS, rpm } from './parts.ts'

export const climb = {
  shape: {
    kind: z.literal('climb'),
    heightGainM: z.number().describe('Height gained at full throttle, as the source showed it [m]'),
    durationS,
    heightSource: z
      .enum(['barometric', 'barometricTemperatureCompensated', 'gnss', 'unknown'])
      .describe('How the height gain was read'),
    startHeightAboveSiteM: z.number().describe('Height above the field at the start [m]'),
    rpm,
    ...batteryIfElectric,
  },
  measures: [
    'heightGainM',
    'durationS',
    'startHeightAboveSiteM',
    'rpm',
    'batteryStartV',
    'batteryEndV',
  ],
} as const
