import { z } from 'zod'

import { measured } from '../measured.ts'

const leg = measured(
  {
    trackDeg: z
      .number()
      .describe('Direction of the motion over the ground, clockwise from true north [°]'),
    groundSpeedMps: z.number().describe('Speed over the ground, from a satellite receiver [m/s]'),
  },
  ['trackDeg', 'groundSpeedMps'],
)

export const levelSpeed = {
  shape: {
    kind: z.literal('levelSpeed'),
    legs: z
      .array(leg)
      .min(3)
      .max(12)
      .describe(
        'Level at one airspeed on three or more headings, well over 60° apart, each from each; best 120°',
      ),
    heightAboveSiteM: z
      .number()
      .optional()
      .describe('Mean height above the field [m]; absent: 150 m is assumed, ±100 m'),
    atTrim: z
      .boolean()
      .optional()
      .describe(
        'False where flown faster or slower than trim: then it does not stand for the trim speed. Absent: true',
      ),
  },
  measures: ['heightAboveSiteM'],
} as const
