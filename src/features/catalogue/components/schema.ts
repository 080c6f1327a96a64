import { z } from 'zod'

import { Id } from '../../../contract/ids.ts'
import { pageOf } from '../../../contract/pagination.ts'
import { quantity } from '../../../contract/quantities.ts'
import { SearchQuery } from '../list-query.ts'
import { isOneLine, UNWANTED_MESSAGE } from '../text.ts'

/** A name as it is shown: one line, single spaces. */
const Name = z
  .string()
  .normalize('NFC')
  .overwrite((text) => text.replace(/\s+/gu, ' ').trim())
  .min(1)
  .max(80)
  .refine(isOneLine, UNWANTED_MESSAGE)

const Price = z
  .strictObject({
    amount: z.number().min(0).max(1_000_000).describe('In units of the currency'),
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/, 'Must be a code of ISO 4217, such as EUR')
      .describe('ISO 4217'),
    asOf: z.iso
      .date()
      .refine((day) => day >= '1980-01-01' && day <= '2100-01-01', 'Must be a day since 1980')
      .describe('Day on which the price was seen'),
  })
  .describe('What it cost, and when')

const named = { maker: Name.describe('Who makes it'), model: Name.describe('What it is sold as') }

const NewPowerplant = z
  .strictObject({
    kind: z.literal('powerplant'),
    ...named,
    drive: z.enum(['twoStroke', 'fourStroke', 'electric']),
    displacementCc: quantity('cm³', 10, 2000).describe('Swept volume [cm³]').optional(),
    ratedPowerKw: quantity('kW', 0.5, 100).describe('Power stated by the maker [kW]').optional(),
    ratedRpm: quantity('1/min', 500, 16_000)
      .describe('Engine speed at ratedPowerKw [1/min]')
      .optional(),
    reductionRatio: quantity('1', 1, 6)
      .describe('Engine revolutions per propeller revolution')
      .optional(),
    tune: z
      .enum(['asDelivered', 'modified'])
      .describe(
        'modified: exhaust, carburettor, timing or the like changed; unstated counts as asDelivered',
      )
      .optional(),
    massKg: quantity('kg', 0.5, 100)
      .describe('Mass with exhaust and reduction, dry [kg]')
      .optional(),
    price: Price.optional(),
  })
  .meta({ id: 'NewPowerplant' })

const NewPropeller = z
  .strictObject({
    kind: z.literal('propeller'),
    ...named,
    diameterCm: quantity('cm', 60, 200).describe('Diameter of the disc [cm]'),
    pitchCm: quantity('cm', 10, 250).describe('Pitch stated by the maker [cm]').optional(),
    blades: z.int().min(1).max(8).describe('Number of blades').optional(),
    material: Name.describe('Such as carbon or wood').optional(),
    massKg: quantity('kg', 0.1, 15).describe('Mass [kg]').optional(),
    price: Price.optional(),
  })
  .meta({ id: 'NewPropeller' })

const NewFrame = z
  .strictObject({
    kind: z.literal('frame'),
    ...named,
    hoopInnerDiameterCm: quantity('cm', 60, 250)
      .describe('Inner diameter of the cage hoop [cm]')
      .optional(),
    hoopDepthMm: quantity('mm', 5, 500)
      .describe('Depth of the hoop along the flow [mm]')
      .optional(),
    thrustLineAboveMountsMm: quantity('mm', -1000, 1000)
      .describe('Height of the propeller axis above the hang points [mm]; negative below')
      .optional(),
    massKg: quantity('kg', 0.5, 100)
      .describe('Mass with harness, without powerplant [kg]')
      .optional(),
    price: Price.optional(),
  })
  .meta({ id: 'NewFrame' })

const NewWing = z
  .strictObject({
    kind: z.literal('wing'),
    ...named,
    flatAreaM2: quantity('m²', 8, 50).describe('Flat area [m²]'),
    glideRatio: quantity('1', 4, 12)
      .describe('Best glide ratio stated for the wing; that of the whole system is lower')
      .optional(),
    trimSpeedMps: quantity('m/s', 5, 25)
      .describe('Airspeed at trim in standard air at sea level [m/s], at trimAtAllUpMassKg')
      .optional(),
    trimAtAllUpMassKg: quantity('kg', 60, 500)
      .describe('All-up mass that trimSpeedMps belongs to [kg]')
      .optional(),
    price: Price.optional(),
  })
  .meta({ id: 'NewWing' })

export const NewComponent = z
  .discriminatedUnion('kind', [NewPowerplant, NewPropeller, NewFrame, NewWing])
  .meta({ id: 'NewComponent' })

export type NewComponent = z.infer<typeof NewComponent>

export const COMPONENT_KINDS = ['powerplant', 'propeller', 'frame', 'wing'] as const

export type ComponentKind = (typeof COMPONENT_KINDS)[number]

const stored = {
  createdAt: z.iso.datetime(),
  mergedIntoId: Id.optional().describe(
    'The id asked for is of a duplicate that was merged; this is the component that remains, and the one shown',
  ),
}

export const Component = z
  .discriminatedUnion('kind', [
    z.strictObject({ id: Id, ...NewPowerplant.shape, ...stored }).meta({ id: 'Powerplant' }),
    z.strictObject({ id: Id, ...NewPropeller.shape, ...stored }).meta({ id: 'Propeller' }),
    z.strictObject({ id: Id, ...NewFrame.shape, ...stored }).meta({ id: 'Frame' }),
    z.strictObject({ id: Id, ...NewWing.shape, ...stored }).meta({ id: 'Wing' }),
  ])
  .meta({ id: 'Component' })

export type Component = z.infer<typeof Component>

export const ComponentQuery = SearchQuery.extend({
  kind: z.enum(COMPONENT_KINDS).optional().describe('Only components of this kind'),
})

export type ComponentQuery = z.infer<typeof ComponentQuery>

export const ComponentPage = pageOf(Component).meta({ id: 'ComponentPage' })
