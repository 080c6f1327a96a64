import { z } from 'zod'
import { besideFinding } from '../../contract/beside.ts'
import { Conditions, conditionsQuery, FitId, ONE_MASS, oneMass } from '../../contract/conditions.ts'
import { evidenceQuery, Interval, OtherFits, Refused } from '../../contract/evidence.ts'
import { Id } from '../../contract/ids.ts'

export const TradeOffQuery = z
  .object({
    setups: z
      .string()
      .transform((list) => [...new Set(list.split(',').map((id) => id.trim()))])
      .pipe(z.array(Id).min(2, 'name at least 2 different setups').max(200))
      .optional()
      .describe('Ids of 2 to 200 setups, separated by commas; default: all with evidence'),
    ...conditionsQuery,
    ...evidenceQuery,
    climbFitId: FitId.optional().describe('An earlier fit of climbs; default: the current one'),
    fuelFitId: FitId.optional().describe('An earlier fit of burns; default: the current one'),
  })
  .refine(oneMass, ONE_MASS)

export type TradeOffQuery = z.infer<typeof TradeOffQuery>

const Figure = z.object({ value: z.number(), interval95: Interval })

export const FrontVerdict = z
  .enum(['onFront', 'beaten', 'open', 'leftOut'])
  .describe('onFront: at least 95 % sure; beaten: at most 5 %; leftOut: not known well enough')
  .meta({ id: 'FrontVerdict' })

export type FrontVerdict = z.infer<typeof FrontVerdict>

export const TradeOffSetup = z
  .object({
    setupId: Id,
    name: z.string(),
    climbRateMps: Figure,
    fuelFlowLPerH: Figure,
    onFront: z
      .boolean()
      .describe('By the estimates: no other one climbs at least as well on no more fuel'),
    probabilityOnFront: z
      .number()
      .min(0)
      .max(1)
      .describe('Share of seeded draws from both fits in which that is so'),
    verdict: FrontVerdict,
    sentence: z.string(),
    ...besideFinding({ verdict: FrontVerdict, probabilityOnFront: z.number().nullable() }),
  })
  .meta({ id: 'TradeOffSetup' })

export const TradeOff = z
  .object({
    climbFitId: FitId,
    fuelFitId: FitId,
    conditions: Conditions,
    otherFits: OtherFits,
    setups: z.array(TradeOffSetup).describe('Likeliest on the front first'),
    leftOut: z
      .array(z.object({ setupId: Id, name: z.string(), refused: Refused }))
      .describe('Not known well enough in both, or not linked with the others'),
    setAside: z
      .array(z.object({ setupId: Id, name: z.string() }))
      .describe('Reported unsafe: not recommended whatever they measure'),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'TradeOff' })

export type TradeOff = z.infer<typeof TradeOff>
export type TradeOffSetup = z.infer<typeof TradeOffSetup>
