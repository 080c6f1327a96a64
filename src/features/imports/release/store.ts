import { randomUUID } from 'node:crypto'

import type { PoolClient } from 'pg'

import { ApiProblem } from '../../../contract/problems.ts'
import type { Progress } from '../../../contract/progress.ts'
import type { ResolvedSetups } from './catalogue.ts'
import type { CheckedRelease } from './check.ts'
import {
  findOwnSessions,
  findSessionsOfMirrors,
  insertRuns,
  insertSessions,
  setFingerprints,
} from './repository.ts'

interface Storing {
  readonly importId: string
  readonly release: CheckedRelease
  readonly setupIds: ResolvedSetups['setupIds']
  readonly progress: Progress
}

/** Keys of a release and the ids they have here. */
export interface ReleaseKeys {
  readonly sessions: ReadonlyMap<string, { readonly id: string; readonly pilotId: string }>
  readonly pilots: ReadonlyMap<string, string>
}

/** Gives every session and pilot of a release an id of this server. */
export function idsForKeys({ runs }: Pick<CheckedRelease, 'runs'>): ReleaseKeys {
  const pilots = new Map<string, string>()
  const sessions = new Map<string, { id: string; pilotId: string }>()
  for (const { sessionKey, pilotKey } of runs) {
    if (!pilots.has(pilotKey)) pilots.set(pilotKey, randomUUID())
    if (sessions.has(sessionKey)) continue
    sessions.set(sessionKey, { id: randomUUID(), pilotId: pilots.get(pilotKey)! })
  }
  return { sessions, pilots }
}

/**
 * Stores the runs of a release beside the submissions.
 *
 * Keys are drawn anew for each release, so what is here already is known by its results: the logarithms
 * of a session's runs, to the last digit, are the same in every release and export that holds it.
 *
 * @throws {ApiProblem} conflict where sessions of it were submitted here, or came with another release
 */
export async function storeRelease(
  client: PoolClient,
  { importId, release, setupIds, progress }: Storing,
  { sessions }: ReleaseKeys,
): Promise<void> {
  await insertSessions(client, importId, [...sessions.values()])
  await insertRuns(
    client,
    release.runs.map((run) => ({
      ...run,
      sessionId: sessions.get(run.sessionKey)!.id,
      setupId: setupIds.get(run.setupId)!,
    })),
    progress,
  )
  await setFingerprints(client, importId)
  const own = await findOwnSessions(client, importId)
  if (own > 0) {
    throw new ApiProblem('conflict', {
      detail: `${own} of the ${sessions.size} sessions were submitted to this server: it is a release or an export from here, and would count twice.`,
    })
  }
  const others = await findSessionsOfMirrors(client, importId)
  const [first] = others
  if (first === undefined) return
  throw new ApiProblem('conflict', {
    detail: `${first.sessions} of the ${sessions.size} sessions count already through import ${first.id}: a newer release takes its place with ?replaces=${first.id}.`,
  })
}
