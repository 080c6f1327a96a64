import { OutOfRangeError } from '../errors.ts'
import {
  countingSort,
  type SortedIds,
  sortByValueInPlace,
  sortIds,
  translate,
} from './design/canonical-order.ts'
import {
  checkColumns,
  type Observation,
  type ObservationColumns,
  toColumns,
} from './design/columns.ts'
import { type Groups, groupRuns } from './design/groups.ts'
import { InvalidLayoutError } from './design/invalid-layout-error.ts'
import type { MeanDesign } from './design/mean-design.ts'

export type { Observation, ObservationColumns } from './design/columns.ts'
export { InvalidLayoutError } from './design/invalid-layout-error.ts'

/** Settings of {@link buildLayout}. */
export interface LayoutOptions {
  /**
   * Known extra variance of a session [unit of y squared], for example the squared uncertainty
   * of a calibration all its runs share. Sessions left out have none.
   */
  readonly knownSessionVariance?: ReadonlyMap<string, number>
}

/** Runs in cells in sessions in pilots, in one canonical order. */
export interface Layout extends Groups {
  /** Position of each run of the layout among the observations it was built from. */
  readonly order: Int32Array
  readonly setupIds: readonly string[]
  readonly sessionIds: readonly string[]
  readonly pilotIds: readonly string[]
  /** Mean y of each setup [unit of y]; subtracting it keeps digits. */
  readonly anchor: Float64Array
  /** y − anchor of its setup, per run [unit of y]. */
  readonly deviation: Float64Array
  /** Known variance u² of each run [unit of y squared]. */
  readonly knownRunVariance: Float64Array
  /** Known extra variance of each session [unit of y squared]. */
  readonly knownSessionVariance: Float64Array
  /** Structure of the setup means; each setup has a mean of its own where there is none. */
  readonly means?: MeanDesign
}

/**
 * Arranges runs for the nested model: pilots by id, sessions by id within their pilot, setups by
 * id within their session, runs by value within their cell. The same runs in any sequence give
 * the same layout bit for bit, hence the same fit. Cost O(N) apart from sorting the ids.
 *
 * @param observations rows, or columns with codes; y finite, u ≥ 0 [unit of y]; may be empty
 * @param options known session variances [unit of y squared], ≥ 0
 * @returns the layout; it holds copies, nothing of the input
 * @throws {OutOfRangeError} if y is not finite, or u or a known variance is negative or not finite
 * @throws {InvalidLayoutError} if a session has runs of two pilots or the columns do not match
 * @source derived here for reproducible sums
 */
export function buildLayout(
  observations: readonly Observation[] | ObservationColumns,
  options: LayoutOptions = {},
): Layout {
  const columns = 'setupIds' in observations ? observations : toColumns(observations)
  checkColumns(columns)
  const setups = sortIds(columns.setup, columns.setupIds)
  const pilots = sortIds(columns.pilot, columns.pilotIds)
  const sessions = orderByPilot(sortIds(columns.session, columns.sessionIds), pilots)
  const order = canonicalOrder(setups, sessions, columns)
  const groups = groupRuns(
    order,
    { setup: setups.codes, session: sessions.codes, pilot: pilots.codes },
    setups.ids.length,
  )
  return {
    ...groups,
    order,
    setupIds: setups.ids,
    sessionIds: sessions.ids,
    pilotIds: pilots.ids,
    ...centred(order, columns.y, groups),
    knownRunVariance: squares(order, columns.u),
    knownSessionVariance: sessionVariances(sessions.ids, options.knownSessionVariance),
  }
}

/** Sessions of the first pilot first; refuses a session of two pilots. */
function orderByPilot(sessions: SortedIds, pilots: SortedIds): SortedIds {
  const pilotOf = new Int32Array(sessions.ids.length).fill(-1)
  for (let run = 0; run < sessions.codes.length; run++) {
    const session = sessions.codes[run]!
    const pilot = pilots.codes[run]!
    if (pilotOf[session] === -1) pilotOf[session] = pilot
    else if (pilotOf[session] !== pilot) {
      const names = [pilotOf[session]!, pilot].map((p) => pilots.ids[p]).sort()
      throw new InvalidLayoutError(
        `session ${sessions.ids[session]} has runs of two pilots, ${names.join(' and ')}`,
      )
    }
  }
  const order = countingSort(pilotOf, pilots.ids.length)
  const place = new Int32Array(order.length)
  for (let i = 0; i < order.length; i++) place[order[i]!] = i
  return {
    ids: Array.from(order, (session) => sessions.ids[session]!),
    codes: translate(sessions.codes, place),
  }
}

/** Run numbers by session, setup, y and u. */
function canonicalOrder(
  setups: SortedIds,
  sessions: SortedIds,
  values: { readonly y: Float64Array; readonly u: Float64Array },
): Int32Array {
  const bySetup = countingSort(setups.codes, setups.ids.length)
  const order = countingSort(sessions.codes, sessions.ids.length, bySetup)
  for (let start = 0; start < order.length; ) {
    const first = order[start]!
    let end = start + 1
    while (
      end < order.length &&
      sessions.codes[order[end]!] === sessions.codes[first] &&
      setups.codes[order[end]!] === setups.codes[first]
    ) {
      end++
    }
    sortByValueInPlace(order, { start, end }, values)
    start = end
  }
  return order
}

/** u² in the order of the layout. */
function squares(order: Int32Array, u: Float64Array): Float64Array {
  const result = new Float64Array(order.length)
  for (let i = 0; i < order.length; i++) result[i] = u[order[i]!]! ** 2
  return result
}

/** Means of the setups, and the runs' distances from them. */
function centred(
  order: Int32Array,
  y: Float64Array,
  { cellSetup, cellStart, setupCount }: Groups,
): Pick<Layout, 'anchor' | 'deviation'> {
  const anchor = new Float64Array(setupCount)
  const runs = new Float64Array(setupCount)
  const deviation = new Float64Array(order.length)
  for (let i = 0; i < order.length; i++) deviation[i] = y[order[i]!]! + 0 // −0 becomes 0
  for (let cell = 0; cell < cellSetup.length; cell++) {
    const setup = cellSetup[cell]!
    for (let i = cellStart[cell]!; i < cellStart[cell + 1]!; i++) {
      runs[setup]!++
      anchor[setup]! += (deviation[i]! - anchor[setup]!) / runs[setup]! // running mean, no overflow
    }
  }
  for (let cell = 0; cell < cellSetup.length; cell++) {
    const mean = anchor[cellSetup[cell]!]!
    for (let i = cellStart[cell]!; i < cellStart[cell + 1]!; i++) deviation[i]! -= mean
  }
  return { anchor, deviation }
}

function sessionVariances(
  sessionIds: readonly string[],
  known: ReadonlyMap<string, number> | undefined,
): Float64Array {
  return Float64Array.from(sessionIds, (id) => {
    const variance = known?.get(id) ?? 0
    if (!(variance >= 0 && variance < Infinity)) {
      throw new OutOfRangeError(`known variance of session ${id}`, variance, 0, Number.MAX_VALUE)
    }
    return variance
  })
}
