import { z } from 'zod'

export const tipClearance = {
  shape: {
    kind: z.literal('tipClearance'),
    staticClearanceMm: z
      .number()
      .describe('Smallest gap between blade tip and frame, engine stopped, nothing pulling [mm]'),
    loadedClearanceMm: z
      .number()
      .optional()
      .describe('The same at the same place under load [mm]; 0 counts as contact'),
    contactSeen: z
      .boolean()
      .describe(
        'Whether the propeller touched, or a trace of touching was seen: true puts the set-up in doNotFly at once',
      ),
    loadN: z
      .number()
      .optional()
      .describe(
        'Pull at the tip or thrust, whichever loaded it [N]; absent: taken as that of full throttle',
      ),
  },
  measures: ['staticClearanceMm', 'loadedClearanceMm', 'loadN'],
} as const
