import type { PoolClient } from 'pg'

import { type ClearanceFinding, clearanceFinding } from '../../../core/safety/clearance-finding.ts'
import { type AuditEvent, recordAudit } from '../../../db/audit.ts'
import type { NewRun } from '../run-kinds.ts'
import { findInForce, putInForce } from './repository.ts'

/** What the measurements of a submission say against flying a set-up. */
export interface SetupFinding extends Pick<ClearanceFinding, 'state' | 'reason'> {
  readonly setupId: string
}

/** The worst that the tip clearances among these runs say, or null. */
export function worstFinding(runs: readonly NewRun[]): ClearanceFinding | null {
  const findings = runs.map((run) => (run.kind === 'tipClearance' ? clearanceFinding(run) : null))
  const found = findings.filter((finding) => finding !== null)
  return found.find(({ state }) => state === 'doNotFly') ?? found[0] ?? null
}

/**
 * Puts what was found on the set-ups, in the transaction that stores the submission, and in the queue
 * of the moderators. What the same submission said before and still holds is not said twice; what a
 * moderator lifted comes back if it is said anew. Nothing here ever lifts.
 */
export async function reportFindings(
  client: PoolClient,
  { submissionId, accountId }: { readonly submissionId: string; readonly accountId: string },
  findings: readonly SetupFinding[],
): Promise<void> {
  for (const { setupId, state, reason } of findings) {
    const inForce = await findInForce(client, { submissionId, setupId })
    if (inForce.includes('doNotFly') || inForce.includes(state)) continue
    const finding = { submissionId, accountId, setupId, state, reason }
    const reportId = await putInForce(client, finding)
    const event = { actorId: accountId, detail: { submissionId, reportId, state, reason } } as const
    const raised: AuditEvent = {
      ...event,
      action: 'safety.raised',
      subjectKind: 'setup',
      subjectId: setupId,
    }
    await recordAudit(client, [raised])
  }
}
