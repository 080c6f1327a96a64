import { setImmediate as othersFirst } from 'node:timers/promises'
import { z } from 'zod'

import { ApiProblem } from '../../../contract/problems.ts'
import { crossCheckedRuns, type UncertaintyCheck } from '../../../core/normalise/cross-check.ts'
import type { FlightSession, SubmittedEntry } from '../../../core/normalise/types.ts'

/** Draws per run: JCGM 101 asks for 1e4 to 1e5; 1e4 give a standard uncertainty to 1 %. */
const DRAWS = 10_000
/** The same request has the same answer. */
const SEED = 1
const MAX_RUNS = 30

const interval = z.array(z.number()).length(2).describe('Ends of the interval, in `unit`')

/** Linear and Monte Carlo uncertainty of one result; null for a run without a model of its errors. */
export const CrossCheck = z
  .object({
    linear: z.object({
      standardUncertainty: z.number().describe('As in `normalized`'),
      interval95: interval,
    }),
    monteCarlo: z
      .object({
        mean: z.number(),
        standardUncertainty: z.number(),
        interval95: interval,
        draws: z.int(),
        failedDraws: z.int().describe('Draws outside the physics, left out of the rest'),
      })
      .nullable()
      .describe('Null where nearly no draw had an answer'),
    agrees: z
      .boolean()
      .describe(
        'False where the two differ by more than 10 %, or draws failed: then trust the interval of the Monte Carlo',
      ),
  })
  .meta({
    id: 'CrossCheck',
    description: 'Uncertainty of a result by linear propagation and by Monte Carlo (JCGM 101)',
  })

type CrossCheck = z.infer<typeof CrossCheck>

/**
 * Checks the uncertainty of every run by Monte Carlo; lets other requests in between two runs.
 *
 * @throws {ApiProblem} invalid-request for more runs than are checked at a time
 */
export async function crossCheck(
  session: FlightSession,
  entries: readonly SubmittedEntry[],
): Promise<(CrossCheck | null)[][]> {
  const runs = entries.reduce((sum, entry) => sum + entry.runs.length, 0)
  if (runs > MAX_RUNS) {
    const detail = `At most ${MAX_RUNS} runs are cross-checked at a time; here are ${runs}.`
    throw new ApiProblem('invalid-request', { errors: [{ pointer: '/entries', detail }] })
  }
  const checks: (CrossCheck | null)[][] = entries.map(() => [])
  for (const { at, check } of crossCheckedRuns(session, entries, { draws: DRAWS, seed: SEED })) {
    checks[at.entryIndex]![at.runIndex] = check === null ? null : asAnswer(check)
    await othersFirst()
  }
  return checks
}

function asAnswer({ linear, monteCarlo, agrees }: UncertaintyCheck): CrossCheck {
  return {
    linear: { ...linear, interval95: [...linear.interval95] },
    monteCarlo:
      monteCarlo === null ? null : { ...monteCarlo, interval95: [...monteCarlo.interval95] },
    agrees,
  }
}
