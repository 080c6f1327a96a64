import { z } from 'zod'

import { rpm } from './parts.ts'

export const soundLevel = {
  shape: {
    kind: z.literal('soundLevel'),
    levelDbA: z.number().describe('A-weighted level with engine and background [dB]'),
    backgroundDbA: z
      .number()
      .optional()
      .describe('A-weighted level of the background alone [dB]; absent: assumed to add nothing'),
    position: z
      .enum(['pilotEar', 'distance'])
      .describe('Where it was measured; the two are never converted into one another'),
    distanceM: z
      .number()
      .optional()
      .describe('From the propeller hub [m]; needed at a distance, not to be given at the ear'),
    directionDeg: z
      .number()
      .optional()
      .describe('Seen from the hub, 0 straight ahead of the pilot, clockwise from above [°]'),
    surface: z
      .enum(['grass', 'soil', 'hard', 'sand', 'snow'])
      .optional()
      .describe('Ground between propeller and microphone'),
    power: z.enum(['full', 'level']).describe('Full throttle, or what level flight needs'),
    instrument: z
      .enum(['class2', 'phone'])
      .optional()
      .describe('What read the level; absent: treated as a phone'),
    rpm,
  },
  measures: ['levelDbA', 'backgroundDbA', 'distanceM', 'rpm'],
} as const

/** A distance belongs to a level at a distance, and to no other. */
export function refuseMisplacedDistance(
  given: { readonly position: 'pilotEar' | 'distance'; readonly distanceM?: number | undefined },
  context: z.RefinementCtx,
): void {
  const atDistance = given.position === 'distance'
  if (atDistance === (given.distanceM !== undefined)) return
  const message = atDistance
    ? 'A level at a distance needs that distance'
    : 'A level at the ear has no distance'
  context.addIssue({ code: 'custom', path: ['distanceM'], message })
}
