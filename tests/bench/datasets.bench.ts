import { randomUUID } from 'node:crypto'
import { rm } from 'node:fs/promises'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'

import { to as copyTo } from 'pg-copy-streams'

import { buildApp } from '../../src/app.ts'
import { type Database, openDatabase } from '../../src/db/client.ts'
import { startEmbedded } from '../../src/db/embedded.ts'
import { migrate } from '../../src/db/migrate.ts'
import { inTransaction } from '../../src/db/transaction.ts'
import { loadDemo } from '../../src/demo/load.ts'
import { layoutOf } from '../../src/features/datasets/entries/entries-sql.ts'
import { collectLateEntries, prepareEntries } from '../../src/features/datasets/entries/prepare.ts'
import { runsSelect } from '../../src/features/datasets/entries/runs-select.ts'
import { openExport } from '../../src/features/datasets/exports/export-runs.ts'
import { anonymise } from '../../src/features/datasets/privacy/anonymise.ts'
import { tablesFor } from '../../src/features/datasets/tables/tables.ts'
import { NewRun } from '../../src/features/submissions/run-kinds.ts'

/** About how many runs are exported; BENCH_EXPORT_RUNS=1000000 for the size of a large community. */
const RUNS = Number(process.env.BENCH_EXPORT_RUNS ?? 100_000)

/** Where a database of that size is kept for the next time; without it, it is made and thrown away. */
const FOLDER = process.env.BENCH_EXPORT_DIR

const FORMATS = ['csv', 'ndjson', 'parquet'] as const

type Write = (line: string) => void

/**
 * Live export of many runs: each format against COPY TO STDOUT of the same select through Node in the
 * same run, with the memory of this process; then a release of them. The evenings are those of the
 * demo, many times over.
 */
export async function benchDatasets(write: Write): Promise<void> {
  const dataDir = FOLDER ?? join(tmpdir(), `fairclimb-bench-${randomUUID()}`)
  const embedded = await startEmbedded({ dataDir, onLost: (reason) => write(reason) })
  const db = openDatabase(embedded.url)
  try {
    await migrate(db)
    if ((await countRuns(db)) === 0) await loadDemo(db)
    await multiply(db)
    await timeExports(db, write)
    await timeRelease(db, write)
  } finally {
    await db.close()
    await embedded.stop()
    if (FOLDER === undefined) await rm(dataDir, { recursive: true, force: true })
  }
}

async function timeExports(db: Database, write: Write): Promise<void> {
  const runs = await countRuns(db)
  const tables = tablesFor(NewRun)
  write(
    `    ${runs} runs; memory before                     ${megabytes(process.memoryUsage.rss())}; load ${loadavg()[0]!.toFixed(1)}`,
  )
  const stored = await timed(() => prepareEntries(db, tables))
  write(`    cells of all of them, stored once               ${stored.toFixed(1)} s`)
  const { keysS, copyS } = await timeCopy(db, tables)
  write(`    keys and classes for all of them               ${keysS.toFixed(1)} s`)
  write(`    COPY TO STDOUT through Node                     ${rate(runs, copyS)}`)
  for (const format of FORMATS) {
    const { bytes } = await openExport(db, tables, { format })
    const { seconds, firstS, size, peak, cpuS } = await drain(bytes)
    const streamS = seconds - firstS
    write(
      `    ${format.padEnd(8)} ${rate(runs, streamS)} after the keys (${seconds.toFixed(1)} s with them), ` +
        `${(copyS / streamS).toFixed(2)} of COPY; ${rate(runs, cpuS)} of this process's own time; ` +
        `${megabytes(size)}; memory at most ${megabytes(peak)}`,
    )
  }
}

/** Asks for a release as the service does, with its fits. One session less, so that there is something new to publish. */
async function timeRelease(db: Database, write: Write): Promise<void> {
  await db.pool.query(
    `UPDATE submission SET withdrawn_at = now()
      WHERE id = (SELECT max(id::text)::uuid FROM submission WHERE withdrawn_at IS NULL)`,
  )
  const app = await buildApp({ db, logger: false, rateLimit: false, trustProxy: false })
  try {
    await app.ready()
    await db.pool.query('INSERT INTO dataset_request DEFAULT VALUES')
    let peak = 0
    const watch = watchMemory((rss) => (peak = Math.max(peak, rss)))
    const seconds = await timed(() => app.releases.workOff())
    await watch.stop()
    const { rows } = await db.pool.query<{ state: string; bytes: number }>(
      `SELECT request.state, (SELECT sum(size_bytes)::float8 FROM dataset_file file
                               WHERE file.release_id = request.release_id) AS bytes
         FROM dataset_request request ORDER BY created_at DESC LIMIT 1`,
    )
    const { state, bytes } = rows[0]!
    write(
      `    a release (${state}), fits included                ${seconds.toFixed(1)} s; ${megabytes(bytes)}; memory at most ${megabytes(peak)}`,
    )
  } finally {
    await app.close()
  }
}

