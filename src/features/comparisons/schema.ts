import { z } from 'zod'
import { AnyVerdict, besideFinding } from '../../contract/beside.ts'
import { Conditions, conditionsQuery, FitId, ONE_MASS, oneMass } from '../../contract/conditions.ts'
import {
  EvidenceCount,
  evidenceQuery,
  Interval,
  OtherFits,
  Refused,
  Safety,
} from '../../contract/evidence.ts'
import { Id } from '../../contract/ids.ts'
import { Metric } from '../../contract/metrics.ts'
import { queryQuantity } from '../../contract/quantities.ts'

const fitId = FitId.optional().describe(
  'An earlier fit, to see an answer again as it was; default: the current one',
)

const soundPosition = z
  .enum(['pilotEar', 'distance'])
  .default('pilotEar')
  .describe(
    'For soundLevel: at the ear of the pilot, or 20 m away; never converted into one another',
  )

export const ComparisonQuery = z
  .object({
    metric: Metric,
    soundPosition,
    setups: z
      .string()
      .describe('Ids of 2 to 50 setups, separated by commas')
      .transform((list) => [...new Set(list.split(',').map((id) => id.trim()))])
      .pipe(
        z.array(Id).min(2, 'name at least 2 different setups').max(50, 'name at most 50 setups'),
      ),
    ...conditionsQuery,
    ...evidenceQuery,
    fuelPricePerL: queryQuantity('currency/L', 0.01, 1000)
      .optional()
      .describe(
        'Price of a litre of fuel, for fuelFlow: hours until fuel has paid; needs currency',
      ),
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/, 'Must be a code of ISO 4217, such as EUR')
      .optional()
      .describe('ISO 4217, of fuelPricePerL'),
    fitId,
  })
  .refine(oneMass, ONE_MASS)
  .refine((query) => query.fuelPricePerL === undefined || query.currency !== undefined, {
    path: ['currency'],
    error: 'a price of fuel needs its currency',
  })

export type ComparisonQuery = z.infer<typeof ComparisonQuery>

export const RankingQuery = z
  .object({
    metric: Metric,
    soundPosition,
    limit: z.coerce.number().int().min(1).max(200).default(50).describe('Ranked setups to list'),
    ...conditionsQuery,
    ...evidenceQuery,
    fitId,
  })
  .refine(oneMass, ONE_MASS)

export type RankingQuery = z.infer<typeof RankingQuery>

const Rank = z
  .object({
    median: z.int(),
    interval95: z.tuple([z.int(), z.int()]),
    probabilityBest: z.number().min(0).max(1),
    pScore: z
      .number()
      .min(0)
      .max(1)
      .describe('Mean probability of being better than another one listed'),
  })
  .meta({ id: 'Rank' })

export const ComparedSetup = z
  .object({
    setupId: Id,
    name: z.string(),
    value: z.number().nullable().describe('At the conditions; null where refused'),
    standardUncertainty: z.number().nullable(),
    interval95: Interval.nullable(),
    degreesOfFreedom: z.number().nullable(),
    rank: Rank.nullable().describe('Among the setups that can be ranked with one another'),
    evidence: EvidenceCount,
    safety: Safety,
    refused: Refused.optional().describe('Why no value is given'),
  })
  .meta({ id: 'ComparedSetup' })

export const Equivalents = z
  .object({
    climbRatePercent: z.number().optional(),
    climbThrustPercent: z.number().optional(),
    inducedPowerPercent: z
      .number()
      .optional()
      .describe('Useful power the propeller gives to the air'),
    fuelFlowPercent: z.number().optional(),
    electricPowerPercent: z.number().optional(),
    endurancePercent: z.number().optional().describe('Time from the same tank or battery'),
  })
  .describe('The same difference in the quantities it is often confused with: the percents differ')
  .meta({ id: 'Equivalents' })

const CostRate = z
  .object({
    value: z.number().nullable().describe('Null where there is no figure'),
    interval95: Interval.nullable(),
    noFigure: z
      .enum(['costsNoMore', 'unbounded'])
      .optional()
      .describe(
        'costsNoMore: the better one is not dearer; unbounded: the gain may be next to nothing, so no finite interval holds what it costs',
      ),
  })
  .meta({ id: 'CostRate' })

