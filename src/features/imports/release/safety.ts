import type { PoolClient } from 'pg'

import { clearanceFinding } from '../../../core/safety/clearance-finding.ts'
import { recordAudit } from '../../../db/audit.ts'
import type { ResolvedSetups } from './catalogue.ts'
import type { CheckedRelease } from './check.ts'
import { findStatesInForce, raise } from './safety-repository.ts'

type State = 'advisory' | 'doNotFly'

interface Finding {
  readonly setupId: string
  readonly state: State
  readonly reason: string
}

/**
 * What a release says against flying holds here too: what its setups were set to there, and what its
 * clearances say by themselves. Nothing is lifted, and what holds already is not said twice; moderators
 * here look at it like at any other report.
 */
export async function raiseWarnings(
  client: PoolClient,
  {
    release,
    setupIds,
    accountId,
  }: Pick<ResolvedSetups, 'setupIds'> & {
    readonly release: CheckedRelease
    readonly accountId: string
  },
): Promise<void> {
  const findings = [...statesOf(release), ...clearancesOf(release)].map((finding) => ({
    ...finding,
    setupId: setupIds.get(finding.setupId) ?? null,
  }))
  for (const setupId of new Set(findings.map((finding) => finding.setupId))) {
    if (setupId === null) continue
    const worst = worstOf(findings.filter((finding) => finding.setupId === setupId))
    const inForce = await findStatesInForce(client, setupId)
    if (inForce.includes('doNotFly') || inForce.includes(worst.state)) continue
    const reportId = await raise(client, { ...worst, setupId, accountId })
    await recordAudit(client, [
      {
        actorId: accountId,
        action: 'safety.raised',
        subjectKind: 'setup',
        subjectId: setupId,
        detail: { reportId, state: worst.state, reason: worst.reason },
      },
    ])
  }
}

function worstOf<F extends Pick<Finding, 'state'>>(findings: readonly F[]): F {
  return findings.find(({ state }) => state === 'doNotFly') ?? findings[0]!
}

/** The state of each setup when the release was made. */
function statesOf({ setups }: CheckedRelease): Finding[] {
  return (setups ?? []).flatMap(({ cells }) => {
    const state = cells.safety_state as State | 'none'
    if (state === 'none') return []
    const reason = `A mirrored release had this set-up in the state ${state}.`
    return [{ setupId: String(cells.setup_id).toLowerCase(), state, reason }]
  })
}

/** Tip clearances among the runs; rounded as they are, a touch is a touch. */
function clearancesOf({ runs }: CheckedRelease): Finding[] {
  return runs.flatMap(({ setupId, asReleased }) => {
    const { kind, static_clearance_mm: atRest, loaded_clearance_mm: loaded } = asReleased
    if (kind !== 'tipClearance' || typeof atRest !== 'number') return []
    const found = clearanceFinding({
      staticClearanceMm: atRest,
      loadedClearanceMm: typeof loaded === 'number' ? loaded : undefined,
      contactSeen: asReleased.contact_seen === true,
    })
    return found === null ? [] : [{ setupId, state: found.state, reason: found.reason }]
  })
}
