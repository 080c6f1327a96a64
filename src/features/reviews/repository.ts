import type { Pool, PoolClient } from 'pg'

import type { NewReport, Review } from './schema.ts'

type Queryable = Pick<Pool | PoolClient, 'query'>

export type SafetyState = 'advisory' | 'doNotFly'

/** A report without its text. */
export interface ReportHead {
  readonly id: string
  readonly setupId: string | null
  readonly componentId: string | null
  readonly submissionId: string | null
  readonly isOutlier: boolean
  readonly setAside: boolean
}

/** Which of the records that a report names do exist. */
export async function findSubjects(
  client: PoolClient,
  { setupId, componentId, submissionId }: Omit<NewReport, 'kind' | 'text'>,
): Promise<Record<'setupId' | 'componentId' | 'submissionId', boolean>> {
  const { rows } = await client.query(
    `SELECT EXISTS (SELECT FROM setup WHERE id = $1) AS "setupId",
            EXISTS (SELECT FROM component WHERE id = $2) AS "componentId",
            EXISTS (SELECT FROM submission WHERE id = $3) AS "submissionId"`,
    [setupId ?? null, componentId ?? null, submissionId ?? null],
  )
  return rows[0]
}

/** Stores a report; null where the same account has said the same and it still waits. */
export async function insertReport(
  client: PoolClient,
  accountId: string,
  report: NewReport,
): Promise<{ id: string; createdAt: Date } | null> {
  const { rows } = await client.query<{ id: string; createdAt: Date }>(
    `INSERT INTO report (account_id, origin, kind, text, setup_id, component_id, submission_id)
     VALUES ($1, 'person', $2, $3, $4, $5, $6)
     ON CONFLICT DO NOTHING
     RETURNING id, created_at AS "createdAt"`,
    [
      accountId,
      report.kind,
      report.text,
      report.setupId ?? null,
      report.componentId ?? null,
      report.submissionId ?? null,
    ],
  )
  return rows[0] ?? null
}

/** The report, locked until the transaction ends, or null. */
export async function lockReport(client: PoolClient, id: string): Promise<ReportHead | null> {
  const { rows } = await client.query<ReportHead>(
    `SELECT id, setup_id AS "setupId", component_id AS "componentId", submission_id AS "submissionId",
            kind = 'outlier' AS "isOutlier", sets_aside AS "setAside"
       FROM report WHERE id = $1 FOR UPDATE`,
    [id],
  )
  return rows[0] ?? null
}

/** The set-ups a report is about: the one it names, or all with the component; merged ones as what remains. */
export async function findAffectedSetups(
  client: PoolClient,
  { setupId, componentId }: Pick<ReportHead, 'setupId' | 'componentId'>,
): Promise<string[]> {
  const { rows } = await client.query<{ id: string }>(
    `SELECT DISTINCT COALESCE(setup.merged_into_id, setup.id) AS id
       FROM setup
       LEFT JOIN component part ON $1::uuid IS NULL
            AND part.id IN (setup.powerplant_id, setup.propeller_id, setup.frame_id)
      WHERE setup.id = $1
         OR COALESCE(part.merged_into_id, part.id) =
            (SELECT COALESCE(merged_into_id, id) FROM component WHERE id = $2)
      ORDER BY id`,
    [setupId, componentId],
  )
  return rows.map((row) => row.id)
}

/** Puts a state on set-ups, because of a report. */
export async function raiseFindings(
  client: PoolClient,
  reportId: string,
  finding: {
    readonly setupIds: readonly string[]
    readonly state: SafetyState
    readonly reason: string
  },
): Promise<void> {
  await client.query(
    `INSERT INTO safety_report (setup_id, state, reason, report_id)
     SELECT setup_id, $2, $3, $4 FROM unnest($1::uuid[]) AS setup_id`,
    [finding.setupIds, finding.state, finding.reason, reportId],
  )
}

/** Lifts what a report put in force, of these states; gives what it was. */
export async function liftFindings(
  client: PoolClient,
  reportId: string,
  lifting: {
    readonly states: readonly SafetyState[]
    readonly accountId: string
    readonly reason: string
  },
): Promise<{ id: string; setupId: string; state: SafetyState }[]> {
  const { rows } = await client.query<{ id: string; setupId: string; state: SafetyState }>(
    `UPDATE safety_report SET lifted_at = now(), lifted_by_id = $3, lifted_reason = $4
      WHERE report_id = $1 AND lifted_at IS NULL AND state = ANY ($2)
  RETURNING id, setup_id AS "setupId", state`,
    [reportId, lifting.states, lifting.accountId, lifting.reason],
  )
  return rows
}

