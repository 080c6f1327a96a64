import { z } from 'zod'

import { Id } from '../../../contract/ids.ts'
import { pageOf } from '../../../contract/pagination.ts'
import { SearchQuery } from '../list-query.ts'
import { isPlainText, UNWANTED_MESSAGE } from '../text.ts'

export const NewSetup = z
  .strictObject({
    powerplantId: Id.describe('A powerplant of the catalogue'),
    propellerId: Id.describe('A propeller of the catalogue'),
    frameId: Id.describe('A frame of the catalogue'),
    note: z
      .string()
      .trim()
      .min(1)
      .max(500)
      .refine(isPlainText, UNWANTED_MESSAGE)
      .describe('What the three parts do not say; public')
      .optional(),
  })
  .meta({ id: 'NewSetup' })

export type NewSetup = z.infer<typeof NewSetup>

const SafetyReport = z
  .strictObject({
    id: Id,
    state: z.enum(['advisory', 'doNotFly']),
    reason: z.string(),
    createdAt: z.iso.datetime(),
    liftedAt: z.iso.datetime().optional(),
    liftedReason: z.string().optional(),
  })
  .meta({ id: 'SafetyReport' })

export const Safety = z
  .strictObject({
    state: z
      .enum(['none', 'advisory', 'doNotFly'])
      .describe(
        'The worst report that is not lifted. none: nothing was reported, which does not mean that the setup is safe',
      ),
    reports: z.array(SafetyReport).describe('Newest first, lifted ones included'),
  })
  .meta({ id: 'Safety' })

export type Safety = z.infer<typeof Safety>

const part = { id: Id, maker: z.string(), model: z.string() }

export const Setup = z
  .strictObject({
    id: Id,
    name: z.string().describe('Powerplant, propeller and frame, for people to read'),
    powerplantId: Id,
    propellerId: Id,
    frameId: Id,
    powerplant: z.strictObject({
      ...part,
      drive: z.enum(['twoStroke', 'fourStroke', 'electric']),
      tune: z.enum(['asDelivered', 'modified']).nullable(),
    }),
    propeller: z.strictObject({
      ...part,
      diameterCm: z.number().describe('Diameter of the disc [cm]'),
    }),
    frame: z.strictObject(part),
    note: z.string().optional(),
    safety: Safety,
    createdAt: z.iso.datetime(),
    mergedIntoId: Id.optional().describe(
      'The id asked for is of a duplicate that was merged; this is the setup that remains, and the one shown',
    ),
  })
  .meta({ id: 'Setup' })

export type Setup = z.infer<typeof Setup>

export const SetupQuery = SearchQuery.extend({
  powerplantId: Id.optional().describe('Only setups with this powerplant'),
  propellerId: Id.optional().describe('Only setups with this propeller'),
  frameId: Id.optional().describe('Only setups with this frame'),
})

export type SetupQuery = z.infer<typeof SetupQuery>

export const SetupPage = pageOf(Setup).meta({ id: 'SetupPage' })
