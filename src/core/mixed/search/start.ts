import { COMPONENT_COUNT } from '../components.ts'
import type { Layout } from '../layout.ts'
import { productsOfPairs } from './moments.ts'

/** Moments of the data that set the scale of the search. */
export interface DataScale {
  /** Mean square of y about the setup means [unit of y squared]. */
  readonly total: number
  /** Mean square within cells, or null if every cell has one run [unit of y squared]. */
  readonly withinCells: number | null
  /** Mean and smallest known run variance [unit of y squared]. */
  readonly meanKnown: number
  readonly leastKnown: number
}

/**
 * Mean squares of the runs.
 *
 * @param layout the runs, at least one
 * @returns moments [unit of y squared]
 * @source common practice (analysis of variance)
 */
export function dataScale(layout: Layout): DataScale {
  const { runCount, cellCount, setupCount, cellStart, deviation, knownRunVariance } = layout
  let total = 0
  let within = 0
  let known = 0
  let leastKnown = Infinity
  for (let c = 0; c < cellCount; c++) {
    const end = cellStart[c + 1]!
    let sum = 0
    for (let i = cellStart[c]!; i < end; i++) sum += deviation[i]!
    const mean = sum / (end - cellStart[c]!)
    for (let i = cellStart[c]!; i < end; i++) {
      total += deviation[i]! ** 2
      within += (deviation[i]! - mean) ** 2
      known += knownRunVariance[i]!
      leastKnown = Math.min(leastKnown, knownRunVariance[i]!)
    }
  }
  return {
    total: total / Math.max(1, runCount - setupCount),
    withinCells: runCount > cellCount ? within / (runCount - cellCount) : null,
    meanKnown: known / Math.max(1, runCount),
    leastKnown,
  }
}

/** Smallest share of the observed variance that the runs of a start are given. */
const LEAST_START_SHARE = 0.05

/** Run variance never falls below this share of the observed variance while some u is 0. */
const FLOOR_SHARE = 1e-10

/**
 * Lower bounds of the variances: zero, except that runs without a known uncertainty need a
 * positive variance. The floor is 1e-10 of the variance about the setup means, or what rounding
 * of y itself hides if that is zero.
 *
 * @param layout the runs
 * @param scale their moments
 * @returns bounds (pilot, session, cell, run) [unit of y squared]
 * @source derived here
 */
export function lowerBounds(layout: Layout, scale: DataScale): Float64Array {
  let largest = 0
  for (const mean of layout.anchor) largest = Math.max(largest, Math.abs(mean))
  const rounding = (largest * Number.EPSILON) ** 2
  const floor = Math.max(
    FLOOR_SHARE * scale.total,
    rounding,
    Number.MIN_VALUE / Number.EPSILON ** 3,
  )
  const bounds = new Float64Array(COMPONENT_COUNT)
  bounds[3] = Math.max(0, floor - scale.leastKnown)
  return bounds
}

/**
 * Start of the search: the runs get their mean square within cells, cells, sessions and pilots what the products
 * of runs that share them say; where nothing says it, an equal share of the rest. Known variance is taken off
 * first, and no component starts below a twentieth of the variance.
 *
 * @param layout the runs
 * @param scale their moments
 * @param estimable which components are sought, 1 or 0 each
 * @returns variances (pilot, session, cell, run) [unit of y squared], 0 where not sought
 * @source common practice (method of moments)
 */
export function startTheta(layout: Layout, scale: DataScale, estimable: Uint8Array): Float64Array {
  const theta = new Float64Array(COMPONENT_COUNT)
  const least = LEAST_START_SHARE * scale.total
  const total = Math.max(scale.total - scale.meanKnown, 2 * least)
  const others = estimable[0]! + estimable[1]! + estimable[2]!
  let run = 0
  if (estimable[3] === 1) {
    const within = scale.withinCells === null ? total / (others + 1) : scale.withinCells
    run = others === 0 ? total : Math.max(within - scale.meanKnown, least)
  }
  const share = Math.max(total - run, least) / Math.max(1, others)
  const { pilot, session, cell } = productsOfPairs(layout)
  const said = [pilot, less(session, pilot), less(cell, session)]
  for (let j = 0; j < 3; j++) {
    theta[j] = estimable[j] === 1 ? Math.max(said[j] ?? share, least) : 0
  }
  theta[3] = run
  return theta
}

function less(product: number | null, other: number | null): number | null {
  return product === null || other === null ? null : product - other
}
