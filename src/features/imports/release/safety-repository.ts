import type { PoolClient } from 'pg'

/** States of a setup that nobody has lifted. */
export async function findStatesInForce(client: PoolClient, setupId: string): Promise<string[]> {
  const { rows } = await client.query<{ state: string }>(
    `SELECT DISTINCT finding.state
       FROM safety_report finding JOIN setup ON setup.id = finding.setup_id
      WHERE COALESCE(setup.merged_into_id, setup.id) = $1 AND finding.lifted_at IS NULL`,
    [setupId],
  )
  return rows.map(({ state }) => state)
}

/** Puts a state on a setup, with a report that waits for a moderator; gives the report's id. */
export async function raise(
  client: PoolClient,
  warning: {
    readonly setupId: string
    readonly accountId: string
    readonly state: string
    readonly reason: string
  },
): Promise<string> {
  const { rows } = await client.query<{ reportId: string }>(
    `WITH told AS (
       INSERT INTO report (account_id, origin, kind, text, setup_id)
       VALUES ($1, 'person', 'unsafe', $2, $3)
       ON CONFLICT (account_id, kind, setup_id, component_id, submission_id)
          WHERE origin = 'person' AND decided_at IS NULL
       DO UPDATE SET decided_at = NULL
       RETURNING id
     )
     INSERT INTO safety_report (setup_id, state, reason, report_id)
     SELECT $3, $4, $2, told.id FROM told
     RETURNING report_id AS "reportId"`,
    [warning.accountId, warning.reason, warning.setupId, warning.state],
  )
  return rows[0]!.reportId
}
