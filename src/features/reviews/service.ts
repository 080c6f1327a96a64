import type { PoolClient } from 'pg'

import type { Caller } from '../../contract/caller.ts'
import { ApiProblem, type FieldError } from '../../contract/problems.ts'
import { type AuditEvent, recordAudit } from '../../db/audit.ts'
import type { Database } from '../../db/client.ts'
import { type WriteAnswer, writeOnce } from '../../db/idempotency.ts'
import { getReview } from './queue.ts'
import {
  findAffectedSetups,
  findSubjects,
  insertReport,
  liftFindings,
  lockReport,
  markDecided,
  type ReportHead,
  raiseFindings,
  type SafetyState,
  setAside,
} from './repository.ts'
import type { Decision, NewDecision, NewReport, Report, Review } from './schema.ts'

/** What everybody reads of a report that nobody has looked at; its text is for the moderators. */
const UNREVIEWED = 'Reported as unsafe; a moderator has not looked at the report yet.'

/** A write by somebody, safe to send twice. */
export interface Write<Body> {
  readonly caller: Caller
  readonly idempotencyKey: string | undefined
  readonly body: Body
}

/**
 * Takes a report for the moderators. An unsafe set-up gets an advisory at once.
 *
 * @throws {ApiProblem} unknown-reference, or conflict where the same account said the same before
 */
export function fileReport(
  db: Database,
  { caller, idempotencyKey, body }: Write<NewReport>,
): Promise<WriteAnswer<Report>> {
  const { accountId } = caller
  const request = { accountId, idempotencyKey, target: 'POST /v1/reports', body }
  return writeOnce(db, request, async (client) => {
    await refuseUnknown(client, body)
    const stored = await insertReport(client, accountId, body)
    if (stored === null) {
      throw new ApiProblem('conflict', {
        detail: 'You reported that already; it waits for a moderator.',
      })
    }
    const { text, ...about } = body
    const filed = { action: 'report.filed', subjectKind: 'report', subjectId: stored.id } as const
    await recordAudit(client, [{ ...filed, actorId: accountId, detail: about }])
    const warned = body.kind === 'unsafe' && body.setupId !== undefined
    if (warned) await warnOf(client, { accountId, reportId: stored.id, setupId: body.setupId! })
    const { id, createdAt } = stored
    return {
      status: 201,
      body: {
        id,
        setupId: about.setupId ?? null,
        componentId: about.componentId ?? null,
        submissionId: about.submissionId ?? null,
        kind: about.kind,
        text,
        createdAt: createdAt.toISOString(),
        safety: warned ? 'advisory' : 'none',
      },
    }
  })
}

async function warnOf(
  client: PoolClient,
  report: { readonly accountId: string; readonly reportId: string; readonly setupId: string },
): Promise<void> {
  const { accountId, reportId, setupId } = report
  const setupIds = await findAffectedSetups(client, { setupId, componentId: null })
  const finding = { setupIds, state: 'advisory', reason: UNREVIEWED } as const
  await raiseFindings(client, reportId, finding)
  await recordAudit(client, raisedEvents(finding, { accountId, reportId }))
}

/**
 * Decides on a report: one transaction lifts and raises what follows, and says so in the audit trail.
 *
 * @throws {ApiProblem} not-found, or conflict where the decision has nothing to act on
 */
export function decide(
  db: Database,
  { caller, idempotencyKey, body }: Write<NewDecision>,
  reportId: string,
): Promise<WriteAnswer<Review>> {
  const { accountId } = caller
  const target = `POST /v1/reviews/${reportId}/decisions`
  return writeOnce(db, { accountId, idempotencyKey, target, body }, async (client) => {
    const report = await lockReport(client, reportId)
    if (report === null) {
      throw new ApiProblem('not-found', { detail: `There is no report ${reportId}.` })
    }
    const { decision, reason } = body
    const decided = {
      action: 'report.decided',
      subjectKind: 'report',
      subjectId: report.id,
    } as const
    const carry = report.isOutlier ? carryOutOnEvidence : carryOut
    const events = await carry(client, report, { ...body, accountId })
    await markDecided(client, report.id)
    const first = { ...decided, actorId: accountId, detail: { decision, reason } }
    await recordAudit(client, [first, ...events])
    return { status: 201, body: await getReview(client, report.id) }
  })
}

