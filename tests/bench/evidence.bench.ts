import { reportOn } from '../../src/core/comparison/fit-report.ts'
import { gatherEvidence } from '../../src/core/mixed/evidence.ts'
import { fitNested } from '../../src/core/mixed/fit.ts'
import { buildLayout } from '../../src/core/mixed/layout.ts'
import { fitRobust } from '../../src/core/mixed/robust.ts'
import { type EvidenceRows, toRows } from '../../src/features/fits/evidence-rows.ts'
import { fitEvidence, lookBeside } from '../../src/features/fits/model.ts'
import { simulateColumns } from './simulated-runs.ts'

type Write = (line: string) => void

const RUNS = 100_000
const SETUPS = 100
const REPETITIONS = 3

/**
 * Times what a refresh does with 100,000 runs of 100 setups: the fit that answers rest on, and what is
 * made after it. Best of the repetitions, as ratios to the fit.
 */
export async function benchEvidence(write: Write): Promise<void> {
  const rows = rowsOf(RUNS)
  const columns = simulateColumns({ runs: RUNS, setups: SETUPS })
  const layout = buildLayout(columns)
  const fit = fitNested(layout)
  const { sharedSessions } = gatherEvidence(layout)
  const answered = best(() => fitEvidence(rows))
  const parts: [what: string, ms: number][] = [
    ['fit ready to be stored', answered],
    ['  of which layout and fit', best(() => fitNested(buildLayout(columns)))],
    ['all that is made after it', best(() => lookBeside(rows))],
    ['  of which the report', best(() => reportOn({ layout, fit, sharedSessions }))],
    ['  of which the robust fit', best(() => fitRobust(layout, fit))],
  ]
  write(`    ${RUNS} runs, ${SETUPS} setups             ms   relative to the first`)
  for (const [what, ms] of parts) {
    const ratio = (ms / answered).toFixed(2)
    write(`    ${what.padEnd(28)} ${ms.toFixed(0).padStart(8)} ${ratio.padStart(10)}`)
  }
}

function best(work: () => unknown): number {
  let least = Infinity
  for (let i = 0; i < REPETITIONS; i++) {
    const start = performance.now()
    work()
    least = Math.min(least, performance.now() - start)
  }
  return least
}

/** The same runs as evidence: one pilot in ten with an interest, and two errors that reach beyond the session. */
function rowsOf(runs: number): EvidenceRows {
  const columns = simulateColumns({ runs, setups: SETUPS })
  const { y, u, setup, session, pilot, setupIds, sessionIds, pilotIds } = columns
  return toRows(
    Array.from({ length: runs }, (_, i) => ({
      setup: setupIds[setup[i]!]!,
      session: sessionIds[session[i]!]!,
      pilot: pilotIds[pilot[i]!]!,
      y: y[i]!,
      own: u[i]!,
      ...{ shared: 0.01, allUpMassKg: null, entryIndex: 0, runIndex: i },
      interested: pilot[i]! % 10 === 0,
      systematic: [
        { cause: 'lapse of power', reach: 'everyone' as const, effect: 0.002 * (i % 3) },
        { cause: 'wing', reach: 'pilot' as const, effect: 0.003 * (i % 2) },
      ],
    })),
  )
}
