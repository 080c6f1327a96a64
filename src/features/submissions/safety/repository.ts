import type { Pool, PoolClient } from 'pg'

import type { SetupFinding } from './findings.ts'

/** The states that a submission has put on a set-up and nobody has lifted. */
export async function findInForce(
  client: PoolClient,
  { submissionId, setupId }: { readonly submissionId: string; readonly setupId: string },
): Promise<SetupFinding['state'][]> {
  const { rows } = await client.query<{ state: SetupFinding['state'] }>(
    `SELECT finding.state
       FROM report
       JOIN safety_report finding ON finding.report_id = report.id AND finding.lifted_at IS NULL
      WHERE report.origin = 'measurement' AND report.submission_id = $1 AND report.setup_id = $2`,
    [submissionId, setupId],
  )
  return rows.map((row) => row.state)
}

/** Stores a finding with its report, which waits for a moderator (again); gives the report's id. */
export async function putInForce(
  client: PoolClient,
  finding: SetupFinding & { readonly submissionId: string; readonly accountId: string },
): Promise<string> {
  const { submissionId, accountId, setupId, state, reason } = finding
  const { rows } = await client.query<{ reportId: string }>(
    `WITH told AS (
       INSERT INTO report (account_id, origin, kind, text, setup_id, submission_id)
       VALUES ($1, 'measurement', 'unsafe', $2, $3, $4)
       ON CONFLICT (submission_id, setup_id) WHERE origin = 'measurement'
       DO UPDATE SET decided_at = NULL
       RETURNING id
     )
     INSERT INTO safety_report (setup_id, state, reason, submission_id, report_id)
     SELECT $3, $5, $2, $4, told.id FROM told
     RETURNING report_id AS "reportId"`,
    [accountId, reason, setupId, submissionId, state],
  )
  return rows[0]!.reportId
}

/** Which of these set-ups must not be flown now; a report on a merged one counts for what remains. */
export async function findGrounded(
  source: Pick<Pool | PoolClient, 'query'>,
  setupIds: readonly string[],
): Promise<string[]> {
  if (setupIds.length === 0) return []
  const { rows } = await source.query<{ id: string }>({
    name: 'find-grounded',
    text: `
      SELECT DISTINCT COALESCE(setup.merged_into_id, setup.id) AS id
        FROM setup
        JOIN safety_report finding ON finding.setup_id = setup.id
       WHERE (setup.id = ANY ($1::uuid[]) OR setup.merged_into_id = ANY ($1::uuid[]))
         AND finding.state = 'doNotFly' AND finding.lifted_at IS NULL
       ORDER BY id`,
    values: [setupIds],
  })
  return rows.map((row) => row.id)
}