/** An outlier is evidence or is none; it says nothing about safety. */
async function carryOutOnEvidence(
  client: PoolClient,
  report: ReportHead,
  { decision, reason, accountId }: Deciding,
): Promise<AuditEvent[]> {
  if (decision !== 'keep' && decision !== 'setAside') {
    throw new ApiProblem('conflict', { detail: 'Of an outlier decide keep or setAside.' })
  }
  const aside = decision === 'setAside'
  if (report.setAside === aside) return []
  await setAside(client, report.id, aside)
  return [
    {
      actorId: accountId,
      action: aside ? 'evidence.setAside' : 'evidence.kept',
      subjectKind: 'submission',
      subjectId: report.submissionId!, // the table holds no outlier without
      detail: { reportId: report.id, reason },
    },
  ]
}

type Deciding = NewDecision & { readonly accountId: string }

type SafetyDecision = Exclude<Decision, 'keep' | 'setAside'>

/** What each decision takes back: a doNotFly stays beside another, all else gives way to what is decided. */
const LIFTED: Readonly<Record<SafetyDecision, readonly SafetyState[]>> = {
  doNotFly: ['advisory'],
  advisory: ['doNotFly', 'advisory'],
  lift: ['doNotFly', 'advisory'],
  dismiss: ['doNotFly', 'advisory'],
}

async function carryOut(
  client: PoolClient,
  report: ReportHead,
  { decision, reason, accountId }: Deciding,
): Promise<AuditEvent[]> {
  if (decision === 'keep' || decision === 'setAside') {
    throw new ApiProblem('conflict', { detail: `Only an outlier is decided on with ${decision}.` })
  }
  const raises = decision === 'doNotFly' || decision === 'advisory'
  const setupIds = raises ? await findAffectedSetups(client, report) : []
  if (raises && setupIds.length === 0) {
    const detail = 'No set-up is meant: the report names none, nor a component that is part of one.'
    throw new ApiProblem('conflict', { detail })
  }
  const states = LIFTED[decision]
  const lifted = await liftFindings(client, report.id, { states, accountId, reason })
  if (decision === 'lift' && lifted.length === 0) {
    throw new ApiProblem('conflict', { detail: 'Nothing of this report is in force.' })
  }
  const events: AuditEvent[] = lifted.map(({ id, setupId, state }) => ({
    actorId: accountId,
    action: 'safety.lifted',
    subjectKind: 'setup',
    subjectId: setupId,
    detail: { safetyReportId: id, reportId: report.id, state, reason },
  }))
  if (!raises) return events
  const finding = { setupIds, state: decision, reason }
  await raiseFindings(client, report.id, finding)
  return [...events, ...raisedEvents(finding, { accountId, reportId: report.id })]
}

function raisedEvents(
  finding: {
    readonly setupIds: readonly string[]
    readonly state: SafetyState
    readonly reason: string
  },
  { accountId, reportId }: { readonly accountId: string; readonly reportId: string },
): AuditEvent[] {
  const { setupIds, state, reason } = finding
  return setupIds.map((subjectId) => ({
    actorId: accountId,
    action: 'safety.raised',
    subjectKind: 'setup',
    subjectId,
    detail: { reportId, state, reason },
  }))
}

async function refuseUnknown(client: PoolClient, report: NewReport): Promise<void> {
  const known = await findSubjects(client, report)
  const named = { setupId: 'set-up', componentId: 'component', submissionId: 'submission' } as const
  const errors: FieldError[] = []
  for (const field of ['setupId', 'componentId', 'submissionId'] as const) {
    if (report[field] === undefined || known[field]) continue
    errors.push({ pointer: `/${field}`, detail: `There is no ${named[field]} ${report[field]}.` })
  }
  if (errors.length > 0) throw new ApiProblem('unknown-reference', { errors })
}
