import { fitNested } from '../../src/core/mixed/fit.ts'
import { buildLayout, type Layout, type ObservationColumns } from '../../src/core/mixed/layout.ts'
import { Pcg32 } from '../../src/core/random/pcg32.ts'

/** One size of the benchmark: the best of the repetitions. */
export interface FitTiming {
  readonly runs: number
  readonly setups: number
  readonly layoutMs: number
  readonly fitMs: number
  readonly iterations: number
  /** Time of layout and fit per run, relative to the first size. */
  readonly ratioPerRun: number
}

const SETUPS = 100
const SIZES = [1_000, 10_000, 100_000]
const REPETITIONS = 5
/** Standard deviations of pilots, sessions, cells and runs, and the largest known uncertainty. */
const SCATTER = { pilot: 0.02, session: 0.03, cell: 0.015, run: 0.02, uncertainty: 0.02 }

/**
 * Times buildLayout and fitNested on simulated runs of 100 setups: 8 runs a session, 3 setups a
 * session, 20 sessions a pilot.
 *
 * @param write takes each line of the report
 * @returns the timings
 */
export async function benchFit(
  write: (line: string) => void = (line) => process.stdout.write(`${line}\n`),
): Promise<FitTiming[]> {
  const timings: FitTiming[] = []
  write('    runs  setups   layout ms   fit ms   steps   per run, relative to the first')
  for (const runs of SIZES) {
    const timing = time(simulateColumns(runs))
    const perRun = (timing.layoutMs + timing.fitMs) / runs
    const first = timings[0]
    const ratioPerRun =
      first === undefined ? 1 : perRun / ((first.layoutMs + first.fitMs) / first.runs)
    timings.push({ runs, setups: SETUPS, ...timing, ratioPerRun })
    write(
      [
        String(runs).padStart(8),
        String(SETUPS).padStart(7),
        timing.layoutMs.toFixed(1).padStart(11),
        timing.fitMs.toFixed(1).padStart(8),
        String(timing.iterations).padStart(7),
        ratioPerRun.toFixed(2).padStart(11),
      ].join(' '),
    )
  }
  return timings
}

function time(columns: ObservationColumns): Pick<FitTiming, 'layoutMs' | 'fitMs' | 'iterations'> {
  let layoutMs = Infinity
  let fitMs = Infinity
  let iterations = 0
  for (let repetition = 0; repetition < REPETITIONS; repetition++) {
    const start = performance.now()
    const layout: Layout = buildLayout(columns)
    const built = performance.now()
    const fit = fitNested(layout)
    const end = performance.now()
    if (!fit.converged) throw new Error('the benchmark fit did not converge')
    iterations = fit.iterations
    layoutMs = Math.min(layoutMs, built - start)
    fitMs = Math.min(fitMs, end - built)
  }
  return { layoutMs, fitMs, iterations }
}

const RUNS_PER_SESSION = 8
const SETUPS_PER_SESSION = 3
const SESSIONS_PER_PILOT = 20

/** Runs of 100 setups as the model sees them, the same ones every time. */
export function simulateColumns(runs: number): ObservationColumns {
  const random = new Pcg32(runs, 1)
  const columns = {
    y: new Float64Array(runs),
    u: new Float64Array(runs),
    setup: new Int32Array(runs),
    session: new Int32Array(runs),
    pilot: new Int32Array(runs),
  }
  let pilotEffect = 0
  const sessions = Math.ceil(runs / RUNS_PER_SESSION)
  for (let session = 0; session < sessions; session++) {
    if (session % SESSIONS_PER_PILOT === 0) pilotEffect = SCATTER.pilot * random.normal()
    const sessionEffect = pilotEffect + SCATTER.session * random.normal()
    const flown = Array.from({ length: SETUPS_PER_SESSION }, () => ({
      setup: random.int(SETUPS),
      effect: sessionEffect + SCATTER.cell * random.normal(),
    }))
    const end = Math.min(runs, (session + 1) * RUNS_PER_SESSION)
    for (let run = session * RUNS_PER_SESSION; run < end; run++) {
      const { setup, effect } = flown[random.int(SETUPS_PER_SESSION)]!
      const u = SCATTER.uncertainty * random.uniform()
      columns.u[run] = u
      columns.y[run] = 0.01 * setup + effect + Math.hypot(SCATTER.run, u) * random.normal()
      columns.setup[run] = setup
      columns.session[run] = session
      columns.pilot[run] = Math.floor(session / SESSIONS_PER_PILOT)
    }
  }
  const ids = (count: number, kind: string) =>
    Array.from({ length: count }, (_, i) => `${kind}-${i}`)
  return {
    ...columns,
    setupIds: ids(SETUPS, 'setup'),
    sessionIds: ids(sessions, 'session'),
    pilotIds: ids(Math.ceil(sessions / SESSIONS_PER_PILOT), 'pilot'),
  }
}
