import { z } from 'zod'

import { freeText } from '../../contract/free-text.ts'
import { Id } from '../../contract/ids.ts'
import { PageQuery, pageOf } from '../../contract/pagination.ts'

const inWords = freeText(2000).refine((text) => /\S/.test(text), 'Say it in words')

const SUBJECTS = ['setupId', 'componentId', 'submissionId'] as const

const kind = z
  .enum(['unsafe', 'wrong'])
  .describe('unsafe: somebody may get hurt; wrong: a record is not true')

export const NewReport = z
  .strictObject({
    setupId: Id.optional().describe('The set-up it is about'),
    componentId: Id.optional().describe('The component it is about'),
    submissionId: Id.optional().describe('The submission it is about'),
    kind,
    text: inWords.describe('What is wrong; read by moderators'),
  })
  .superRefine((report, context) => {
    if (SUBJECTS.some((field) => report[field] !== undefined)) return
    const message = 'Say what it is about: setupId, componentId or submissionId'
    context.addIssue({ code: 'custom', path: ['setupId'], message })
  })
  .meta({ id: 'NewReport' })

export type NewReport = z.infer<typeof NewReport>

const subject = {
  setupId: Id.nullable(),
  componentId: Id.nullable(),
  submissionId: Id.nullable(),
}

export const Report = z
  .strictObject({
    id: Id,
    ...subject,
    kind,
    text: z.string(),
    createdAt: z.iso.datetime(),
    safety: z
      .enum(['none', 'advisory'])
      .describe('What the report did to the set-up at once; moderators decide on more'),
  })
  .meta({ id: 'Report' })

export type Report = z.infer<typeof Report>

export const Decision = z
  .enum(['doNotFly', 'advisory', 'lift', 'dismiss', 'keep', 'setAside'])
  .describe(
    'doNotFly, advisory: that state for the set-up, or for every set-up with the component; lift: what was in force no longer is; dismiss: there was nothing in it, and what it put in force is lifted. Of an outlier: setAside: that revision is no evidence from now on, and a correction of it is again; keep: it is evidence, also where it was set aside before',
  )

export type Decision = z.infer<typeof Decision>

export const NewDecision = z
  .strictObject({
    decision: Decision,
    reason: inWords.describe('Why; of doNotFly and advisory it is shown to everybody'),
  })
  .meta({ id: 'NewDecision' })

export type NewDecision = z.infer<typeof NewDecision>

export const Review = z
  .strictObject({
    id: Id.describe('Of the report'),
    accountId: Id.describe('Who reported, or submitted the measurement'),
    origin: z
      .enum(['person', 'measurement', 'fit'])
      .describe('fit: the session stands out among all others'),
    kind: z
      .enum(['unsafe', 'wrong', 'outlier'])
      .describe(
        'unsafe: somebody may get hurt; wrong: a record is not true; outlier: a session does not fit the rest',
      ),
    text: z.string(),
    ...subject,
    revision: z
      .int()
      .nullable()
      .describe('Of an outlier: the revision of the submission it is about'),
    setAside: z.boolean().describe('That revision is no evidence now'),
    createdAt: z.iso.datetime(),
    decidedAt: z.iso
      .datetime()
      .nullable()
      .describe('When it was last decided on; null while it waits'),
    findings: z
      .array(
        z.strictObject({
          id: Id,
          setupId: Id,
          state: z.enum(['advisory', 'doNotFly']),
          reason: z.string(),
          createdAt: z.iso.datetime(),
          liftedAt: z.iso.datetime().nullable(),
          liftedById: Id.nullable(),
          liftedReason: z.string().nullable(),
        }),
      )
      .describe('What came of it for the safety of set-ups, oldest first; in force until lifted'),
    decisions: z
      .array(
        z.strictObject({
          at: z.iso.datetime(),
          accountId: Id.nullable(),
          decision: Decision,
          reason: z.string(),
        }),
      )
      .describe('Oldest first'),
  })
  .meta({ id: 'Review' })

export type Review = z.infer<typeof Review>

export const ReviewPage = pageOf(Review).meta({ id: 'ReviewPage' })

export const ReviewQuery = PageQuery.extend({
  state: z
    .enum(['waiting', 'inForce', 'closed'])
    .default('waiting')
    .describe(
      'waiting: no decision yet; inForce: something of it holds for a set-up, or a session is set aside; closed: decided, and nothing holds',
    ),
  setupId: Id.optional().describe('Only what is about this set-up'),
})

export type ReviewQuery = z.infer<typeof ReviewQuery>

const AuditEvent = z
  .strictObject({
    id: z.string().describe('Rises with time'),
    at: z.iso.datetime(),
    actorId: Id.nullable().describe('Account that did it; null: the service itself'),
    action: z.string(),
    subjectKind: z.enum(['report', 'component', 'setup', 'submission', 'account', 'import']),
    subjectId: Id,
    detail: z.record(z.string(), z.unknown()),
  })
  .meta({ id: 'AuditEvent' })

export type AuditEvent = z.infer<typeof AuditEvent>

export const AuditPage = pageOf(AuditEvent).meta({ id: 'AuditPage' })

export const AuditQuery = PageQuery.extend({
  subjectId: Id.optional().describe(
    'Only what was done to this report, set-up, submission or account',
  ),
})

export type AuditQuery = z.infer<typeof AuditQuery>
