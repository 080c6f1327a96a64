import { z } from 'zod'

import { FitId } from '../../contract/conditions.ts'

const perComponent = <T extends z.ZodType>(value: T) =>
  z.object({ pilot: value, session: value, cell: value, run: value })

/** What stands behind an answer. */
export const Fit = z
  .object({
    id: FitId,
    quantity: z.enum(['inducedPower', 'fuelFlow']),
    scale: z
      .literal('naturalLogarithm')
      .describe('Variances are of the logarithm: 0.0004 is about 2 %'),
    modelVersion: z.string(),
    methodVersion: z.string(),
    createdAt: z.iso.datetime(),
    converged: z.boolean(),
    standardErrorsKnown: z
      .boolean()
      .describe('False where the runs do not show how much results scatter'),
    counts: z.object({
      runs: z.int(),
      cells: z.int().describe('Setups within sessions'),
      sessions: z.int(),
      pilots: z.int(),
      setups: z.int(),
    }),
    varianceComponents: perComponent(
      z.object({
        variance: z.number(),
        status: z
          .enum(['estimated', 'notDetected', 'notSeparable', 'fixed'])
          .describe(
            'notDetected: the estimate is zero; notSeparable: the flights cannot tell it apart',
          ),
        mergedInto: z.enum(['pilot', 'session', 'cell', 'run']).nullable(),
        degreesOfFreedom: z.int().describe('Left to it by the design'),
      }),
    ),
    logLikelihood: z.number().nullable().describe('Restricted; null without runs'),
  })
  .meta({ id: 'Fit' })

export type Fit = z.infer<typeof Fit>
