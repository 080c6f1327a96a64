import { z } from 'zod'

import { besideFinding } from '../../contract/beside.ts'
import { EvidenceCount, Interval, OtherFits, Refused, Safety } from '../../contract/evidence.ts'
import { Id } from '../../contract/ids.ts'
import { PREDICTED } from '../../core/prediction/forecast.ts'
import { BASES, type Basis } from '../../core/prediction/question.ts'
import { PREDICTION_REFUSALS } from '../../core/prediction/refusal.ts'

const NotPredicted = z
  .object({
    reasonCode: z.enum([...Refused.shape.reasonCode.options, ...PREDICTION_REFUSALS]),
    reason: z.string(),
  })
  .meta({ id: 'NotPredicted' })

export const PredictedQuantity = z
  .object({
    value: z.number().nullable().describe('Null where refused'),
    unit: z.string(),
    standardUncertainty: z.number().nullable().describe('k = 1, with your own unknowns'),
    interval95: Interval.nullable().describe('Of the mean over pilots and evenings'),
    interval95NextEvening: Interval.nullable().describe(
      'Of what one pilot sees on one evening; null where no flights stand behind the quantity',
    ),
    budget: z
      .array(z.object({ source: z.string(), standardUncertainty: z.number(), share: z.number() }))
      .describe(
        'What the uncertainty is made of, largest first; shares of the variance below 0.001 left out',
      ),
    refused: NotPredicted.optional().describe('Why no value is given'),
    ...besideFinding({
      value: z
        .number()
        .nullable()
        .describe(
          'Another finding where it lies outside interval95, or where only one of the two is refused',
        ),
    }),
  })
  .meta({ id: 'PredictedQuantity' })

export type PredictedQuantity = z.infer<typeof PredictedQuantity>

const DESCRIPTIONS: Readonly<Record<(typeof PREDICTED)[number], string>> = {
  climbRate: 'Full-throttle climb',
  climbThrust: 'Thrust in that climb, along the path',
  climbAngle: 'Angle of that climb through the air',
  airspeed: 'Level airspeed at trim, at the start',
  fuelFlow: 'In level flight at the start, volume at 15 °C',
  litresPer100Km: 'Through still air at the start, volume at 15 °C',
  electricPower: 'Out of the battery in level flight at the start',
  staticThrust: 'At full power, standing still',
  endurance: 'Level flight on the tank less its reserve, the wing getting lighter',
  range: 'Through still air on the tank less its reserve',
  densityAltitude: 'Where the standard atmosphere has the density of the field',
  fullThrottlePowerRatio: 'Full-throttle power over that at sea level in standard air',
  engineRpm:
    'To be expected at full throttle if the propeller suits the rated speed; for plausibility only',
  propellerRpm: 'The same behind the reduction',
  tipMach: 'Mach number of the propeller tips at that speed',
}

function ofEachBasis<T>(schema: T): Record<Basis, T> {
  return Object.fromEntries(BASES.map((basis) => [basis, schema])) as Record<Basis, T>
}

const value = z.object({ value: z.number(), standardUncertainty: z.number() })

export const Prediction = z
  .object({
    setupId: Id,
    name: z.string(),
    fits: z
      .object(ofEachBasis(z.string()))
      .describe(
        'What climb, fuel, electric power and static thrust rest on; name all in fitId to have this answer again',
      ),
    otherFits: OtherFits,
    conditions: z
      .object({
        elevationM: z.number(),
        airDensityKgPerM3: z.number(),
        allUpMassKg: value,
        temperatureC: value,
        stationPressureHPa: value,
        relativeHumidityPct: value,
        wing: z.object({
          id: z.string().nullable(),
          flatAreaM2: z.number(),
          glideRatio: value.describe('Of the system: wing, pilot and running frame'),
          trimSpeedMps: value.describe('Level, at the all-up mass beside it, sea level'),
          trimAtAllUpMassKg: value,
        }),
        tank: z
          .object({
            tankL: value,
            reserveL: z.number().optional(),
            reserveMin: z.number().optional(),
          })
          .nullable(),
        assumed: z
          .array(z.string())
          .describe('What was taken for granted because the query left it open'),
      })
      .describe('As asked for and filled in, each value with its standard uncertainty'),
    predictions: z.object(
      Object.fromEntries(
        PREDICTED.map((name) => [name, PredictedQuantity.describe(DESCRIPTIONS[name])]),
      ) as Record<(typeof PREDICTED)[number], typeof PredictedQuantity>,
    ),
    evidence: z.object(ofEachBasis(EvidenceCount)),
    safety: Safety,
    cautions: z.array(z.string()),
  })
  .meta({ id: 'Prediction' })

export type Prediction = z.infer<typeof Prediction>
