import { chiSquareUpperTail } from '../distributions/chi-square.ts'
import { holmAdjusted } from '../distributions/holm.ts'
import { type DesignTest, type NodeSplit, splitNodes, testDesigns } from '../mixed/consistency.ts'
import type { NestedFit } from '../mixed/fit-result.ts'
import { type FitInfluence, influenceOf } from '../mixed/influence.ts'
import type { Layout } from '../mixed/layout.ts'
import { type CovariateTest, testCovariate } from '../mixed/mass-trend.ts'
import { findOutliers, type Outliers } from '../mixed/outliers.ts'
import { type MostMoved, mostMovedPairs } from './most-moved.ts'
import { type RunPlace, runPlaces } from './run-places.ts'
import { checkScatter, countIdentical, type ScatterCheck } from './scatter-check.ts'

/** One session as a report shows it. */
export interface ReportedSession {
  readonly session: string
  readonly cells: number
  readonly chiSquare: number
  readonly degreesOfFreedom: number
  readonly levelShift: number
  /** Adjusted for the number of sessions (Holm) [1]. */
  readonly pValue: number
  /** Stands out itself, or holds a run that does. */
  readonly flagged: boolean
  readonly soleEvidence: boolean
  /** The difference that leaving this session out changes most, in its own standard errors. */
  readonly mostMoved: MostMoved | null
}

/** One run as a report shows it. */
export interface ReportedRun {
  readonly session: string
  /** Place in its submission (RFC 6901); null where it is not known. */
  readonly pointer: string | null
  readonly setup: string
  readonly residual: number
  readonly pValue: number
}

/** What there is to know about a fit before one trusts it. Plain JSON. */
export interface FitReport {
  readonly sessions: readonly ReportedSession[]
  readonly flaggedSessions: number
  readonly soleEvidenceSessions: number
  readonly runs: readonly ReportedRun[]
  readonly consistency: {
    readonly designs: DesignTest | null
    /** Lowest p-values first, adjusted for the number of pairs (Holm). */
    readonly splits: readonly NodeSplit[]
  }
  readonly mass: CovariateTest | null
  readonly scatter: ScatterCheck | null
  /** Cells whose runs are all the same number: copied, or read to too few digits. */
  readonly identicalCells: number
}

/** Pairs and runs a report lists at most, and sessions that are not flagged. */
const MOST_LISTED = 30
/** Pairs that are split at most: those flown together most often. */
const MOST_SPLITS = 200

/** What the report is made from beside the fit. */
export interface ReportSources {
  readonly layout: Layout
  readonly fit: NestedFit
  /** K × K counts of sessions that hold both setups. */
  readonly sharedSessions: Int32Array
  /** ln of the all-up mass per run, in the order of the observations. */
  readonly logMass?: Float64Array | undefined
  readonly pointers?: readonly string[] | undefined
}

/**
 * Residuals, influence, consistency and dependence on mass of a fit, shortened to what stands out.
 *
 * @param sources layout, its fit and what is known of its runs
 * @returns the report; null where the fit knows no standard errors
 * @source the tests are those of `core/mixed`; what is listed is editorial
 */
export function reportOn(sources: ReportSources): FitReport | null {
  const { layout, fit, logMass } = sources
  const influence = influenceOf(layout, fit)
  if (influence === null) return null
  const outliers = findOutliers(influence)
  const place = runPlaces(layout)
  const sessions = sessionsOf(sources, { influence, outliers, place })
  return {
    sessions: sessions.filter(({ flagged }, place) => flagged || place < MOST_LISTED),
    flaggedSessions: sessions.filter(({ flagged }) => flagged).length,
    soleEvidenceSessions: sessions.filter(({ soleEvidence }) => soleEvidence).length,
    runs: runsOf(sources, outliers, place),
    consistency: {
      designs: testDesigns(layout, fit.theta),
      splits: splitsOf(sources),
    },
    mass: logMass === undefined ? null : testCovariate(layout, fit.theta, logMass),
    scatter: checkScatter(layout),
    identicalCells: countIdentical(layout),
  }
}

/** All sessions: flagged ones first, then those that move a difference most. */
function sessionsOf(
  { layout, fit }: ReportSources,
  {
    influence,
    outliers,
    place,
  }: { influence: FitInfluence; outliers: Outliers; place: readonly RunPlace[] },
): ReportedSession[] {
  const flagged = new Set([
    ...outliers.sessions.map(({ session }) => session),
    ...outliers.runs.map(({ run }) => place[run]!.session),
  ])
  const moved = mostMovedPairs(layout, fit, influence)
  const pValues = holmAdjusted(
    influence.sessions.map(({ chiSquare, degreesOfFreedom: df }) =>
      df > 0 ? chiSquareUpperTail(Math.max(0, chiSquare), df) : Number.NaN,
    ),
  )
  const all = influence.sessions.map(({ pilot: _, ...session }, s) => ({
    ...session,
    levelShift: Number.isNaN(session.levelShift) ? 0 : session.levelShift,
    pValue: Number.isNaN(pValues[s]!) ? 1 : pValues[s]!,
    flagged: flagged.has(session.session),
    mostMoved: moved[s]!,
  }))
  const size = ({ mostMoved }: ReportedSession) => Math.abs(mostMoved?.inStandardErrors ?? 0)
  return all.sort(
    (a, b) =>
      Number(b.flagged) - Number(a.flagged) ||
      size(b) - size(a) ||
      (a.session < b.session ? -1 : 1),
  )
}

function runsOf(
  { pointers }: ReportSources,
  outliers: Outliers,
  place: readonly RunPlace[],
): ReportedRun[] {
  return outliers.runs.slice(0, MOST_LISTED).map(({ run, residual, pValue }) => {
    const { session, setup } = place[run]!
    return { session, setup, residual, pValue, pointer: pointers?.[run] ?? null }
  })
}

function splitsOf({ layout, fit, sharedSessions }: ReportSources): NodeSplit[] {
  const K = layout.setupCount
  const pairs: { a: number; b: number; shared: number }[] = []
  for (let a = 0; a < K; a++) {
    for (let b = a + 1; b < K; b++) {
      const shared = sharedSessions[a + b * K]!
      if (shared > 0) pairs.push({ a, b, shared })
    }
  }
  pairs.sort((p, q) => q.shared - p.shared || p.a - q.a || p.b - q.b)
  const asked = pairs
    .slice(0, MOST_SPLITS)
    .map(({ a, b }) => [layout.setupIds[a]!, layout.setupIds[b]!] as const)
  const splits = splitNodes(layout, fit.theta, asked).filter((split) => split !== null)
  const adjusted = holmAdjusted(splits.map(({ pValue }) => pValue))
  return splits
    .map((split, i) => ({ ...split, pValue: adjusted[i]! }))
    .sort((p, q) => p.pValue - q.pValue || (p.a + p.b < q.a + q.b ? -1 : 1))
    .slice(0, MOST_LISTED)
}
