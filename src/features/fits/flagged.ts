import type { PoolClient } from 'pg'

import type { FitReport, ReportedRun, ReportedSession } from '../../core/comparison/fit-report.ts'
import type { Quantity } from '../../core/comparison/metric.ts'
import { recordAudit } from '../../db/audit.ts'
import type { Database } from '../../db/client.ts'
import { inTransaction } from '../../db/transaction.ts'

/** What a fit found odd. */
export interface Oddities {
  readonly fitId: string
  readonly quantity: Quantity
  readonly report: FitReport
  /** Revision of each session that the fit rests on. */
  readonly revisions: ReadonlyMap<string, number>
}

const MEASURED: Readonly<Record<Quantity, string>> = {
  inducedPower: 'climbs',
  fuelFlow: 'fuel flows',
  electricPower: 'electric powers',
  staticThrust: 'static pulls',
  soundAtEar: 'sound levels at the ear',
  soundAtDistance: 'sound levels at a distance',
}

const ENDING =
  'It counts until a moderator decides: a slip of a watch, a wrong set-up or mass is set aside, a true surprise is kept.'

/** Asks moderators to look at each flagged session, once per revision; it counts until they decide. */
export async function openReviews(db: Database, oddities: Oddities): Promise<void> {
  const { report, revisions, fitId, quantity } = oddities
  const found = report.sessions
    .filter(({ flagged, session }) => flagged && revisions.has(session))
    .map((session) => ({
      submissionId: session.session,
      revision: revisions.get(session.session)!,
      text: reasonFor(oddities, session),
    }))
  if (found.length === 0) return
  await inTransaction(db, async (client) => {
    const opened = await insertReviews(client, found)
    const events = opened.map(({ id, submissionId }) => ({
      actorId: null,
      action: 'report.filed' as const,
      subjectKind: 'report' as const,
      subjectId: id,
      detail: { kind: 'outlier', submissionId, fitId, quantity },
    }))
    await recordAudit(client, events)
  })
}

/** Why a session is looked at, in plain words. */
function reasonFor({ report, quantity }: Oddities, session: ReportedSession): string {
  const runs = report.runs.filter((run) => run.session === session.session).map(runReason)
  const chance = session.pValue.toPrecision(1)
  const whole =
    session.pValue <= 0.05 || runs.length === 0
      ? [
          `The set-ups of the session stand to one another, or all together, unlike in the other sessions (chi-square ${session.chiSquare.toFixed(1)} on ${session.degreesOfFreedom}, adjusted probability of chance ${chance}).`,
        ]
      : []
  return [
    `Among the ${MEASURED[quantity]} this session stands out.`,
    ...runs,
    ...whole,
    ENDING,
  ].join(' ')
}

function runReason({ pointer, residual, pValue }: ReportedRun): string {
  const where = pointer === null ? 'One run' : `The run at ${pointer}`
  const way = residual > 0 ? 'higher' : 'lower'
  const chance = pValue.toPrecision(1)
  return `${where} is ${Math.abs(residual).toFixed(1)} standard deviations ${way} than all other runs suggest (adjusted probability of chance ${chance}).`
}

interface Found {
  readonly submissionId: string
  readonly revision: number
  readonly text: string
}

/** Stores those that are new; a revision that was looked at, or is no longer the current one, is left out. */
async function insertReviews(
  client: PoolClient,
  found: readonly Found[],
): Promise<{ id: string; submissionId: string }[]> {
  const { rows } = await client.query<{ id: string; submissionId: string }>(
    `INSERT INTO report (account_id, origin, kind, text, submission_id, revision_number)
     SELECT submission.account_id, 'fit', 'outlier', odd.text, submission.id, odd.revision
       FROM unnest($1::uuid[], $2::int[], $3::text[]) AS odd(submission_id, revision, text)
       JOIN submission ON submission.id = odd.submission_id
            AND submission.current_revision = odd.revision AND submission.withdrawn_at IS NULL
         ON CONFLICT DO NOTHING
  RETURNING id, submission_id AS "submissionId"`,
    [
      found.map(({ submissionId }) => submissionId),
      found.map(({ revision }) => revision),
      found.map(({ text }) => text),
    ],
  )
  return rows
}
