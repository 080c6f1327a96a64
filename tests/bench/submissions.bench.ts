import { randomUUID } from 'node:crypto'
import { rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

import { buildApp } from '../../src/app.ts'
import type { Caller } from '../../src/contract/caller.ts'
import type { Evidence } from '../../src/core/normalise/types.ts'
import { type Database, openDatabase } from '../../src/db/client.ts'
import { startEmbedded } from '../../src/db/embedded.ts'
import { migrate } from '../../src/db/migrate.ts'
import { inTransaction } from '../../src/db/transaction.ts'
import { loadDemo } from '../../src/demo/load.ts'
import { insertRevision, type NewStoredRun } from '../../src/features/submissions/repository.ts'
import { NewSubmission } from '../../src/features/submissions/schema.ts'
import { submit } from '../../src/features/submissions/service.ts'

const SUBMISSIONS = 600
const AT_ONCE = 8

type Write = (line: string) => void

/**
 * Submissions per second through the service (check, look up, normalise, store) against a raw
 * single-statement insert of the same rows, on the embedded PostgreSQL with its durability on; and
 * how long a new submission takes to show in a comparison of the demo.
 */
export async function benchSubmissions(write: Write): Promise<void> {
  const dataDir = join(tmpdir(), `fairclimb-bench-${randomUUID()}`)
  const embedded = await startEmbedded({ dataDir, onLost: (reason) => write(reason) })
  const db = openDatabase(embedded.url)
  try {
    await migrate(db)
    await loadDemo(db)
    await timeWrites(db, write)
    await timeVisibility(db, write)
  } finally {
    await db.close()
    await embedded.stop()
    await rm(dataDir, { recursive: true, force: true })
  }
}

async function timeWrites(db: Database, write: Write): Promise<void> {
  const { caller, body, runs } = await sample(db)
  const raw = await perSecond(() =>
    inTransaction(db, (client) =>
      insertRevision(client, {
        submissionId: randomUUID(),
        accountId: caller.accountId,
        body,
        warnings: [],
        runs,
      }),
    ),
  )
  const desk = { db, onEvidenceChanged: () => {} }
  let evening = 0
  const served = await perSecond(async () => {
    const checked = NewSubmission.parse({ ...body, flownOn: dayBefore(body.flownOn, ++evening) })
    await submit(desk, { caller, idempotencyKey: randomUUID(), body: checked })
  })
  write(
    `    raw insert of ${runs.length} runs and all around them   ${raw.toFixed(0)} submissions/s`,
  )
  write(`    the same through the service, with a key       ${served.toFixed(0)} submissions/s`)
  write(`    ratio                                          ${(served / raw).toFixed(2)}`)
}

/** Another day for each: what one day has of a setup already is read and compared. */
function dayBefore(day: string, days: number): string {
  return new Date(Date.parse(day) - days * 86_400_000).toISOString().slice(0, 10)
}

/** Time from the answer to a submission until a comparison shows it [ms], ten times. */
async function timeVisibility(db: Database, write: Write): Promise<void> {
  const app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
  await app.fits.refresh()
  const { caller, body } = await sample(db)
  const setups = (await db.prisma.setup.findMany({ take: 2, select: { id: true } })).map(
    ({ id }) => id,
  )
  const url = `/v1/comparisons?metric=climbRate&setups=${setups.join()}`
  const fitNow = async () => (await app.inject(url)).json().fitId as string
  const times: number[] = []
  const complete: number[] = []
  for (let i = 0; i < 10; i++) {
    const before = await fitNow()
    await submit(
      { db, onEvidenceChanged: () => app.fits.request() },
      { caller, idempotencyKey: undefined, body },
    )
    const start = performance.now()
    while ((await fitNow()) === before) await new Promise((resolve) => setTimeout(resolve, 2))
    times.push(performance.now() - start)
    await app.fits.refresh()
    complete.push(performance.now() - start)
  }
  for (const each of [times, complete]) each.sort((a, b) => a - b)
  write(`    visible in a comparison after (median of 10)     ${times[5]!.toFixed(0)} ms`)
  write(
    `    other fits and reports made, relative to that    ${(complete[5]! / times[5]!).toFixed(1)}`,
  )
  await app.close()
}

/** A stored evening of the demo, to be sent again: its pilot, its body and its rows. */
async function sample(
  db: Database,
): Promise<{ caller: Caller; body: NewSubmission; runs: NewStoredRun[] }> {
  const stored = await db.prisma.submissionRevision.findFirstOrThrow({
    include: { submission: true, runs: { include: { results: true } } },
    orderBy: { flownOn: 'asc' },
  })
  return {
    caller: { accountId: stored.submission.accountId, role: 'pilot' },
    body: stored.body as unknown as NewSubmission,
    runs: stored.runs.map(({ entryIndex, runIndex, setupId, kind, results: [result] }) => ({
      ...{ entryIndex, runIndex, setupId, kind },
      methodVersion: result!.methodVersion,
      referenceId: result!.referenceId,
      normalized: result!.normalized as unknown as NewStoredRun['normalized'],
      warnings: result!.warnings as unknown as NewStoredRun['warnings'],
      evidence: {
        quantity: result!.quantity as Evidence['quantity'],
        logValue: result!.logValue!,
        ownStandardUncertainty: result!.ownStandardUncertainty!,
        sharedStandardUncertainty: result!.sharedStandardUncertainty!,
        systematic: result!.systematic as unknown as Evidence['systematic'],
      },
    })),
  }
}

/** Rate of a write that several clients do at once, after a warm-up. */
async function perSecond(work: () => Promise<unknown>): Promise<number> {
  await Promise.all(Array.from({ length: AT_ONCE }, work))
  let left = SUBMISSIONS
  const start = performance.now()
  await Promise.all(
    Array.from({ length: AT_ONCE }, async () => {
      while (left-- > 0) await work()
    }),
  )
  return SUBMISSIONS / ((performance.now() - start) / 1000)
}
