import { z } from 'zod'

import { Conditions, conditionsQuery, FitId, ONE_MASS, oneMass } from '../../contract/conditions.ts'
import { Interval, Refused } from '../../contract/evidence.ts'
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
    climbFitId: FitId.optional().describe('An earlier fit of climbs; default: the current one'),
    fuelFitId: FitId.optional().describe('An earlier fit of burns; default: the current one'),
  })
  .refine(oneMass, ONE_MASS)

export type TradeOffQuery = z.infer<typeof TradeOffQuery>

const Figure = z.object({ value: z.number(), interval95: Interval })

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
    sentence: z.string(),
  })
  .meta({ id: 'TradeOffSetup' })

export const TradeOff = z
  .object({
    climbFitId: FitId,
    fuelFitId: FitId,
    conditions: Conditions,
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
