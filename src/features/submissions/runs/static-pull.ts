import { z } from 'zod'

import { batteryIfElectric, rpm } from './parts.ts'

export const staticPull = {
  shape: {
    kind: z.literal('staticPull'),
    thrustN: z.number().describe('Pull in the line at full throttle [N]'),
    rpm,
    headwindMps: z
      .number()
      .optional()
      .describe('Wind from ahead, along the propeller axis [m/s]; absent: calm is assumed, ±1 m/s'),
    lineAngleDeg: z
      .number()
      .optional()
      .describe('Angle between the line and the propeller axis [°]; absent: 0'),
    ...batteryIfElectric,
  },
  measures: ['thrustN', 'rpm', 'headwindMps', 'lineAngleDeg', 'batteryStartV', 'batteryEndV'],
} as const
