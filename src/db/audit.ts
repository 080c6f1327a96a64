import type { PoolClient } from 'pg'

/** Something that was done and must stay known. Events are added in the transaction of what they tell. */
export interface AuditEvent {
  /** Account that did it; null: the service itself. */
  readonly actorId: string | null
  readonly action:
    | 'report.filed'
    | 'report.decided'
    | 'safety.raised'
    | 'safety.lifted'
    | 'evidence.setAside'
    | 'evidence.kept'
    | 'catalogue.merged'
    | 'role.changed'
    | 'import.made'
    | 'import.withdrawn'
  readonly subjectKind: 'report' | 'component' | 'setup' | 'submission' | 'account' | 'import'
  readonly subjectId: string
  readonly detail: Readonly<Record<string, unknown>>
}

/** Adds events to the audit trail, in their order. */
export async function recordAudit(
  client: PoolClient,
  events: readonly AuditEvent[],
): Promise<void> {
  if (events.length === 0) return
  await client.query(
    `INSERT INTO audit_event (actor_id, action, subject_kind, subject_id, detail)
     SELECT event."actorId", event.action, event."subjectKind", event."subjectId", event.detail
       FROM ROWS FROM (jsonb_to_recordset($1::jsonb) AS (
              "actorId" uuid, action text, "subjectKind" text, "subjectId" uuid, detail jsonb))
            WITH ORDINALITY AS event("actorId", action, "subjectKind", "subjectId", detail, place)
      ORDER BY event.place`,
    [JSON.stringify(events)],
  )
}
