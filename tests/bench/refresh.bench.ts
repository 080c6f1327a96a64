import { randomUUID } from 'node:crypto'
import { rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

import { buildApp } from '../../src/app.ts'
import { type Database, openDatabase } from '../../src/db/client.ts'
import { startEmbedded } from '../../src/db/embedded.ts'
import { migrate } from '../../src/db/migrate.ts'
import { loadDemo } from '../../src/demo/load.ts'
import type { NewSubmission } from '../../src/features/submissions/schema.ts'
import { submit } from '../../src/features/submissions/service.ts'
import { insertCommunity } from './large-evidence.ts'

type Write = (line: string) => void

const RUNS = 100_000
const SETUPS = 100
const NEW_RUNS = 100
const REPETITIONS = 7
/** Whoever waits for an answer asks again so often; each time takes the service about 10 ms of its own. */
const ASK_AGAIN_MS = 25

/**
 * Time from the answer to the last of 100 new runs until a comparison shows them, beside 100,000 runs of 100
 * setups on a real database: the first refresh, which reads everything, and those after it.
 */
export async function benchRefresh(write: Write): Promise<void> {
  const dataDir = join(tmpdir(), `fairclimb-bench-${randomUUID()}`)
  const embedded = await startEmbedded({ dataDir, onLost: (reason) => write(reason) })
  const db = openDatabase(embedded.url)
  try {
    await migrate(db)
    await loadDemo(db)
    await insertCommunity(db, { runs: RUNS, setups: SETUPS })
    await timeRefreshes(db, write)
  } finally {
    await db.close()
    await embedded.stop()
    await rm(dataDir, { recursive: true, force: true })
  }
}

async function timeRefreshes(db: Database, write: Write): Promise<void> {
  const app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
  try {
    let start = performance.now()
    await app.fits.publish()
    const first = performance.now() - start
    await app.fits.refresh() // what stands beside the first; each later one runs beside that of the one before
    const times: number[] = []
    for (let i = 0; i < REPETITIONS; i++) {
      const desk = await newEvening(db)
      const before = await shown(app, desk.setups)
      for (let sent = 0; sent < NEW_RUNS; sent += desk.runs) await desk.submit()
      start = performance.now()
      app.fits.request()
      while ((await shown(app, desk.setups)) === before)
        await new Promise((r) => setTimeout(r, ASK_AGAIN_MS))
      times.push(performance.now() - start)
    }
    times.sort((a, b) => a - b)
    write(
      `    ${RUNS} runs, ${SETUPS} setups, ${NEW_RUNS} new runs                 ms   of the first`,
    )
    for (const [what, ms] of [
      ['first refresh, reads everything', first],
      [`median of ${REPETITIONS} after it`, times[REPETITIONS >> 1]!],
      ['slowest of them', times.at(-1)!],
    ] as const) {
      write(
        `    ${what.padEnd(44)} ${ms.toFixed(0).padStart(8)} ${(ms / first).toFixed(2).padStart(10)}`,
      )
    }
    write('    goal: under 1000 ms after the first')
  } finally {
    await app.close()
  }
}

type App = Awaited<ReturnType<typeof buildApp>>

/** The fit behind a comparison of two setups, as the answer tells it. */
async function shown(app: App, setups: readonly string[]): Promise<string> {
  const url = `/v1/comparisons?metric=climbRate&setups=${setups.join()}`
  const answer = await app.inject(url)
  return answer.json().fitId
}

/** A stored evening of a pilot of the demo, to be sent again. */
async function newEvening(db: Database) {
  const stored = await db.prisma.submissionRevision.findFirstOrThrow({
    include: { submission: true, runs: true },
    where: { runs: { some: { kind: 'climb' } } },
    orderBy: { flownOn: 'asc' },
  })
  const body = stored.body as unknown as NewSubmission
  const caller = { accountId: stored.submission.accountId, role: 'pilot' as const }
  const setups = body.entries.slice(0, 2).map(({ setupId }) => setupId)
  return {
    setups,
    runs: stored.runs.length,
    submit: () =>
      submit({ db, onEvidenceChanged: () => {} }, { caller, idempotencyKey: undefined, body }),
  }
}
