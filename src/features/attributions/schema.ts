import { z } from 'zod'
import { AnyVerdict, besideFinding } from '../../contract/beside.ts'
import { Conditions, conditionsQuery, FitId, ONE_MASS, oneMass } from '../../contract/conditions.ts'
import { evidenceQuery, Interval, OtherFits, Refused } from '../../contract/evidence.ts'
import { Id } from '../../contract/ids.ts'
import { Metric } from '../../contract/metrics.ts'

export const AttributionQuery = z
  .object({
    metric: Metric,
    soundPosition: z
      .enum(['pilotEar', 'distance'])
      .default('pilotEar')
      .describe('For soundLevel: at the ear of the pilot, or 20 m away'),
    from: Id.describe('Setup to start from'),
    to: Id.describe('Setup to go to'),
    ...conditionsQuery,
    ...evidenceQuery,
    fitId: FitId.optional().describe('An earlier fit; default: the current one'),
  })
  .refine(oneMass, ONE_MASS)
  .refine(({ from, to }) => from !== to, { path: ['to'], error: 'name another setup than from' })

export type AttributionQuery = z.infer<typeof AttributionQuery>

const figures = {
  differencePercent: z.number().optional().describe('100 (to/from − 1) at the conditions'),
  interval95Percent: Interval.optional(),
  differenceDb: z.number().optional().describe('For sound levels: to less from [dB]'),
  interval95Db: Interval.optional(),
  degreesOfFreedom: z.number().optional(),
}

const Part = z.object({ id: Id, name: z.string() })

export const Finding = z
  .enum(['raises', 'lowers', 'open', 'nothing', 'refused'])
  .describe(
    'raises, lowers: the interval leaves out zero; open: it does not; nothing: the same part in both',
  )
  .meta({ id: 'AttributionFinding' })

export type Finding = z.infer<typeof Finding>

export const AttributionLine = z
  .object({
    part: z.enum(['powerplant', 'propeller', 'frame', 'together', 'unexplained']),
    kinds: z
      .array(z.enum(['powerplant', 'propeller', 'frame']))
      .optional()
      .describe('For together: parts that always changed at once, so that only their sum is known'),
    from: Part.optional(),
    to: Part.optional(),
    same: z.boolean().describe('The same part in both: it brings exactly nothing'),
    finding: Finding,
    ...figures,
    sentence: z.string(),
    ...besideFinding({ finding: Finding }),
    refused: z
      .object({
        reasonCode: z.enum(['neverSeparated', 'notTestable', 'throughPartsOnly']),
        reason: z.string(),
      })
      .optional()
      .describe('Why this line has no number'),
  })
  .meta({ id: 'AttributionLine' })

export const Attribution = z
  .object({
    fitId: z.string(),
    metric: Metric,
    unit: z.string(),
    better: z.enum(['higher', 'lower']),
    conditions: Conditions,
    otherFits: OtherFits,
    from: z.object({ setupId: Id, name: z.string() }),
    to: z.object({ setupId: Id, name: z.string() }),
    evidence: z.enum(['direct', 'connected', 'additive', 'betweenSessions', 'none']),
    total: z.object({
      verdict: AnyVerdict.describe('On to, as a, against from, as b'),
      ...figures,
      sentence: z.string(),
      ...besideFinding({ verdict: AnyVerdict }),
      refused: Refused.optional(),
    }),
    lines: z
      .array(AttributionLine)
      .describe(
        'Per cents multiply to the total: Π (1 + p/100); decibels add up. Empty where it is refused',
      ),
    partsAddUp: z
      .object({
        spreadPercent: z
          .number()
          .describe('Standard deviation of setups about the sum of their parts; 0: none detected'),
        degreesOfFreedom: z.int().describe('Setups less independent parts; 0: not testable'),
      })
      .nullable(),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'Attribution' })

export type Attribution = z.infer<typeof Attribution>
export type AttributionLine = z.infer<typeof AttributionLine>