/** Whether the revision that an outlier is about is set aside from now on. */
export async function setAside(client: PoolClient, reportId: string, is: boolean): Promise<void> {
  await client.query('UPDATE report SET sets_aside = $2 WHERE id = $1', [reportId, is])
}

export async function markDecided(client: PoolClient, reportId: string): Promise<void> {
  await client.query('UPDATE report SET decided_at = now() WHERE id = $1', [reportId])
}

const IN_FORCE = `(report.sets_aside OR EXISTS (
  SELECT FROM safety_report
   WHERE safety_report.report_id = report.id AND safety_report.lifted_at IS NULL))`

const STATE = {
  waiting: 'report.decided_at IS NULL',
  inForce: IN_FORCE,
  closed: `report.decided_at IS NOT NULL AND NOT ${IN_FORCE}`,
} as const

/** A row of the queue; times of what is folded in are texts of the database. */
export type ReviewRow = Omit<Review, 'createdAt' | 'decidedAt'> & {
  readonly createdAt: Date
  readonly decidedAt: Date | null
}

/** Reports with what came of them, oldest first. Raw SQL: findings and decisions folded in. */
export async function findReviews(
  source: Queryable,
  search: {
    readonly state: keyof typeof STATE | null
    readonly id?: string
    readonly setupId?: string | undefined
    readonly after: readonly [createdAt: string, id: string] | null
    readonly limit: number
  },
): Promise<ReviewRow[]> {
  const { rows } = await source.query<ReviewRow>(
    `SELECT report.id, report.account_id AS "accountId", report.origin, report.kind, report.text,
            report.setup_id AS "setupId", report.component_id AS "componentId",
            report.submission_id AS "submissionId", report.revision_number AS revision,
            report.sets_aside AS "setAside", report.created_at AS "createdAt",
            report.decided_at AS "decidedAt", findings.list AS findings, decisions.list AS decisions
       FROM report
      CROSS JOIN LATERAL (
        SELECT COALESCE(json_agg(json_build_object(
                 'id', finding.id, 'setupId', finding.setup_id, 'state', finding.state,
                 'reason', finding.reason, 'createdAt', finding.created_at,
                 'liftedAt', finding.lifted_at, 'liftedById', finding.lifted_by_id,
                 'liftedReason', finding.lifted_reason) ORDER BY finding.created_at, finding.id), '[]') AS list
          FROM safety_report finding WHERE finding.report_id = report.id) findings
      CROSS JOIN LATERAL (
        SELECT COALESCE(json_agg(json_build_object(
                 'at', event.at, 'accountId', event.actor_id, 'decision', event.detail -> 'decision',
                 'reason', event.detail -> 'reason') ORDER BY event.id), '[]') AS list
          FROM audit_event event
         WHERE event.subject_id = report.id AND event.action = 'report.decided') decisions
      WHERE ${search.state === null ? 'true' : STATE[search.state]}
        AND ($1::uuid IS NULL OR report.id = $1)
        AND ($2::uuid IS NULL OR report.setup_id = $2
             OR EXISTS (SELECT FROM safety_report
                         WHERE safety_report.report_id = report.id AND safety_report.setup_id = $2))
        AND ($3::timestamptz IS NULL OR (report.created_at, report.id) > ($3, $4::uuid))
      ORDER BY report.created_at, report.id
      LIMIT $5`,
    [
      search.id ?? null,
      search.setupId ?? null,
      search.after?.[0] ?? null,
      search.after?.[1] ?? null,
      search.limit,
    ],
  )
  return rows
}

export interface AuditRow {
  readonly id: string
  readonly at: Date
  readonly actorId: string | null
  readonly action: string
  readonly subjectKind: 'report' | 'setup' | 'submission' | 'account'
  readonly subjectId: string
  readonly detail: Record<string, unknown>
}

/** The audit trail, newest first. */
export async function findAuditEvents(
  source: Queryable,
  search: {
    readonly subjectId: string | undefined
    readonly before: string | null
    readonly limit: number
  },
): Promise<AuditRow[]> {
  const { rows } = await source.query<AuditRow>(
    `SELECT id::text, at, actor_id AS "actorId", action, subject_kind AS "subjectKind",
            subject_id AS "subjectId", detail
       FROM audit_event
      WHERE ($1::uuid IS NULL OR subject_id = $1) AND ($2::bigint IS NULL OR audit_event.id < $2)
      ORDER BY audit_event.id DESC
      LIMIT $3`,
    [search.subjectId ?? null, search.before, search.limit],
  )
  return rows
}
