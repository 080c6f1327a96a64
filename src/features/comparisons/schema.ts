import { z } from 'zod'

import { Id } from '../../contract/ids.ts'
import { Metric } from '../../contract/metrics.ts'
import { queryQuantity } from '../../contract/quantities.ts'

/** All-up mass classes and the mass that stands for each [kg]. */
export const MASS_CLASSES = {
  under100: 90,
  '100to120': 110,
  '120to140': 130,
  '140to170': 155,
  tandem: 210,
} as const

export const MassClass = z
  .enum(Object.keys(MASS_CLASSES) as [keyof typeof MASS_CLASSES])
  .describe('Class of all-up mass [kg]; conditions take 90, 110, 130, 155 or 210 kg for it')
  .meta({ id: 'MassClass' })

const conditionsQuery = {
  allUpMassKg: queryQuantity('kg', 60, 500).optional().describe('All-up mass [kg]; default 120'),
  massClass: MassClass.optional(),
  elevationM: queryQuantity('m', -430, 5500)
    .default(0)
    .describe(
      'Elevation above mean sea level [m]; the pressure is that of the standard atmosphere there',
    ),
  temperatureC: queryQuantity('°C', -40, 55)
    .optional()
    .describe('Air temperature [°C]; default: the standard atmosphere at that elevation'),
  wingId: Id.optional().describe(
    'A wing of the catalogue; default: the reference wing at its loading',
  ),
  fitId: z
    .string()
    .regex(/^fit_[0-9a-f]{32}$/)
    .optional()
    .describe('An earlier fit, to see an answer again as it was; default: the current one'),
}

function oneMass(query: {
  allUpMassKg?: number | undefined
  massClass?: string | undefined
}): boolean {
  return query.allUpMassKg === undefined || query.massClass === undefined
}

const ONE_MASS = { path: ['massClass'], error: 'give massClass or allUpMassKg, not both' }

export const ComparisonQuery = z
  .object({
    metric: Metric,
    setups: z
      .string()
      .describe('Ids of 2 to 50 setups, separated by commas')
      .transform((list) => [...new Set(list.split(',').map((id) => id.trim()))])
      .pipe(
        z.array(Id).min(2, 'name at least 2 different setups').max(50, 'name at most 50 setups'),
      ),
    ...conditionsQuery,
  })
  .refine(oneMass, ONE_MASS)

export type ComparisonQuery = z.infer<typeof ComparisonQuery>

export const RankingQuery = z
  .object({
    metric: Metric,
    limit: z.coerce.number().int().min(1).max(200).default(50).describe('Ranked setups to list'),
    ...conditionsQuery,
  })
  .refine(oneMass, ONE_MASS)

export type RankingQuery = z.infer<typeof RankingQuery>

export const Conditions = z
  .object({
    allUpMassKg: z.number(),
    elevationM: z.number(),
    temperatureC: z.number(),
    airDensityKgPerM3: z.number().describe('Density of dry air there'),
    wing: z.object({
      id: z.string().nullable(),
      flatAreaM2: z.number(),
      glideRatio: z.number().describe('Of the system: wing, pilot and running frame'),
      trimSpeedMps: z
        .number()
        .describe('Level trim airspeed at the all-up mass beside it, sea level'),
      trimAtAllUpMassKg: z.number(),
    }),
    assumed: z
      .array(z.string())
      .describe('What was taken for granted because the query left it open'),
  })
  .meta({ id: 'Conditions' })

const Interval = z.tuple([z.number(), z.number()])

export const Refused = z
  .object({
    reasonCode: z.enum([
      'noEvidence',
      'oneSession',
      'notConnected',
      'doesNotClimb',
      'outsideModel',
      'notEstimable',
    ]),
    reason: z.string(),
  })
  .meta({ id: 'Refused' })

const Evidence = z
  .object({
    sessions: z.int(),
    pilots: z.int(),
    runs: z.int(),
    independentSessions: z
      .int()
      .describe('Sessions in which it was flown together with another setup'),
    interestedSessions: z
      .int()
      .describe('Sessions submitted by somebody who sells, makes or was given what they tested'),
  })
  .meta({ id: 'EvidenceCount' })

export const Safety = z
  .object({
    state: z.enum(['none', 'advisory', 'doNotFly']),
    advisories: z.array(z.string()).describe('The reports behind the state, not lifted'),
  })
  .meta({ id: 'SafetyState' })

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
    evidence: Evidence,
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
    endurancePercent: z.number().optional().describe('Time from the same tank'),
  })
  .describe('The same difference in the quantities it is often confused with: the percents differ')
  .meta({ id: 'Equivalents' })

export const ComparedPair = z
  .object({
    a: Id,
    b: Id,
    evidence: z.enum(['direct', 'connected', 'additive', 'betweenSessions', 'none']),
    verdict: z.enum(['aBetter', 'bBetter', 'practicallyEqual', 'notResolved', 'refused']),
    sentence: z.string().describe('The verdict in plain words'),
    differencePercent: z.number().optional().describe('100 (a/b − 1) at the conditions'),
    interval95Percent: Interval.optional(),
    degreesOfFreedom: z.number().optional(),
    probabilityABetter: z.number().optional(),
    equivalents: Equivalents.optional(),
    uncertainty: z
      .array(z.object({ cause: z.string(), share: z.number() }))
      .optional()
      .describe('What the interval is made of: shares of the variance, largest first'),
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
    .describe('A difference inside this margin is practically equal'),
  conditions: Conditions,
}

export const Comparison = z
  .object({
    ...answerHead,
    setups: z.array(ComparedSetup),
    pairs: z.array(ComparedPair),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'Comparison' })

export type Comparison = z.infer<typeof Comparison>

export const Ranking = z
  .object({
    ...answerHead,
    ranked: z.array(ComparedSetup).describe('Best first: the largest group that can be ranked'),
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
export type Conditions = z.infer<typeof Conditions>
export type Equivalents = z.infer<typeof Equivalents>
