import { chiSquareUpperTail } from '../distributions/chi-square.ts'
import { semidefiniteCholeskyInPlace } from '../linalg/cholesky.ts'
import type { PerComponent } from './components.ts'
import { UnknownSetupError } from './contrasts.ts'
import type { Layout } from './layout.ts'
import {
  type ColumnEntry,
  crossProducts,
  type WithinSessions,
  withinSessions,
} from './model/within-sessions.ts'

/** Direct less indirect evidence on one pair. */
export interface NodeSplit {
  readonly a: string
  readonly b: string
  /** Sessions that hold both. */
  readonly sessions: number
  /** What those sessions say of a − b, less what the others say [unit of y]. */
  readonly difference: number
  /** [unit of y] */
  readonly standardError: number
  /** Two-sided, normal distribution [1]. */
  readonly pValue: number
}

/** Test of all designs against one another. */
export interface DesignTest {
  /** Wald statistic [1]. */
  readonly statistic: number
  readonly degreesOfFreedom: number
  readonly pValue: number
  /** Different sets of setups flown together. */
  readonly designs: number
}

type Variances = Pick<PerComponent<number>, 'cell' | 'run'>

/** Most columns of the test of designs: the cost goes with the cube. */
const MOST_COLUMNS = 600

/**
 * Splits pairs into direct and indirect evidence: does a − b differ where both were flown in the same
 * session from what the chain through other setups says?
 *
 *     f = +½ on a, −½ on b in sessions that hold both;  γ = S⁻¹ f'We,  se = S^−½,
 *     S = f'Wf − f'WX (X'WX)⁻ X'Wf
 *
 * Sessions are fixed effects, so differences between sessions play no part.
 *
 * @param layout the runs
 * @param theta variances of cells and runs [unit of y squared]
 * @param pairs setups by id, two different ones each
 * @returns one split per pair, null where no session holds both or nothing indirect is known
 * @throws {UnknownSetupError} if the layout does not hold a setup
 * @source S. Dias, N. J. Welton, D. M. Caldwell, A. E. Ades, Stat. Med. 29, 2010, 932-944 (node splitting,
 *   from memory); covariate form with ±½: I. R. White, Stata J. 15, 2015, 951-985 (from memory)
 */
export function splitNodes(
  layout: Layout,
  theta: Variances,
  pairs: readonly (readonly [a: string, b: string])[],
): (NodeSplit | null)[] {
  const within = withinSessions(layout, theta)
  const K = layout.setupCount
  const { cellSetup } = layout
  const factor = crossProducts(within, K, (c) => [{ column: cellSetup[c]!, value: 1 }])
  semidefiniteCholeskyInPlace(factor, K + 1)
  const sessions = sessionsBySetup(layout)
  return pairs.map(([a, b]) => {
    const [i, j] = [indexOf(layout, a), indexOf(layout, b)]
    return splitOf(within, factor, { a: i, b: j, sessions: sessions[i]! })
  })
}

/** Sessions in which each setup was flown. */
function sessionsBySetup({
  setupCount,
  sessionCount,
  sessionStart,
  cellSetup,
}: Layout): number[][] {
  const sessions: number[][] = Array.from({ length: setupCount }, () => [])
  for (let s = 0; s < sessionCount; s++) {
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) sessions[cellSetup[c]!]!.push(s)
  }
  return sessions
}

function indexOf({ setupIds }: Layout, setup: string): number {
  const index = setupIds.indexOf(setup)
  if (index < 0) throw new UnknownSetupError(`the layout holds no setup ${setup}`)
  return index
}

/** Share of its size that a column must keep once the setups are swept out. */
const LEAST_SHARE = 1e-9

