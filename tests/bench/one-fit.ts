import { fitNested } from '../../src/core/mixed/fit.ts'
import { buildLayout } from '../../src/core/mixed/layout.ts'
import { simulateColumns } from './simulated-runs.ts'

/** One fit in a process of its own, for its peak memory: RUNS SETUPS, answers as a line of JSON. */
const [runs, setups] = process.argv.slice(2).map(Number)
const columns = simulateColumns({ runs: runs!, setups: setups! })
const used = process.cpuUsage()
const start = performance.now()
const layout = buildLayout(columns)
const built = performance.now()
const fit = fitNested(layout)
const end = performance.now()
const { user, system } = process.cpuUsage(used)
const answer = {
  layoutS: (built - start) / 1000,
  fitS: (end - built) / 1000,
  cpuS: (user + system) / 1e6,
  steps: fit.iterations,
  converged: fit.converged,
  peakMb: process.resourceUsage().maxRSS / 1024,
}
process.stdout.write(`${JSON.stringify(answer)}\n`)
