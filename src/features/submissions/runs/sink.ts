import { z } from 'zod'

import { climb } from './climb.ts'
import { durationS } from './parts.ts'

export const sink = {
  shape: {
    kind: z.literal('sink'),
    heightLossM: z
      .number()
      .describe('Height lost at trim with the engine off, as the source showed it [m]'),
    durationS,
    heightSource: climb.shape.heightSource,
    startHeightAboveSiteM: climb.shape.startHeightAboveSiteM,
  },
  measures: ['heightLossM', 'durationS', 'startHeightAboveSiteM'],
} as const