function splitOf(
  { layout, weight, mean }: WithinSessions,
  factor: Float64Array,
  { a, b, sessions: ofA }: { a: number; b: number; sessions: readonly number[] },
): NodeSplit | null {
  const K = layout.setupCount
  const n = K + 1
  const column = new Float64Array(K) // X'Wf
  let size = 0
  let withY = 0
  let sessions = 0
  for (const s of ofA) {
    const cells = cellsOf(layout, s)
    const cellA = cells.find((c) => layout.cellSetup[c] === a)
    const cellB = cells.find((c) => layout.cellSetup[c] === b)
    if (cellA === undefined || cellB === undefined) continue
    sessions++
    const A = cells.reduce((sum, c) => sum + weight[c]!, 0)
    const level = (weight[cellA]! - weight[cellB]!) / (2 * A)
    for (const c of cells) {
      const f = (c === cellA ? 0.5 : c === cellB ? -0.5 : 0) - level
      column[layout.cellSetup[c]!]! += weight[c]! * f
      size += weight[c]! * f * f
      withY += weight[c]! * f * mean[c]!
    }
  }
  if (sessions === 0) return null
  let left = size
  for (let j = 0; j < K; j++) {
    const pivot = factor[j + j * n]!
    const z = pivot > 0 ? column[j]! / pivot : 0 // a zero pivot stands for a zero column
    for (let i = j + 1; i < K; i++) column[i]! -= factor[i + j * n]! * z
    left -= z * z
    withY -= z * factor[K + j * n]!
  }
  if (!(left > LEAST_SHARE * size)) return null
  const chiSquare = (withY * withY) / left
  return {
    a: layout.setupIds[a]!,
    b: layout.setupIds[b]!,
    sessions,
    difference: withY / left,
    standardError: 1 / Math.sqrt(left),
    pValue: chiSquareUpperTail(chiSquare, 1),
  }
}

function cellsOf({ sessionStart }: Layout, s: number): number[] {
  const first = sessionStart[s]!
  return Array.from({ length: sessionStart[s + 1]! - first }, (_, k) => first + k)
}

/**
 * Whether sets of setups flown together agree with one another: one mean per setup and design against
 * one per setup, sessions fixed.
 *
 *     Q = e'WF S⁻ F'We  on rank S degrees of freedom
 *
 * @param layout the runs
 * @param theta variances of cells and runs [unit of y squared]; cell 0 for the classical test
 * @returns the test; null where all designs together say no more than one (no degree of freedom) or
 *   there are more than 600 columns
 * @source J. P. T. Higgins et al., Res. Synth. Methods 3, 2012, 98-110 (design-by-treatment interaction,
 *   from memory)
 */
export function testDesigns(layout: Layout, theta: Variances): DesignTest | null {
  const K = layout.setupCount
  const { columnOfCell, columns, designs } = designColumns(layout)
  if (columns > MOST_COLUMNS) return null
  const entries = (c: number): ColumnEntry[] => [
    { column: layout.cellSetup[c]!, value: 1 },
    { column: K + columnOfCell[c]!, value: 1 },
  ]
  const n = K + columns + 1
  const factor = crossProducts(withinSessions(layout, theta), n - 1, entries)
  semidefiniteCholeskyInPlace(factor, n)
  let statistic = 0
  let degreesOfFreedom = 0
  for (let j = K; j < n - 1; j++) {
    if (!(factor[j + j * n]! > 0)) continue
    degreesOfFreedom++
    statistic += factor[n - 1 + j * n]! ** 2
  }
  if (degreesOfFreedom === 0) return null
  const pValue = chiSquareUpperTail(statistic, degreesOfFreedom)
  return { statistic, degreesOfFreedom, pValue, designs }
}

/** One column per setup and design, where a design is the set of setups of a session of two or more. */
function designColumns({ sessionCount, sessionStart, cellCount, cellSetup }: Layout) {
  const columnOf = new Map<string, number>()
  const designs = new Set<string>()
  const columnOfCell = new Int32Array(cellCount)
  for (let s = 0; s < sessionCount; s++) {
    const setups = cellSetup.subarray(sessionStart[s]!, sessionStart[s + 1]!)
    const design = setups.join(' ')
    if (setups.length > 1) designs.add(design)
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      // A session of one setup says nothing within sessions; all such share one column, which is zero.
      const key = setups.length > 1 ? `${design} | ${cellSetup[c]}` : ''
      const column = columnOf.get(key) ?? columnOf.size
      columnOf.set(key, column)
      columnOfCell[c] = column
    }
  }
  return { columnOfCell, columns: columnOf.size, designs: designs.size }
}
