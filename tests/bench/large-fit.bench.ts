import { execFile } from 'node:child_process'
import { promisify } from 'node:util'

type Write = (line: string) => void

/** Runs and setups, the last the size with a goal: under 8 s and 1 GB. */
const SIZES = [
  [1_000, 100],
  [10_000, 100],
  [100_000, 100],
  [1_000_000, 100],
  [1_000_000, 1_000],
] as const

interface OneFit {
  readonly layoutS: number
  readonly fitS: number
  readonly cpuS: number
  readonly steps: number
  readonly converged: boolean
  readonly peakMb: number
}

/**
 * Time and peak memory of one fit from a thousand to a million runs, each in a process of its own, its
 * start and the simulated runs in the memory but not in the time. Nothing is warmed up.
 *
 * @param write takes each line of the report
 */
export async function benchLargeFits(write: Write): Promise<void> {
  write('       runs  setups   layout s    fit s   processor s   steps   peak MB')
  for (const [runs, setups] of SIZES) {
    const fit = await inItsOwnProcess(runs, setups)
    if (!fit.converged) throw new Error('the benchmark fit did not converge')
    write(
      [
        String(runs).padStart(11),
        String(setups).padStart(7),
        fit.layoutS.toFixed(3).padStart(10),
        fit.fitS.toFixed(3).padStart(8),
        fit.cpuS.toFixed(3).padStart(13),
        String(fit.steps).padStart(7),
        fit.peakMb.toFixed(0).padStart(9),
      ].join(' '),
    )
  }
  write('    goal of the last line: under 8 s and under 1024 MB')
}

async function inItsOwnProcess(runs: number, setups: number): Promise<OneFit> {
  const script = new URL('one-fit.ts', import.meta.url).pathname
  const { stdout } = await promisify(execFile)(process.execPath, [
    ...process.execArgv, // how this process reads TypeScript
    ...[script, String(runs), String(setups)],
  ])
  return JSON.parse(stdout) as OneFit
}
