import { createHash } from 'node:crypto'
import { setImmediate as nextTurn } from 'node:timers/promises'

import type { PoolClient } from 'pg'
import type { Progress } from '../../../contract/progress.ts'
import { type Fault, refuseFaults } from '../csv/faults.ts'
import type { SubmissionPort } from '../ports.ts'
import type { RowWarning } from '../schema.ts'
import { alikeFindings } from './alike.ts'
import type { CheckedSession } from './check.ts'
import { findKnownSessions, guestPilots } from './repository.ts'

/** A session of a notebook that was stored as a submission. */
export interface StoredSession {
  readonly submissionId: string
  readonly row: number
  readonly labelHash: Buffer
  readonly contentHash: Buffer
  readonly guestPilotId: string | null
}

export interface StoredNotebook {
  readonly stored: readonly StoredSession[]
  /** Sessions that were there already. */
  readonly known: number
  /** What may count twice. */
  readonly warnings: readonly RowWarning[]
}

interface Storing {
  readonly accountId: string
  readonly sessions: readonly CheckedSession[]
  readonly progress: Progress
}

type Session = CheckedSession & { readonly hashes: Hashes }

interface Hashes {
  readonly pilot: Buffer | null
  /** Of pilot, label and day. */
  readonly label: Buffer
  readonly content: Buffer
}

/**
 * Stores what is new in a notebook as submissions of the account. A session that came before with the
 * same values is left as it is, so that a notebook may grow and come again.
 *
 * @throws {ApiProblem} faulty-file for a session that came before with other values, and for flights that
 *   were submitted before under another name
 */
export async function storeNotebook(
  client: PoolClient,
  submissions: SubmissionPort,
  { accountId, sessions, progress }: Storing,
): Promise<StoredNotebook> {
  const hashed = sessions.map((session) => ({ ...session, hashes: hashesOf(accountId, session) }))
  const added = await newOnes(client, accountId, hashed)
  const alike = await submissions.alike(
    client,
    added.map(({ body }) => body),
  )
  const { faults, warnings } = alikeFindings(added, alike, accountId)
  refuseFaults(faults)
  const pilots = await guestPilots(
    client,
    accountId,
    added.flatMap(({ hashes }) => (hashes.pilot === null ? [] : [hashes.pilot])),
  )
  const stored: StoredSession[] = []
  for (const [index, { rows, body, normalised, hashes }] of added.entries()) {
    await progress(index / added.length, `storing session ${index + 1} of ${added.length}`)
    const submission = { accountId, body, normalised }
    stored.push({
      submissionId: await submissions.store(client, submission),
      row: Math.min(...rows),
      labelHash: hashes.label,
      contentHash: hashes.content,
      guestPilotId: hashes.pilot === null ? null : pilots.get(hashes.pilot.toString('hex'))!,
    })
    await nextTurn()
  }
  return { stored, known: sessions.length - added.length, warnings }
}

async function newOnes(
  client: PoolClient,
  accountId: string,
  sessions: readonly Session[],
): Promise<Session[]> {
  const before = await findKnownSessions(client, accountId)
  const faults: Fault[] = []
  const added = sessions.filter(({ hashes, rows, label }) => {
    const known = before.get(hashes.label.toString('hex'))
    if (known === undefined) return true
    if (known.contentHash.equals(hashes.content)) return false
    const detail = `Session ${label} of that day came in before with other values, as submission ${known.submissionId}: correct that one, or withdraw it first.`
    faults.push({ row: Math.min(...rows), column: 'session', detail })
    return false
  })
  refuseFaults(faults)
  return added
}

function hashesOf(accountId: string, { label, pilot, body }: CheckedSession): Hashes {
  const { flownOn } = body as { readonly flownOn: string }
  const who = pilot === null ? null : pilot.normalize('NFC').toLowerCase()
  return {
    pilot: who === null ? null : hashOf([accountId, who]),
    label: hashOf([accountId, who, label, flownOn]),
    content: hashOf([who, body]),
  }
}

function hashOf(value: unknown): Buffer {
  return createHash('sha256').update(JSON.stringify(value)).digest()
}
