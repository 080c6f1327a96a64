import { z } from 'zod'

import { Id } from '../../contract/ids.ts'
import { pageOf } from '../../contract/pagination.ts'
import { RunKind, reportedRun } from './run-kinds.ts'
import { NewNormalization, NewSubmission } from './schema.ts'

const warning = z.object({
  pointer: z.string().describe('JSON Pointer (RFC 6901) into the submission body'),
  code: z.string(),
  detail: z.string(),
})

const budgetLine = z.object({
  source: z.string().describe('What varies'),
  standardUncertainty: z.number().describe('Its part, in the unit of the value, k = 1'),
  share: z.number().describe('Fraction of the variance of the value; the shares sum to 1'),
  sharedWithinSession: z
    .boolean()
    .describe('True where all runs of the session carry the same error, so that it cancels'),
})

const normalized = z
  .object({
    metric: z.enum(['climbRate', 'fuelFlow']),
    value: z.number().describe('The result at the reference state, in `unit`'),
    unit: z.enum(['m/s', 'L/h']),
    standardUncertainty: z.number().describe('Of `value`, in its unit, k = 1'),
    budget: z.array(budgetLine),
    inducedPowerW: z
      .number()
      .optional()
      .describe('Climb: useful induced power at full throttle, standard sea level [W]'),
    thrustN: z
      .number()
      .optional()
      .describe('Climb: thrust in the climb at the reference state [N]'),
    climbRateMps: z
      .number()
      .optional()
      .describe('Climb: climb rate at the reference state [m/s]; negative where it would sink'),
    fuelFlowLPerH: z
      .number()
      .optional()
      .describe('Fuel burn: flow in level flight at the reference state, volume at 15 °C [L/h]'),
  })
  .meta({ id: 'Normalized', description: 'A run brought to the reference state' })

const method = {
  methodVersion: z.string().describe('Version of the normalisation that gave these results'),
  referenceId: z.string().describe('Reference state of these results'),
}

const result = { normalized, warnings: z.array(warning) }
const submissionWarnings = z.array(warning).describe('Doubts that belong to no single run')

const fullEntry = z.object({
  ...NewSubmission.shape.entries.element.shape,
  runs: z.array(reportedRun(result)),
})

/** A submission as its owner and moderators see it: everything that was given, with the results. */
export const FullSubmission = z
  .object({
    view: z.literal('full'),
    id: Id,
    revision: z.int().min(1).describe('Number of the revision shown'),
    currentRevision: z.int().min(1).describe('Number of the revision that counts'),
    accountId: Id.describe('Who submitted'),
    createdAt: z.iso.datetime().describe('When the submission came in'),
    revisedAt: z.iso.datetime().describe('When the revision shown came in'),
    withdrawnAt: z.iso.datetime().nullable(),
    ...method,
    ...NewSubmission.shape,
    entries: z.array(fullEntry),
    warnings: submissionWarnings,
  })
  .meta({ id: 'FullSubmission' })

export type FullSubmission = z.infer<typeof FullSubmission>

const publicConditions = z
  .object({
    elevationM: z.number().describe('Height of the field, to the nearest 50 m'),
    temperatureC: z.number().describe('To the nearest degree [°C]'),
    relativeHumidityPct: z.number().optional().describe('To the nearest 10 %'),
    windMps: z.number().optional().describe('To the nearest 1 m/s'),
    airMotion: NewSubmission.shape.conditions.shape.airMotion,
  })
  .describe('Rounded, so that they do not lead to a place, a day or a person')

const publicRun = z.object({
  kind: RunKind,
  normalized,
  warnings: z.array(warning.omit({ detail: true })).describe('Without the values they speak of'),
})

/** A submission as everybody sees it: what was found, not who, where or on which day. */
export const PublicSubmission = z
  .object({
    view: z.literal('public'),
    id: Id,
    revision: z.int().min(1),
    ...method,
    flownIn: z.string().describe('Month of the flights, YYYY-MM'),
    conditions: publicConditions,
    interest: NewSubmission.shape.interest,
    entries: z.array(z.object({ setupId: Id, runs: z.array(publicRun) })),
  })
  .meta({ id: 'PublicSubmission' })

export type PublicSubmission = z.infer<typeof PublicSubmission>

/** What `GET` answers: which of the two depends on who asks. */
export const Submission = z.discriminatedUnion('view', [FullSubmission, PublicSubmission])

export type Submission = z.infer<typeof Submission>

export const SubmissionPage = pageOf(Submission)

export const RevisionPage = pageOf(FullSubmission)

/** The results of runs that are not stored. */
export const Normalization = z
  .object({
    ...method,
    entries: z.array(
      z.object({
        ...NewNormalization.shape.entries.element.shape,
        runs: z.array(reportedRun(result)),
      }),
    ),
    warnings: submissionWarnings,
  })
  .meta({ id: 'Normalization' })

export type Normalization = z.infer<typeof Normalization>
