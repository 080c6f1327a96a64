import { normalQuantile } from '../distributions/normal.ts'
import { inspect } from '../plausibility/faults.ts'
import { Pcg32 } from '../random/pcg32.ts'
import { type DrawnOutput, monteCarlo } from '../uncertainty/monte-carlo.ts'
import { type Model, propagate, type UncertainInput } from '../uncertainty/propagate.ts'
import { climbModel } from './climb.ts'
import { energyModel } from './energy-use.ts'
import { burnModel } from './fuel-burn.ts'
import { levelSpeedModel } from './level-speed.ts'
import { OUTPUTS, VALUE } from './outcome.ts'
import type { PreparedRun } from './prepare.ts'
import type { Place } from './session.ts'
import { sinkModel } from './sink.ts'
import { soundModel } from './sound-level.ts'
import { pullModel } from './static-pull.ts'
import type { FlightSession, SubmittedEntry } from './types.ts'

/** Linear and Monte Carlo uncertainty of one result, side by side; both in the unit of the result. */
export interface UncertaintyCheck {
  readonly linear: {
    readonly standardUncertainty: number
    readonly interval95: readonly [number, number]
  }
  /** Draws that had no answer are left out of all but their count; null where nearly all had none. */
  readonly monteCarlo:
    | (DrawnOutput & { readonly draws: number; readonly failedDraws: number })
    | null
  /** Whether the two standard uncertainties lie within 10 % of one another and every draw had an answer. */
  readonly agrees: boolean
}

/** How far the two may lie apart [1]. Source: METHOD.md, section j. */
const AGREEMENT_RATIO = 0.1
/** Share of the draws that may leave the physics: what lies beyond any interval that is quoted [1]. */
const FAILED_RATIO = 0.001
const Z_95 = normalQuantile(0.975)

/**
 * Checks the linear uncertainty of every run of a submission by Monte Carlo, one run at a time, so
 * that the caller may do other things in between. Each run has random numbers of its own: the same
 * seed gives the same figures, whatever the other runs are.
 *
 * @param session the session as submitted
 * @param entries its entries with what the catalogue knows of their equipment
 * @param options draws per run, 100 to 1e7, and the seed
 * @returns place and check of one run after the other; null for a run without a model of its errors;
 *   nothing at all where the submission is refused
 * @source JCGM 101:2008, clause 8 (validation of the GUM framework); the 10 % are ours
 */
export function* crossCheckedRuns(
  session: FlightSession,
  entries: readonly SubmittedEntry[],
  { draws, seed }: { readonly draws: number; readonly seed: number },
): Generator<{ readonly at: Place; readonly check: UncertaintyCheck | null }> {
  for (const [entryIndex, { runs }] of (inspect(session, entries).prepared ?? []).entries()) {
    for (const [runIndex, run] of runs.entries()) {
      const random = new Pcg32(seed, entryIndex * 2 ** 20 + runIndex)
      yield { at: { entryIndex, runIndex }, check: crossCheckedRun(run, { draws, random }) }
    }
  }
}

/**
 * Checks the linear uncertainty of one run by Monte Carlo.
 *
 * @param run the run, worked out
 * @param options draws, 100 to 1e7, and where the random numbers come from
 * @returns both uncertainties [unit of the result]; null for a run without a model of its errors
 * @source JCGM 101:2008, clause 8
 */
export function crossCheckedRun(
  run: PreparedRun,
  options: { readonly draws: number; readonly random: Pcg32 },
): UncertaintyCheck | null {
  const subject = modelOf(run)
  if (subject === null) return null
  const { inputs, model } = subject
  const { values, contributions } = propagate(inputs, OUTPUTS, model)
  const linearU = Math.hypot(...contributions.filter((_, at) => at % OUTPUTS === VALUE))
  const { outputs, draws, failedDraws } = monteCarlo(inputs, OUTPUTS, model, options)
  const drawn = outputs[VALUE]!
  const value = values[VALUE]!
  return {
    linear: {
      standardUncertainty: linearU,
      interval95: [value - Z_95 * linearU, value + Z_95 * linearU],
    },
    monteCarlo: failedDraws > draws - 2 ? null : { ...drawn, draws, failedDraws },
    agrees:
      Math.abs(drawn.standardUncertainty / linearU - 1) <= AGREEMENT_RATIO &&
      failedDraws <= FAILED_RATIO * draws,
  }
}

/** What the uncertainty of a run follows from. */
function modelOf(
  run: PreparedRun,
): { readonly inputs: readonly UncertainInput[]; readonly model: Model } | null {
  switch (run.kind) {
    case 'climb':
      return { inputs: run.climb.inputs, model: climbModel(run.climb) }
    case 'fuelBurn':
      return { inputs: run.burn.inputs, model: burnModel(run.burn) }
    case 'energyUse':
      return { inputs: run.energy.inputs, model: energyModel(run.energy) }
    case 'staticPull':
      return { inputs: run.pull.inputs, model: pullModel(run.pull) }
    case 'soundLevel':
      return { inputs: run.sound.inputs, model: soundModel(run.sound) }
    case 'sink':
      return { inputs: run.sink.inputs, model: sinkModel(run.sink) }
    case 'levelSpeed':
      return { inputs: run.speed.inputs, model: levelSpeedModel(run.speed) }
    case 'tipClearance':
      return null
  }
}
