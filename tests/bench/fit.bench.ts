import { fitNested } from '../../src/core/mixed/fit.ts'
import { buildLayout, type Layout, type ObservationColumns } from '../../src/core/mixed/layout.ts'
import { simulateColumns } from './simulated-runs.ts'

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
    const timing = time(simulateColumns({ runs, setups: SETUPS }))
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
