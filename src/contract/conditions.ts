import { z } from 'zod'

import { MASS_CLASSES } from '../core/comparison/mass-classes.ts'
import { Id } from './ids.ts'
import { ApiProblem } from './problems.ts'
import { queryQuantity } from './quantities.ts'

export const MassClass = z
  .enum(Object.keys(MASS_CLASSES) as [keyof typeof MASS_CLASSES])
  .describe('Class of all-up mass [kg]; conditions take 90, 110, 130, 155 or 210 kg for it')
  .meta({ id: 'MassClass' })

export const FitId = z
  .string()
  .regex(/^fit_[0-9a-f]{32}$/)
  .describe('Hash of the evidence and of the versions of method and model')

/** Query parameters of every answer at the caller's conditions. */
export const conditionsQuery = {
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
}

/** True where not both a mass and its class are given; with {@link ONE_MASS} for a refinement. */
export function oneMass(query: {
  allUpMassKg?: number | undefined
  massClass?: string | undefined
}): boolean {
  return query.allUpMassKg === undefined || query.massClass === undefined
}

export const ONE_MASS = { path: ['massClass'], error: 'give massClass or allUpMassKg, not both' }

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

export type Conditions = z.infer<typeof Conditions>

/** The problem for a wing that is not in the catalogue. */
export function unknownWing(): ApiProblem {
  return new ApiProblem('unknown-reference', {
    errors: [{ pointer: '/wingId', detail: 'is not a wing of the catalogue' }],
  })
}
