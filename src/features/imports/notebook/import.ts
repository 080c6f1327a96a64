import type { PoolClient } from 'pg'

import { CAUTIONS, doNotFly } from '../../../contract/cautions.ts'
import { type Progress, within } from '../../../contract/progress.ts'
import type { SubmissionPort } from '../ports.ts'
import { insertImport, type NewImport, type StoredImport } from '../repository.ts'
import type { Arrival } from '../service.ts'
import { checkNotebook } from './check.ts'
import type { NotebookColumn } from './columns.ts'
import { linkSessions } from './repository.ts'
import { storeNotebook } from './store.ts'

interface Desk {
  readonly columns: readonly NotebookColumn[]
  readonly submissions: SubmissionPort
  readonly progress: Progress
}

/** Checks a notebook and stores what is new in it as submissions of the account, in the transaction of the caller. */
export async function importNotebook(
  client: PoolClient,
  { columns, submissions, progress }: Desk,
  { accountId, kind, sheets, files, fileSha256 }: Arrival,
): Promise<StoredImport> {
  const sheet = sheets.get('notebook')!
  const checking = { client, columns, submissions, progress: within(progress, 0.1, 0.5) }
  const { sessions, warnings } = await checkNotebook(checking, sheet)
  const storing = { accountId, sessions, progress: within(progress, 0.5, 1) }
  const { stored, known, warnings: doubts } = await storeNotebook(client, submissions, storing)
  const grounded = await submissions.grounded(client, setupsIn(sessions))
  const summary: NewImport['summary'] = {
    rows: sheet.rows.length,
    sessions: stored.length,
    sessionsKnown: known,
    pilots: new Set(sessions.map(({ pilot }) => pilot?.toLowerCase())).size,
    submissions: stored.map(({ submissionId, row }) => ({ id: submissionId, row })),
    setupsAdded: [],
    componentsAdded: [],
    replaces: null,
    warnings: [...warnings, ...doubts].sort((a, b) => a.row - b.row),
    cautions: [...grounded.map((id) => doNotFly(`set-up ${id}`)), CAUTIONS.deference],
  }
  const made = await insertImport(client, { accountId, kind, files, summary, fileSha256 })
  await linkSessions(client, made.id, stored)
  return made
}

function setupsIn(sessions: readonly { readonly body: unknown }[]): string[] {
  const entries = sessions.flatMap(
    ({ body }) => (body as { readonly entries: readonly { setupId: string }[] }).entries,
  )
  return [...new Set(entries.map(({ setupId }) => setupId))]
}
