import { chiSquareUpperTail } from '../distributions/chi-square.ts'
import { holmAdjusted } from '../distributions/holm.ts'
import type { FitInfluence } from './influence.ts'

/** Chance of even one false alarm among all sessions, and again among all runs, of clean evidence [1]. */
export const FALSE_ALARM_RATE = 0.05

/** A session whose cells fit neither its own level nor one another. */
export interface FlaggedSession {
  readonly session: string
  readonly chiSquare: number
  readonly degreesOfFreedom: number
  /** Adjusted for the number of sessions [1]. */
  readonly pValue: number
}

/** A run that does not fit the others of its setup. */
export interface FlaggedRun {
  /** Position among the observations. */
  readonly run: number
  /** Standardised residual [1]. */
  readonly residual: number
  /** Adjusted for the number of runs [1]. */
  readonly pValue: number
}

/** What should be looked at; nothing is left out because of it. */
export interface Outliers {
  readonly sessions: readonly FlaggedSession[]
  readonly runs: readonly FlaggedRun[]
}

/**
 * Sessions and runs that stand out by more than chance, each family tested at {@link FALSE_ALARM_RATE}
 * over all its members by Holm's rule.
 *
 *     session: χ²_s on its cells;   run: t_i² on one degree of freedom
 *
 * @param influence of a fit
 * @returns the flagged ones, most extreme first
 * @source score test of a shift of single cells or runs (R. D. Cook, S. Weisberg, 1982, from memory);
 *   S. Holm, Scand. J. Statist. 6, 1979, 65-70 (from memory)
 */
export function findOutliers(influence: FitInfluence): Outliers {
  const sessionValues = holmAdjusted(
    influence.sessions.map(({ chiSquare, degreesOfFreedom: df }) =>
      df > 0 ? chiSquareUpperTail(Math.max(0, chiSquare), df) : Number.NaN,
    ),
  )
  const runValues = holmAdjusted(
    influence.runResiduals.map((t) =>
      Number.isNaN(t) ? Number.NaN : chiSquareUpperTail(t * t, 1),
    ),
  )
  const sessions = influence.sessions
    .map(({ session, chiSquare, degreesOfFreedom }, s) => ({
      session,
      chiSquare,
      degreesOfFreedom,
      pValue: sessionValues[s]!,
    }))
    .filter(({ pValue }) => pValue <= FALSE_ALARM_RATE)
    .sort((a, b) => a.pValue - b.pValue || (a.session < b.session ? -1 : 1))
  const runs = [...runValues.keys()]
    .filter((run) => runValues[run]! <= FALSE_ALARM_RATE)
    .map((run) => ({ run, residual: influence.runResiduals[run]!, pValue: runValues[run]! }))
    .sort((a, b) => a.pValue - b.pValue || a.run - b.run)
  return { sessions, runs }
}
