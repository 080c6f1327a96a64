import type { PoolClient } from 'pg'

import { CAUTIONS, doNotFly } from '../../../contract/cautions.ts'
import { ApiProblem } from '../../../contract/problems.ts'
import { type Progress, within } from '../../../contract/progress.ts'
import type { CataloguePort, ReleaseTables, SubmissionPort } from '../ports.ts'
import { insertImport, lockImport, markWithdrawn, type StoredImport } from '../repository.ts'
import type { Arrival } from '../service.ts'
import { resolveSetups } from './catalogue.ts'
import { checkRelease } from './check.ts'
import { findOwnRelease } from './repository.ts'
import { raiseWarnings } from './safety.ts'
import { idsForKeys, storeRelease } from './store.ts'

interface Desk {
  readonly tables: ReleaseTables
  readonly catalogue: CataloguePort
  readonly submissions: Pick<SubmissionPort, 'grounded'>
  readonly progress: Progress
}

/** Checks a release of another server and lets its runs count here, in the transaction of the caller. */
export async function importRelease(
  client: PoolClient,
  { tables, catalogue, submissions, progress }: Desk,
  { accountId, kind, sheets, files, fileSha256, replaces }: Arrival,
): Promise<StoredImport> {
  const from = await findOwnRelease(client, fileSha256.toString('hex'))
  if (from !== null) {
    throw new ApiProblem('conflict', {
      detail: `This is the file of release ${from} of this server: its runs count here already.`,
    })
  }
  const release = await checkRelease(tables, sheets, within(progress, 0.1, 0.4))
  const resolved = await resolveSetups(client, catalogue, { release, accountId })
  const { setupIds, setupsAdded, componentsAdded } = resolved
  if (replaces !== null) await giveWay(client, replaces)
  await raiseWarnings(client, { release, setupIds, accountId })
  const grounded = await submissions.grounded(client, [...new Set(setupIds.values())])
  const keys = idsForKeys(release)
  const made = await insertImport(client, {
    ...{ accountId, kind, files, fileSha256 },
    summary: {
      rows: release.runs.length,
      sessions: keys.sessions.size,
      sessionsKnown: 0,
      pilots: keys.pilots.size,
      submissions: [],
      setupsAdded: [...setupsAdded],
      componentsAdded: [...componentsAdded],
      replaces,
      warnings: [],
      cautions: [...grounded.map((id) => doNotFly(`set-up ${id}`)), CAUTIONS.deference],
    },
  })
  const storing = { importId: made.id, release, setupIds, progress: within(progress, 0.4, 1) }
  await storeRelease(client, storing, keys)
  return made
}

/** The release that is replaced no longer counts. */
async function giveWay(client: PoolClient, id: string): Promise<void> {
  const before = await lockImport(client, id)
  if (before?.kind !== 'release' || before.withdrawnAt !== null) {
    throw new ApiProblem('unknown-reference', {
      errors: [{ pointer: '/replaces', detail: 'is no import of a release that counts' }],
    })
  }
  await markWithdrawn(client, id)
}
