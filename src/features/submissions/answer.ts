import { z } from 'zod'

import { Id } from '../../contract/ids.ts'
import { pageOf } from '../../contract/pagination.ts'
import { CrossCheck } from './normalizations/cross-check.ts'
import { RunKind, reportedRun } from './run-kinds.ts'
import { publicRunResult, runResult, warning } from './run-result.ts'
import { NewNormalization, NewSubmission } from './schema.ts'

const method = {
  methodVersion: z.string().describe('Version of the normalisation that gave these results'),
  referenceId: z.string().describe('Reference state of these results'),
}

const submissionWarnings = z.array(warning).describe('Doubts that belong to no single run')

const cautions = z
  .array(z.string())
  .describe('What must not be flown comes first; then what to heed at runs of these kinds')

const fullEntry = z.object({
  ...NewSubmission.shape.entries.element.shape,
  runs: z.array(reportedRun(runResult)),
})

const setAside = z
  .boolean()
  .describe(
    'A moderator has taken the revision shown out of the evidence; a corrected one counts again',
  )

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
    setAside,
    importId: Id.optional().describe('The import of a notebook that brought it in'),
    guestPilotId: Id.optional().describe(
      'Pseudonym of who flew, where that was not the account itself',
    ),
    ...method,
    ...NewSubmission.shape,
    entries: z.array(fullEntry),
    warnings: submissionWarnings,
    cautions,
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

const publicRun = z.object({ kind: RunKind, ...publicRunResult })

/** A submission as everybody sees it: what was found, not who, where or on which day. */
export const PublicSubmission = z
  .object({
    view: z.literal('public'),
    id: Id,
    revision: z.int().min(1),
    setAside,
    ...method,
    flownIn: z.string().describe('Month of the flights, YYYY-MM'),
    conditions: publicConditions,
    interest: NewSubmission.shape.interest,
    cautions,
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
        runs: z.array(reportedRun({ ...runResult, crossCheck: CrossCheck.nullable().optional() })),
      }),
    ),
    warnings: submissionWarnings,
    cautions,
  })
  .meta({ id: 'Normalization' })

export type Normalization = z.infer<typeof Normalization>
