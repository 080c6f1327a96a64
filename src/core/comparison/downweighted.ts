import type { NestedFit } from '../mixed/fit-result.ts'
import type { RobustFit } from '../mixed/robust.ts'
import { cellPlaces, runPlaces } from './run-places.ts'

/** One session, setup within a session, or run with its weight. */
export interface Downweight {
  readonly session: string
  /** Absent for a session as a whole. */
  readonly setup?: string
  /** Of a run: place in its submission (RFC 6901); null where it is not known. */
  readonly pointer?: string | null
  /** 0 to 1. */
  readonly weight: number
}

/** What counts less in a robust fit, lightest first, and how many count less at all. Plain JSON. */
export interface Downweighted {
  readonly sessions: readonly Downweight[]
  readonly cells: readonly Downweight[]
  readonly runs: readonly Downweight[]
  readonly counts: { readonly sessions: number; readonly cells: number; readonly runs: number }
  /** Setups whose mean differs most from that of the plain fit, about the mean change of all. */
  readonly moved: readonly MovedSetup[]
}

/** What the weights do to a setup. */
export interface MovedSetup {
  readonly setup: string
  /** Change against the mean change of all setups [1], a logarithm. */
  readonly change: number
}

/** Entries that are listed at most of each kind. */
const MOST_LISTED = 30

/**
 * What a robust fit lets count less, and what that does.
 *
 * @param robust the robust fit
 * @param plain the fit it stands beside
 * @param pointers places of the runs in their submissions, in the order of the observations
 * @returns weights below 1, shortened to the lightest, and the setups they move most
 * @source derived; what is listed is editorial
 */
export function downweightedIn(
  { layout, fit, sessionWeights, cellWeights, runWeights }: RobustFit,
  plain: NestedFit,
  pointers?: readonly string[],
): Downweighted {
  const cells = cellPlaces(layout)
  const runs = runPlaces(layout)
  const ofSessions = below(sessionWeights, (s) => ({ session: layout.sessionIds[s]! }))
  const ofCells = below(cellWeights, (c) => cells[c]!)
  const ofRuns = below(runWeights, (i) => ({ ...runs[i]!, pointer: pointers?.[i] ?? null }))
  return {
    sessions: ofSessions.slice(0, MOST_LISTED),
    cells: ofCells.slice(0, MOST_LISTED),
    runs: ofRuns.slice(0, MOST_LISTED),
    counts: { sessions: ofSessions.length, cells: ofCells.length, runs: ofRuns.length },
    moved: movedSetups(fit, plain),
  }
}

function below(
  weights: Float64Array,
  placeOf: (i: number) => Omit<Downweight, 'weight'>,
): Downweight[] {
  return [...weights.keys()]
    .filter((i) => weights[i]! < 1)
    .sort((i, j) => weights[i]! - weights[j]! || i - j)
    .map((i) => ({ ...placeOf(i), weight: weights[i]! }))
}

/** Levels mean nothing by themselves: what all setups share is taken off. */
function movedSetups({ setups, beta }: NestedFit, plain: NestedFit): MovedSetup[] {
  const changes = setups.map((_, k) => beta[k]! - plain.beta[k]!)
  const mean = changes.reduce((sum, change) => sum + change / changes.length, 0)
  return setups
    .map((setup, k) => ({ setup, change: changes[k]! - mean }))
    .sort((a, b) => Math.abs(b.change) - Math.abs(a.change))
    .slice(0, MOST_LISTED)
}
