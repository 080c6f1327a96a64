import { z } from 'zod'

import { quantity, queryQuantity } from '../../../contract/quantities.ts'
import { NOISE_LEVEL_DB_A } from '../../../core/safety/noise-exposure.ts'

export const NoiseExposureQuery = z.object({
  levelDbA: queryQuantity('dB(A)', NOISE_LEVEL_DB_A.min, NOISE_LEVEL_DB_A.max).describe(
    'A-weighted level where the ear is, without protection [dB(A)]; no time is permitted above 140',
  ),
  durationMin: queryQuantity('min', 0, 1440)
    .optional()
    .describe('Time in a day at that level [min]: then the answer has its dose'),
})

export type NoiseExposureQuery = z.infer<typeof NoiseExposureQuery>

export const NoiseExposure = z
  .strictObject({
    levelDbA: z.number(),
    permissibleExposureMin: z
      .number()
      .describe('Time a day may hold this level, if the rest of the day is quiet [min]'),
    permissibleExposure: z.string().describe('The same in hours, minutes and seconds'),
    dosePct: z
      .number()
      .optional()
      .describe('Daily dose of the stated time [%]; 100 is what a day may hold'),
    criterion: z.strictObject({
      name: z.string(),
      levelDbA: z.number(),
      referenceDurationMin: z.number(),
      exchangeRateDb: z.number(),
    }),
    assumptions: z.array(z.string()),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'NoiseExposure' })

export type NoiseExposure = z.infer<typeof NoiseExposure>

const mount = z.strictObject({
  stiffnessNPerMm: quantity('N/mm', 1, 10_000).describe(
    "Stiffness along the propeller's axis [N/mm]",
  ),
  heightMm: quantity('mm', -1000, 1000).describe('Height, counted from any level below [mm]'),
})

const TURNING = ['propellerInertiaKgM2', 'propellerRpm', 'yawRateDegPerS'] as const

export const TipClearanceQuestion = z
  .strictObject({
    thrustN: quantity('N', 10, 2500).describe('Thrust at full throttle [N]'),
    thrustLineAboveMountsMm: quantity('mm', -1000, 1000).describe(
      "Height of the propeller's axis, counted from the same level as the mounts' heights [mm]",
    ),
    mounts: z.array(mount).min(2).max(12).describe('Rubber mounts of the engine, each of them'),
    propellerDiameterCm: quantity('cm', 60, 200).describe('Diameter of the propeller [cm]'),
    bladeFlexMm: quantity('mm', 0, 100)
      .optional()
      .describe('How far the blades bend forward under thrust [mm]; absent: taken as nothing'),
    propellerInertiaKgM2: quantity('kg·m²', 0, 5)
      .optional()
      .describe('Moment of inertia of the propeller about its axis [kg·m²]'),
    propellerRpm: quantity('1/min', 300, 5000).optional().describe('Propeller speed [1/min]'),
    yawRateDegPerS: quantity('°/s', 0, 360)
      .optional()
      .describe('Fastest turn to reckon with [°/s]'),
    staticClearanceMm: quantity('mm', 0, 500)
      .optional()
      .describe('Smallest gap between blade tip and frame, measured at rest [mm]'),
  })
  .superRefine((question, context) => {
    const heights = new Set(question.mounts.map(({ heightMm }) => heightMm))
    if (question.mounts.length > 1 && heights.size < 2) {
      const message =
        'At least two mounts must lie at different heights, or nothing resists tilting'
      context.addIssue({ code: 'custom', path: ['mounts'], message })
    }
    const missing = TURNING.filter((field) => question[field] === undefined)
    if (missing.length === TURNING.length) return
    for (const field of missing) {
      const message = `Give ${TURNING.join(', ')} together, or none of them`
      context.addIssue({ code: 'custom', path: [field], message })
    }
  })
  .meta({ id: 'TipClearanceQuestion' })

export type TipClearanceQuestion = z.infer<typeof TipClearanceQuestion>

const estimate = (description: string) =>
  z
    .strictObject({
      value: z.number(),
      standardUncertainty: z.number().describe('k = 1'),
      interval95: z.tuple([z.number(), z.number()]),
    })
    .describe(description)

export const TipClearance = z
  .strictObject({
    topMovementMm: estimate('Of the upper tip towards the cage, turning included [mm]'),
    bottomMovementMm: estimate(
      'Of the lower tip towards the cage, turning included; negative: away from it [mm]',
    ),
    gyroscopicMovementMm: z.number().describe('The part of either that comes from turning [mm]'),
    tiltDeg: z.number().describe('Tilt under thrust alone, the upper tip going forward [°]'),
    requiredClearanceMm: estimate(
      'Clearance needed at rest: 1.5 times the larger movement, the bending of the blades and 10 mm [mm]',
    ),
    budget: z
      .array(
        z.strictObject({
          source: z.string(),
          standardUncertainty: z.number().describe('Its part [mm], k = 1'),
          share: z.number().describe('Fraction of the variance; the shares sum to 1'),
        }),
      )
      .describe('Where the uncertainty of requiredClearanceMm comes from'),
    handPullN: z
      .number()
      .describe('Pull at a blade tip that tilts the propeller as far as full thrust would [N]'),
    comparison: z
      .strictObject({
        staticClearanceMm: z.number(),
        marginMm: estimate('Measured less required clearance [mm]'),
        verdict: z
          .enum(['tooSmall', 'notResolved', 'larger'])
          .describe('larger: the arithmetic finds nothing against it, and no more than that'),
        sentence: z.string(),
      })
      .nullable()
      .describe('Null where no measured clearance was given'),
    assumptions: z.array(z.string()),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'TipClearance' })

export type TipClearance = z.infer<typeof TipClearance>
