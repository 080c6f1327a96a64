import { loadavg } from 'node:os'

import { to as copyTo } from 'pg-copy-streams'

import { type Database, openDatabase } from '../../src/db/client.ts'
import { inTransaction } from '../../src/db/transaction.ts'
import { layoutOf } from '../../src/features/datasets/entries/entries-sql.ts'
import { collectLateEntries, prepareEntries } from '../../src/features/datasets/entries/prepare.ts'
import { runsSelect } from '../../src/features/datasets/entries/runs-select.ts'
import { type ExportSource, openExport } from '../../src/features/datasets/exports/export-runs.ts'
import { RowGroupThread } from '../../src/features/datasets/files/parquet/thread.ts'
import { anonymise } from '../../src/features/datasets/privacy/anonymise.ts'
import { tablesFor } from '../../src/features/datasets/tables/tables.ts'
import { NewRun } from '../../src/features/submissions/run-kinds.ts'
import { countRuns, megabytes, timed, watchMemory } from './measure.ts'

/**
 * Live export of the runs of a database (its URL is the argument): each format against COPY TO STDOUT
 * of the same select through Node in the same run, with the memory of this process. Several rounds,
 * since the first reads what was written just before.
 */
const ROUNDS = 3
const FORMATS = ['csv', 'ndjson', 'parquet'] as const

const db = openDatabase(process.argv[2]!)
const rowGroups = new RowGroupThread()
const source = { db, tables: tablesFor(NewRun), makeGroups: rowGroups.make.bind(rowGroups) }
try {
  await source.makeGroups({ columns: [], blocks: new Uint8Array(0) }) // starts the thread
  await timeExports(source)
} finally {
  await rowGroups.close()
  await db.close()
}

function write(line: string): void {
  process.stdout.write(`    ${line}\n`)
}

async function timeExports(source: ExportSource): Promise<void> {
  const runs = await countRuns(db)
  const before = megabytes(process.memoryUsage.rss())
  write(
    `${runs} runs; memory before                     ${before}; load ${loadavg()[0]!.toFixed(1)}`,
  )
  const stored = await timed(() => prepareEntries(db, source.tables))
  write(`cells of all of them, stored once               ${stored.toFixed(1)} s`)
  for (let round = 1; round <= ROUNDS; round++) {
    write(`round ${round} of ${ROUNDS}`)
    await timeRound(source, runs)
  }
}

async function timeRound(source: ExportSource, runs: number): Promise<void> {
  const { keysS, copyS } = await timeCopy(source)
  write(`keys and classes for all of them               ${keysS.toFixed(1)} s`)
  write(`COPY TO STDOUT through Node                     ${rate(runs, copyS)}`)
  for (const format of FORMATS) {
    const { bytes } = await openExport(source, { format })
    const { seconds, firstS, size, peak, cpuS } = await drain(bytes)
    const streamS = seconds - firstS
    write(
      `${format.padEnd(8)} ${rate(runs, streamS)} after the keys (${seconds.toFixed(1)} s with them), ` +
        `${(copyS / streamS).toFixed(2)} of COPY; ${rate(runs, cpuS)} of this process's own time; ` +
        `${megabytes(size)}; memory at most ${megabytes(peak)}`,
    )
  }
}

async function timeCopy({ db, tables }: { readonly db: Database } & Pick<ExportSource, 'tables'>) {
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

function rate(runs: number, seconds: number): string {
  return `${(runs / seconds / 1000).toFixed(0)} thousand rows/s`
}

/** Takes everything, keeps nothing; gives times, size and the most memory this process had. */
async function drain(bytes: AsyncIterable<Uint8Array>) {
  const watch = watchMemory()
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
  return { seconds, firstS, size, peak: await watch.stop(), cpuS: (user + system) / 1e6 }
}
