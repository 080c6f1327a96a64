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

/**
 * Runs per second of the normalisation of whole submissions in this process, checks and budgets
 * included.
 *
 * @param write takes each line of the report
 * @param durationMs how long to measure, after a tenth of that to warm up
 * @returns runs per second
 */
export async function benchNormalise(
  write: (line: string) => void = (line) => process.stdout.write(`${line}\n`),
  durationMs = 2000,
): Promise<{ readonly runsPerSecond: number }> {
  measure(durationMs / 10)
  const runsPerSecond = measure(durationMs)
  write(`    ${Math.round(runsPerSecond)} runs/s, ${RUNS_PER_SUBMISSION} runs to a submission`)
  return { runsPerSecond }
}

function measure(durationMs: number): number {
  const start = performance.now()
  let submissions = 0
  while (performance.now() - start < durationMs) {
    if (normaliseSubmission(SESSION, ENTRIES).outcomes === null) throw new Error('refused')
    submissions++
  }
  return (submissions * RUNS_PER_SUBMISSION * 1000) / (performance.now() - start)
}
