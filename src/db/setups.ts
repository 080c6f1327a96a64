import type { PoolClient } from 'pg'

import { recordAudit } from './audit.ts'

/** Ids of the three parts of a setup. */
export interface PartIds {
  readonly powerplantId: string
  readonly propellerId: string
  readonly frameId: string
}

/** The setup of these parts, whatever merged duplicates it was recorded with; null where there is none. */
export async function findSetupOf(client: PoolClient, parts: PartIds): Promise<string | null> {
  const { rows } = await client.query<{ id: string }>(
    `SELECT COALESCE(s.merged_into_id, s.id) AS id
       FROM setup s
       JOIN component pp ON pp.id = s.powerplant_id
       JOIN component pr ON pr.id = s.propeller_id
       JOIN component fr ON fr.id = s.frame_id
      WHERE COALESCE(pp.merged_into_id, pp.id) = $1
        AND COALESCE(pr.merged_into_id, pr.id) = $2
        AND COALESCE(fr.merged_into_id, fr.id) = $3
      LIMIT 1`,
    [parts.powerplantId, parts.propellerId, parts.frameId],
  )
  return rows[0]?.id ?? null
}

/** A setup as it is stored. */
export interface StoredSetup extends PartIds {
  /** Absent: a new one. */
  readonly id?: string
  readonly note?: string | null | undefined
  readonly accountId: string
}

/**
 * Stores a setup, with what was decided on its parts.
 *
 * @returns its id; null where somebody stored the same combination in the meantime
 */
export async function insertSetup(
  client: PoolClient,
  { id, powerplantId, propellerId, frameId, note, accountId }: StoredSetup,
): Promise<string | null> {
  const { rows } = await client.query<{ id: string }>(
    `INSERT INTO setup (id, powerplant_id, propeller_id, frame_id, note, created_by_id)
     VALUES (COALESCE($1, gen_random_uuid()), $2, $3, $4, $5, $6)
     ON CONFLICT (powerplant_id, propeller_id, frame_id) DO NOTHING
     RETURNING id`,
    [id ?? null, powerplantId, propellerId, frameId, note ?? null, accountId],
  )
  const [stored] = rows
  if (stored === undefined) return null
  await inheritFindings(client, [stored.id])
  return stored.id
}

/**
 * Puts on setups what moderators decided on a part of them and they do not bear yet: a report on a
 * component speaks of every setup that has it.
 */
export async function inheritFindings(
  client: PoolClient,
  setupIds: readonly string[],
): Promise<void> {
  const { rows } = await client.query<Inherited>(
    `INSERT INTO safety_report (setup_id, state, reason, report_id)
     SELECT DISTINCT added.id, finding.state, finding.reason, finding.report_id
       FROM setup added
       JOIN component part ON part.id IN (added.powerplant_id, added.propeller_id, added.frame_id)
       JOIN component reported
         ON COALESCE(reported.merged_into_id, reported.id) = COALESCE(part.merged_into_id, part.id)
       JOIN report ON report.component_id = reported.id AND report.setup_id IS NULL
       JOIN safety_report finding ON finding.report_id = report.id AND finding.lifted_at IS NULL
      WHERE added.id = ANY ($1::uuid[])
        AND NOT EXISTS (
              SELECT FROM safety_report borne
                JOIN setup bearer ON bearer.id = borne.setup_id
               WHERE COALESCE(bearer.merged_into_id, bearer.id) = added.id
                 AND borne.report_id = report.id AND borne.lifted_at IS NULL)
     RETURNING setup_id::text AS "setupId", report_id AS "reportId", state, reason`,
    [setupIds],
  )
  const raised = { actorId: null, action: 'safety.raised', subjectKind: 'setup' } as const
  await recordAudit(
    client,
    rows.map(({ setupId, ...detail }) => ({ ...raised, subjectId: setupId, detail })),
  )
}

interface Inherited {
  readonly setupId: string
  readonly reportId: string
  readonly state: string
  readonly reason: string
}