export const Cost = z
  .object({
    currency: z.string(),
    priceDifference: z.number().describe('a less b, over the parts that differ'),
    asOf: z.string().describe('Day of the oldest price that counts'),
    perTenthMps: CostRate.optional().describe('Money per 0.1 m/s of climb'),
    perNewton: CostRate.optional().describe('Money per newton of thrust'),
    paybackH: CostRate.optional().describe(
      'Hours of level flight at the conditions until the fuel saved has paid for it',
    ),
    sentence: z.string().describe('The same in plain words'),
  })
  .describe('What the better one costs; only where the prices of all parts that differ are known')
  .meta({ id: 'Cost' })

export const ComparedPair = z
  .object({
    a: Id,
    b: Id,
    evidence: z.enum(['direct', 'connected', 'additive', 'betweenSessions', 'none']),
    verdict: AnyVerdict,
    sentence: z.string().describe('The verdict in plain words'),
    differencePercent: z.number().optional().describe('100 (a/b − 1) at the conditions'),
    interval95Percent: Interval.optional(),
    differenceDb: z.number().optional().describe('For sound levels: a less b [dB]'),
    interval95Db: Interval.optional(),
    degreesOfFreedom: z.number().optional(),
    probabilityABetter: z.number().optional(),
    equivalents: Equivalents.optional(),
    cost: Cost.optional(),
    uncertainty: z
      .array(z.object({ cause: z.string(), share: z.number() }))
      .optional()
      .describe('What the interval is made of: shares of the variance, largest first'),
    nextSession95Percent: Interval.optional().describe(
      'What a further session with both will show, whoever flies: 95 % of them',
    ),
    nextSession95Db: Interval.optional(),
    flightsToResolve: z
      .int()
      .nullable()
      .optional()
      .describe(
        'For notResolved: further sessions with both, three runs of each, that would settle it if the ' +
          'difference stays what it is, scatter that was not detected counting at the upper end of its ' +
          'interval; null: flights alone would not',
      ),
    ...besideFinding({ verdict: AnyVerdict }),
    reasonCode: Refused.shape.reasonCode.optional(),
    reason: z.string().optional().describe('Why no number is given'),
  })
  .meta({ id: 'ComparedPair' })

const answerHead = {
  fitId: z.string(),
  metric: Metric,
  unit: z.string(),
  better: z.enum(['higher', 'lower']),
  equivalenceMarginPercent: z
    .number()
    .optional()
    .describe('A difference inside this margin is practically equal'),
  equivalenceMarginDb: z.number().optional().describe('The same for sound levels [dB]'),
  conditions: Conditions,
}

export const Comparison = z
  .object({
    ...answerHead,
    otherFits: OtherFits,
    setups: z.array(ComparedSetup),
    pairs: z.array(ComparedPair),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'Comparison' })

export type Comparison = z.infer<typeof Comparison>

export const RankedSetup = ComparedSetup.extend({
  againstFirst: AnyVerdict.nullable().describe(
    'Verdict on it, as a, against the setup that leads, as b; null for that one',
  ),
  ...besideFinding({
    position: z.int().nullable().describe('Place by estimate; null: not linked with the others'),
    againstFirst: AnyVerdict.nullable(),
  }),
}).meta({ id: 'RankedSetup' })

export type RankedSetup = z.infer<typeof RankedSetup>

export const Ranking = z
  .object({
    ...answerHead,
    otherFits: OtherFits,
    sentence: z.string().describe('Who leads, how sure that is, and what it hangs on'),
    ...besideFinding({
      first: Id.nullable().describe('The setup that leads'),
      otherwise: z.array(Id).describe('Ranked setups whose verdict against the first one differs'),
    }),
    ranked: z.array(RankedSetup).describe('Best first: the largest group that can be ranked'),
    unranked: z
      .array(ComparedSetup)
      .describe('Measured, but not comparable with the ranked; the reason stands in refused'),
    setAside: z
      .array(ComparedSetup)
      .describe('Setups reported unsafe: not recommended whatever they measure'),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'Ranking' })

export type Ranking = z.infer<typeof Ranking>
export type ComparedSetup = z.infer<typeof ComparedSetup>
export type ComparedPair = z.infer<typeof ComparedPair>
export type Equivalents = z.infer<typeof Equivalents>
export type Cost = z.infer<typeof Cost>
