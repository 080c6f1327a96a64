import { execFile, spawnSync } from 'node:child_process'
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'

import { fitNested } from '../../src/core/mixed/fit.ts'
import type { NestedFit } from '../../src/core/mixed/fit-result.ts'
import { buildLayout, type ObservationColumns } from '../../src/core/mixed/layout.ts'
import { simulateColumns } from './simulated-runs.ts'

type Write = (line: string) => void

const SIZE = { runs: 100_000, setups: 100, exact: true }
const REPETITIONS = 3

/**
 * The same simulated runs fitted by lme4 and here, one after the other: how much faster, and how far
 * apart the means are. Every run counts as exact, since lme4 takes no known uncertainties; lme4 at its
 * own settings, only without the check of derivatives that follows a fit.
 *
 * @param write takes each line of the report
 */
export async function benchAgainstLme4(write: Write): Promise<void> {
  const found = spawnSync('Rscript', ['-e', 'stopifnot(requireNamespace("lme4", quietly = TRUE))'])
  if (found.status !== 0) {
    write('    skipped: there is no Rscript with lme4')
    return
  }
  const columns = simulateColumns(SIZE)
  const ours = timeOurs(columns)
  const theirs = await timeLme4(columns)
  const apart = theirs.means.map(({ setup, mean, se }) => {
    const k = ours.fit.setups.indexOf(setup)
    return Math.abs(ours.fit.beta[k]! - mean) / se
  })
  write(`    ${SIZE.runs} runs, ${SIZE.setups} setups; lme4 ${theirs.lme4} on R ${theirs.R}`)
  write(
    `    lme4           ${theirs.elapsedS.toFixed(2)} s, ${theirs.cpuS.toFixed(2)} s of processor`,
  )
  write(`    here           ${ours.elapsedS.toFixed(2)} s, ${ours.cpuS.toFixed(2)} s of processor`)
  const ratio = (a: number, b: number) => (a / b).toFixed(0)
  write(
    `    times faster   ${ratio(theirs.elapsedS, ours.elapsedS)}, ${ratio(theirs.cpuS, ours.cpuS)} by processor time (goal: 60)`,
  )
  write(
    `    largest difference of means   ${Math.max(...apart).toExponential(1)} standard errors (goal: 1e-5)`,
  )
  const gain = ours.fit.logLikelihood - theirs.logLikelihood
  write(`    log-likelihood here less lme4's   ${gain.toExponential(1)}`)
}

/** The fastest of a few fits, the arranging of the runs included. */
function timeOurs(columns: ObservationColumns) {
  let best: { elapsedS: number; cpuS: number; fit: NestedFit } | null = null
  for (let repetition = 0; repetition < REPETITIONS; repetition++) {
    const used = process.cpuUsage()
    const start = performance.now()
    const fit = fitNested(buildLayout(columns))
    const elapsedS = (performance.now() - start) / 1000
    const { user, system } = process.cpuUsage(used)
    if (!fit.converged) throw new Error('the benchmark fit did not converge')
    if (best === null || elapsedS < best.elapsedS) {
      best = { elapsedS, cpuS: (user + system) / 1e6, fit }
    }
  }
  return best!
}

async function timeLme4(columns: ObservationColumns) {
  const folder = await mkdtemp(join(tmpdir(), 'fairclimb-lme4-'))
  try {
    await writeFile(join(folder, 'runs.csv'), csvOf(columns))
    const script = new URL('lme4.R', import.meta.url).pathname
    await promisify(execFile)('Rscript', [script], { cwd: folder })
    const rows = async (name: string) =>
      (await readFile(join(folder, name), 'utf8'))
        .trimEnd()
        .split('\n')
        .slice(1)
        .map((line) => line.split(','))
    const [elapsed, cpu, logLik, lme4, R] = (await rows('seconds.csv'))[0]!
    const means = await rows('means.csv')
    return {
      elapsedS: Number(elapsed),
      cpuS: Number(cpu),
      logLikelihood: Number(logLik),
      means: means.map(([setup, mean, se]) => ({
        setup: setup!,
        mean: Number(mean),
        se: Number(se),
      })),
      ...{ lme4, R },
    }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

function csvOf({ y, setup, session, pilot, ...ids }: ObservationColumns): string {
  const lines = Array.from(
    y,
    (value, i) =>
      `${value},${ids.setupIds[setup[i]!]},${ids.sessionIds[session[i]!]},${ids.pilotIds[pilot[i]!]}`,
  )
  return `y,setup,session,pilot\n${lines.join('\n')}\n`
}