const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(0)} MB`

function rate(runs: number, seconds: number): string {
  return `${(runs / seconds / 1000).toFixed(0)} thousand rows/s`
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now()
  await work()
  return (performance.now() - start) / 1000
}

async function countRuns(db: Database): Promise<number> {
  const { rows } = await db.pool.query<{ runs: number }>('SELECT count(*)::int AS runs FROM run')
  return rows[0]!.runs
}

/** The demo's submissions again and again, each copy by 25 new accounts. */
async function multiply(db: Database): Promise<void> {
  const copies = Math.ceil(RUNS / (await countRuns(db))) - 1
  if (copies < 1) return
  await db.pool.query(COPIES, [copies])
  await db.pool.query('VACUUM ANALYZE')
}

/** Ids of copies follow from the id copied and the number of the copy. */
const COPIES = `
  WITH copy AS (SELECT generate_series(1, $1::int) AS n),
  accounts AS (
    INSERT INTO account (id, email, password_hash, display_name)
    SELECT md5(account.id::text || n)::uuid, n || '.' || email, password_hash, display_name FROM account, copy
  ), submissions AS (
    INSERT INTO submission (id, account_id, current_revision)
    SELECT md5(submission.id::text || n)::uuid, md5(account_id::text || n)::uuid, current_revision
      FROM submission, copy
  ), revisions AS (
    INSERT INTO submission_revision (id, submission_id, number, body, flown_on, elevation_m, interest)
    SELECT md5(revision.id::text || n)::uuid, md5(submission_id::text || n)::uuid, number, body, flown_on,
           elevation_m, interest
      FROM submission_revision revision, copy
  ), runs AS (
    INSERT INTO run (id, revision_id, entry_index, run_index, setup_id, kind)
    SELECT md5(run.id::text || n)::uuid, md5(revision_id::text || n)::uuid, entry_index, run_index, setup_id, kind
      FROM run, copy
  )
  INSERT INTO run_result (run_id, method_version, reference_id, quantity, log_value, own_standard_uncertainty,
                          shared_standard_uncertainty, systematic, normalized, derived, warnings)
  SELECT md5(run_id::text || n)::uuid, method_version, reference_id, quantity, log_value,
         own_standard_uncertainty, shared_standard_uncertainty, systematic, normalized, derived, warnings
    FROM run_result, copy`

async function timeCopy(db: Database, tables: ReturnType<typeof tablesFor>) {
  return inTransaction(db, async (client) => {
    await client.query('SET TRANSACTION ISOLATION LEVEL REPEATABLE READ')
    const keysS = await timed(async () => {
      await collectLateEntries(client, tables)
      await anonymise(client, { layout: layoutOf(tables), salt: 'bench' })
    })
    const copied = client.query(copyTo(`COPY (${runsSelect()}) TO STDOUT`))
    return { keysS, copyS: (await drain(copied)).seconds }
  })
}

/** Calls with the memory of this process again and again. */
function watchMemory(see: (rss: number) => void) {
  let done = false
  const watching = (async () => {
    while (!done) {
      see(process.memoryUsage.rss())
      await sleep(20)
    }
  })()
  return {
    async stop() {
      done = true
      await watching
    },
  }
}

/** Takes everything, keeps nothing; gives times, size and the most memory this process had. */
async function drain(bytes: AsyncIterable<Uint8Array>) {
  let peak = 0
  const watch = watchMemory((rss) => (peak = Math.max(peak, rss)))
  const start = performance.now()
  let firstS = 0
  let size = 0
  let cpu = process.cpuUsage()
  for await (const part of bytes) {
    if (size === 0) {
      firstS = (performance.now() - start) / 1000
      cpu = process.cpuUsage()
    }
    size += part.length
  }
  const seconds = (performance.now() - start) / 1000
  const { user, system } = process.cpuUsage(cpu)
  await watch.stop()
  return { seconds, firstS, size, peak, cpuS: (user + system) / 1e6 }
}
