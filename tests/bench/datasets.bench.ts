import { spawn } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { once } from 'node:events'
import { rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'

import { buildApp } from '../../src/app.ts'
import { type Database, openDatabase } from '../../src/db/client.ts'
import { startEmbedded } from '../../src/db/embedded.ts'
import { migrate } from '../../src/db/migrate.ts'
import { loadDemo } from '../../src/demo/load.ts'
import { builtScripts } from './built-scripts.ts'
import { countRuns, megabytes, timed, watchMemory } from './measure.ts'

/** About how many runs are exported; BENCH_EXPORT_RUNS=1000000 for the size of a large community. */
const RUNS = Number(process.env.BENCH_EXPORT_RUNS ?? 100_000)

/** Where a database of that size is kept for the next time; without it, it is made and thrown away. */
const FOLDER = process.env.BENCH_EXPORT_DIR

type Write = (line: string) => void

/**
 * Live export of many runs, then a release of them. The evenings are those of the demo, many times over.
 */
export async function benchDatasets(write: Write): Promise<void> {
  const dataDir = FOLDER ?? join(tmpdir(), `fairclimb-bench-${randomUUID()}`)
  const embedded = await startEmbedded({ dataDir, onLost: (reason) => write(reason) })
  const db = openDatabase(embedded.url)
  try {
    await migrate(db)
    if ((await countRuns(db)) === 0) await loadDemo(db)
    await multiply(db)
    await timeExports(embedded.url, write)
    await timeRelease(db, write)
  } finally {
    await db.close()
    await embedded.stop()
    if (FOLDER === undefined) await rm(dataDir, { recursive: true, force: true })
  }
}

/** In a process of its own, as built: for its memory. */
async function timeExports(url: string, write: Write): Promise<void> {
  const folder = await builtScripts(['exports-process', 'measure'])
  try {
    const child = spawn(process.execPath, [join(folder, 'exports-process.js'), url], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    for await (const line of createInterface(child.stdout)) write(line)
    if (child.exitCode === null) await once(child, 'exit')
    if (child.exitCode !== 0) throw new Error('the exports could not be timed')
  } finally {
    await rm(folder, { recursive: true })
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
    const watch = watchMemory()
    const seconds = await timed(() => app.releases.workOff())
    const peak = await watch.stop()
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
