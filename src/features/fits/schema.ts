import { z } from 'zod'
import { FitId, MassClass } from '../../contract/conditions.ts'
import { Interval, OtherFits } from '../../contract/evidence.ts'
import { QUANTITIES } from '../../core/comparison/metric.ts'
import { Downweighted, FitReport } from './report-schema.ts'

const perComponent = <T extends z.ZodType>(value: T) =>
  z.object({ pilot: value, session: value, cell: value, run: value })

/** What stands behind an answer. */
export const Fit = z
  .object({
    id: FitId,
    quantity: z.enum(QUANTITIES),
    scale: z
      .literal('naturalLogarithm')
      .describe('Variances are of the logarithm: 0.0004 is about 2 %'),
    modelVersion: z.string(),
    methodVersion: z.string(),
    createdAt: z.iso.datetime(),
    converged: z.boolean(),
    start: z
      .object({
        variances: perComponent(z.number()),
        kept: z
          .object({
            decrement: z
              .number()
              .describe('Squared distance of the variances from their optimum, in standard errors'),
            largestShift: z
              .number()
              .describe(
                'What the optimum would move any difference by at most, in its standard errors',
              ),
          })
          .nullable()
          .describe(
            'The evidence asked for no other variances; null: it did, and they were searched',
          ),
      })
      .nullable()
      .describe(
        'Variances of the fit before, where this one started; null: it started from the data. The same evidence, ' +
          'versions and start give the same fit bit for bit',
      ),
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
    variant: z
      .object({
        excludeInterested: z.boolean(),
        massClass: MassClass.nullable(),
        robust: z.boolean().describe('Results that do not fit the rest count less'),
      })
      .describe('What of the evidence it rests on, and how'),
    otherFits: OtherFits,
    siblings: z
      .object({ withoutInterested: FitId.nullable(), robust: FitId.nullable() })
      .describe('Other fits of the same evidence; null: there is none, or it is not made yet'),
    heterogeneity: perComponent(
      z.object({
        standardDeviationPercent: z.number(),
        interval95Percent: Interval.nullable().describe('Rough; null where it was not estimated'),
      }),
    ).describe('How far a result varies between pilots, days, setups on a day, and runs'),
    notes: z.array(z.string()).describe('What could not be told apart, and what to beware of'),
    report: FitReport.nullable().describe(
      'What stands out; null where no uncertainty is known, while otherFits is pending, and for robust fits: what stands out stands in the plain one, what became of it in downweighted',
    ),
    downweighted: Downweighted.nullable().describe(
      'Of a robust fit: what counts less in it, and what that moves',
    ),
    logLikelihood: z.number().nullable().describe('Restricted; null without runs'),
  })
  .meta({ id: 'Fit' })

export type Fit = z.infer<typeof Fit>
