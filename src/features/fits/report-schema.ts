import { z } from 'zod'

import { Id } from '../../contract/ids.ts'

const Session = z
  .object({
    submissionId: Id.describe(
      'A session is one submission, and does not say whose; one of a mirrored release has none to read',
    ),
    cells: z.int().describe('Setups flown in it'),
    chiSquare: z
      .number()
      .describe('Distance of its setups’ means from what all others predict, squared and weighted'),
    degreesOfFreedom: z.int(),
    pValue: z.number().describe('Adjusted for the number of sessions (Holm)'),
    flagged: z
      .boolean()
      .describe('Stands out by more than chance, or holds a run that does: it is to be looked at'),
    levelShift: z
      .number()
      .describe('The part of it that moves all its setups alike, in standard deviations'),
    soleEvidence: z
      .boolean()
      .describe('The rest says nothing about one of its setups, so its influence has no number'),
    mostMoved: z
      .object({
        a: Id,
        b: Id,
        changePercent: z.number().describe('Change of a against b if this session is left out'),
        inStandardErrors: z.number(),
      })
      .nullable(),
  })
  .meta({ id: 'SessionInfluence' })

const Run = z
  .object({
    submissionId: Id,
    pointer: z.string().nullable().describe('Place of the run in its submission (RFC 6901)'),
    setupId: Id,
    residual: z.number().describe('In standard deviations; above zero: higher than expected'),
    pValue: z.number().describe('Adjusted for the number of runs (Holm)'),
  })
  .meta({ id: 'OutlyingRun' })

const Split = z
  .object({
    a: Id,
    b: Id,
    sessions: z.int().describe('Sessions that hold both'),
    differencePercent: z
      .number()
      .describe('What sessions with both say of a against b, beyond what all others say'),
    standardErrorPercent: z.number(),
    pValue: z.number().describe('Adjusted for the number of pairs (Holm)'),
  })
  .meta({ id: 'NodeSplit' })

const weight = z.number().min(0).max(1).describe('1: counts in full, and is not listed')

/** What counts less in a robust fit. */
export const Downweighted = z
  .object({
    sessions: z.array(z.object({ submissionId: Id, weight })).describe('Lightest first'),
    setupsOfSessions: z.array(z.object({ submissionId: Id, setupId: Id, weight })),
    runs: z.array(
      z.object({ submissionId: Id, pointer: z.string().nullable(), setupId: Id, weight }),
    ),
    counts: z
      .object({ sessions: z.int(), setupsOfSessions: z.int(), runs: z.int() })
      .describe('How many count less; the lists stop at 30'),
    moved: z
      .array(z.object({ setupId: Id, changePercent: z.number() }))
      .describe('Setups that the weights move most, against the mean change of all'),
  })
  .meta({ id: 'Downweighted' })

export type Downweighted = z.infer<typeof Downweighted>

const wald = { statistic: z.number(), degreesOfFreedom: z.int(), pValue: z.number() }

/** What stands out in a fit. */
export const FitReport = z
  .object({
    influence: z.object({
      flaggedSessions: z.int(),
      soleEvidenceSessions: z.int(),
      sessions: z.array(Session).describe('Flagged ones first, then those that move a pair most'),
    }),
    outliers: z.object({ runs: z.array(Run) }),
    consistency: z.object({
      designs: z
        .object({ ...wald, designs: z.int() })
        .nullable()
        .describe('Whether sets of setups flown together agree with one another, sessions fixed'),
      splits: z.array(Split).describe('Direct against indirect evidence, largest doubt first'),
    }),
    mass: z
      .object({
        ...wald,
        setups: z.array(
          z.object({
            setupId: Id,
            percentPerTenPercentMass: z
              .number()
              .describe('How its advantage changes where the all-up mass is 10 % more'),
            standardErrorPercent: z.number(),
            pValue: z.number().describe('Adjusted for the number of setups (Holm)'),
          }),
        ),
      })
      .nullable()
      .describe('Whether advantages depend on the all-up mass; null: the flights cannot tell'),
    scatter: z
      .object({
        ratio: z.number().describe('Variance of repeated runs over that declared for them'),
        degreesOfFreedom: z.int(),
        pTooSmall: z.number().describe('Probability of so little scatter if that were right'),
      })
      .nullable()
      .describe('null: no run was repeated, or some declare no uncertainty'),
    identicalCells: z
      .int()
      .describe(
        'Setups within a session with all runs the same number: copied, or read too coarsely',
      ),
  })
  .meta({ id: 'FitReport' })

export type FitReport = z.infer<typeof FitReport>
