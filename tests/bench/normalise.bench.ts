import { normaliseSubmission } from '../../src/core/normalise/submission.ts'
import type { FlightSession, SubmittedEntry } from '../../src/core/normalise/types.ts'

/** One submission of the size of an afternoon: two set-ups, four climbs and one burn each. */
const SESSION: FlightSession = {
  site: { elevationM: 212 },
  conditions: { temperatureC: 14.5, qnhHPa: 1018, relativeHumidityPct: 62, airMotion: 'calm' },
  pilot: { massKg: 82 },
  wing: {
    flatAreaM2: 24,
    glideRatio: 7.2,
    glideSource: 'measured',
    trimSpeedMps: 10.5,
    trimAtAllUpMassKg: 120,
  },
}
const CLIMB = {
  kind: 'climb',
  heightGainM: 100,
  durationS: 38,
  heightSource: 'barometric',
  startHeightAboveSiteM: 150,
} as const
const BURN = {
  kind: 'fuelBurn',
  volumeMl: 500,
  durationS: 552,
  heightAboveSiteM: 200,
  heightChangeM: 0,
  fuelTemperatureC: 12,
} as const
const ENTRY: SubmittedEntry = {
  entry: { allUpMassKg: 121, massSource: 'weighed' },
  equipment: { drive: 'twoStroke', propellerDiameterCm: 125 },
  runs: [CLIMB, CLIMB, CLIMB, CLIMB, BURN],
}
const ENTRIES = [ENTRY, ENTRY]
const RUNS_PER_SUBMISSION = ENTRIES.reduce((sum, { runs }) => sum + runs.length, 0)

/** Runs per second, by the clock and by the processor. */
interface Rate {
  readonly runsPerSecond: number
  /** Threads of the garbage collector counted in; what other processes take is not. */
  readonly runsPerCpuSecond: number
}

/**
 * Runs per second of the normalisation of whole submissions in this process, checks and budgets
 * included. On a machine that is shared, the figure per second of processor time is the one to look at.
 *
 * @param write takes each line of the report
 * @param durationMs how long to measure, after half of that to warm up
 * @returns runs per second
 */
export async function benchNormalise(
  write: (line: string) => void = (line) => process.stdout.write(`${line}\n`),
  durationMs = 2000,
): Promise<Rate> {
  measure(durationMs / 2)
  const rate = measure(durationMs)
  write(`    ${Math.round(rate.runsPerSecond)} runs/s, ${RUNS_PER_SUBMISSION} runs to a submission`)
  write(`    ${Math.round(rate.runsPerCpuSecond)} runs per second of processor time`)
  return rate
}

function measure(durationMs: number): Rate {
  const start = performance.now()
  const startCpu = process.cpuUsage()
  let submissions = 0
  while (performance.now() - start < durationMs) {
    if (normaliseSubmission(SESSION, ENTRIES).outcomes === null) throw new Error('refused')
    submissions++
  }
  const runs = submissions * RUNS_PER_SUBMISSION
  const { user, system } = process.cpuUsage(startCpu)
  return {
    runsPerSecond: (runs * 1e3) / (performance.now() - start),
    runsPerCpuSecond: (runs * 1e6) / (user + system),
  }
}
