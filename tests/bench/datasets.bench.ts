import { randomUUID } from 'node:crypto'
import { rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'

import { to as copyTo } from 'pg-copy-streams'

import { type Database, openDatabase } from '../../src/db/client.ts'
import { startEmbedded } from '../../src/db/embedded.ts'
import { migrate } from '../../src/db/migrate.ts'
import { loadDemo } from '../../src/demo/load.ts'
import { exportRuns } from '../../src/features/datasets/exports/export-runs.ts'
import { anonymise } from '../../src/features/datasets/release/anonymise.ts'
import { runsSelect } from '../../src/features/datasets/release/runs-sql.ts'
import { tablesFor } from '../../src/features/datasets/tables/tables.ts'
import { NewRun } from '../../src/features/submissions/run-kinds.ts'

/** About how many runs are exported. */
const RUNS = Number(process.env.BENCH_EXPORT_RUNS ?? 1_000_000)

type Write = (line: string) => void

/**
 * Live export of many runs: each format against COPY TO STDOUT of the same select through Node in the
 * same run, with the memory of this process. The evenings are those of the demo, many times over.
 */
export async function benchDatasets(write: Write): Promise<void> {
  const dataDir = join(tmpdir(), `fairclimb-bench-${randomUUID()}`)
  const embedded = await startEmbedded({ dataDir, onLost: (reason) => write(reason) })
  const db = openDatabase(embedded.url)
  try {
    await migrate(db)
    await loadDemo(db)
    const runs = await multiply(db)
    const restMb = process.memoryUsage.rss() / 1e6
    write(`    ${runs} runs; memory before                     ${restMb.toFixed(0)} MB`)
    const tables = tablesFor(NewRun)
    const { prepareS, copyS } = await timeCopy(db, tables)
    write(`    keys and classes for all of them               ${prepareS.toFixed(1)} s`)
    write(`    COPY TO STDOUT through Node                     ${rate(runs, copyS)}`)
    for (const format of ['csv', 'ndjson', 'parquet'] as const) {
      const { seconds, megabytes, peakMb } = await drain(exportRuns(db, tables, { format }))
      const streamS = seconds - prepareS
      write(
        `    ${format.padEnd(8)} ${rate(runs, streamS)} after the keys, ${(copyS / streamS).toFixed(2)} of COPY; ` +
          `${megabytes.toFixed(0)} MB; memory at most ${peakMb.toFixed(0)} MB`,
      )
    }
  } finally {
    await db.close()
    await embedded.stop()
    await rm(dataDir, { recursive: true, force: true })
  }
}

function rate(runs: number, seconds: number): string {
  return `${(runs / seconds / 1000).toFixed(0)} thousand rows/s`
}

/** The demo's submissions again and again, each copy by 25 new accounts; gives the number of runs. */
async function multiply(db: Database): Promise<number> {
  const { rows } = await db.pool.query<{ runs: number }>('SELECT count(*)::int AS runs FROM run')
  const copies = Math.ceil(RUNS / rows[0]!.runs) - 1
  await db.pool.query(COPIES, [copies])
  await db.pool.query('ANALYZE')
  const counted = await db.pool.query<{ runs: number }>('SELECT count(*)::int AS runs FROM run')
  return counted.rows[0]!.runs
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

async function timeCopy(db: Database, { all, rawFields }: ReturnType<typeof tablesFor>) {
  const client = await db.pool.connect()
  try {
    await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ')
    const start = performance.now()
    await anonymise(client)
    const prepareS = (performance.now() - start) / 1000
    const select = runsSelect(all.runs.columns, rawFields)
    const { seconds } = await drain(client.query(copyTo(`COPY (${select}) TO STDOUT (FORMAT csv)`)))
    return { prepareS, copyS: seconds }
  } finally {
    await client.query('ROLLBACK')
    client.release()
  }
}

/** Takes everything, keeps nothing; gives time, size and the most memory this process had. */
async function drain(bytes: AsyncIterable<Uint8Array>) {
  let peak = 0
  let done = false
  const watch = (async () => {
    while (!done) {
      peak = Math.max(peak, process.memoryUsage.rss())
      await sleep(20)
    }
  })()
  const start = performance.now()
  let size = 0
  for await (const part of bytes) size += part.length
  const seconds = (performance.now() - start) / 1000
  done = true
  await watch
  return { seconds, megabytes: size / 1e6, peakMb: Math.max(peak, process.memoryUsage.rss()) / 1e6 }
}
