import { loadavg } from 'node:os'

import { to as copyTo } from 'pg-copy-streams'

import { openDatabase } from '../../src/db/client.ts'
import { inTransaction } from '../../src/db/transaction.ts'
import { prepareEntries } from '../../src/features/datasets/entries/prepare.ts'
import { exportSelect } from '../../src/features/datasets/entries/runs-select.ts'
import { type ExportSource, LiveExports } from '../../src/features/datasets/exports/export-runs.ts'
import { prepareUnits } from '../../src/features/datasets/exports/units.ts'
import { RowGroupThread } from '../../src/features/datasets/files/parquet/thread.ts'
import { tablesFor } from '../../src/features/datasets/tables/tables.ts'
import { NewRun } from '../../src/features/submissions/run-kinds.ts'
import { countRuns, megabytes, timed, watchMemory } from './measure.ts'

/**
 * Live export of the runs of a database (its URL is the argument): each format, from the question to
 * the last byte, against COPY TO STDOUT of the same select through Node in the same run, with the memory
 * of this process. Several rounds, since the first reads what was written just before.
 */
const ROUNDS = 3
const FORMATS = ['csv', 'ndjson', 'parquet'] as const

const db = openDatabase(process.argv[2]!)
const rowGroups = new RowGroupThread()
const source = { db, tables: tablesFor(NewRun), makeGroups: rowGroups.make.bind(rowGroups) }
const live = new LiveExports(source)
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

async function timeRound({ db, tables }: ExportSource, runs: number): Promise<void> {
  await db.pool.query('DELETE FROM export_state') // as if the evidence had changed
  const drawing = watchMemory()
  const keysS = await timed(() => prepareUnits(db, tables))
  write(
    `keys and classes, once for a state of the evidence  ${keysS.toFixed(1)} s; ` +
      `memory at most ${megabytes(await drawing.stop())}`,
  )
  const copyS = await timeCopy()
  write(`COPY TO STDOUT through Node                     ${rate(runs, copyS)}`)
  for (const format of FORMATS) {
    const watch = watchMemory()
    const cpu = process.cpuUsage()
    let size = 0
    const seconds = await timed(async () => {
      const { bytes } = await live.open({ format })
      size = await drain(bytes)
    })
    const { user, system } = process.cpuUsage(cpu)
    const cpuS = (user + system) / 1e6
    write(
      `${format.padEnd(8)} ${rate(runs, seconds)}, ${(copyS / seconds).toFixed(2)} of COPY; ` +
        `${rate(runs, cpuS)} of this process's own time; ` +
        `${megabytes(size)}; memory at most ${megabytes(await watch.stop())}`,
    )
  }
}

/** The same select, and nothing done to what it gives. */
function timeCopy(): Promise<number> {
  return inTransaction(db, (client) =>
    timed(() => drain(client.query(copyTo(`COPY (${exportSelect('true')}) TO STDOUT`)))),
  )
}

function rate(runs: number, seconds: number): string {
  return `${(runs / seconds / 1000).toFixed(0)} thousand rows/s`
}

/** Takes everything, keeps nothing; gives how many bytes there were. */
async function drain(bytes: AsyncIterable<Uint8Array>): Promise<number> {
  let size = 0
  for await (const part of bytes) size += part.length
  return size
}
