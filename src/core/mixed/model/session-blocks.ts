import { choleskyInPlace } from '../../linalg/cholesky.ts'
import { invertFromFactor } from '../../linalg/triangular.ts'
import { componentArray, type PerComponent } from '../components.ts'
import { createWorkspace, evaluateCovariance, evaluateCriterion } from '../evaluate.ts'
import type { Layout } from '../layout.ts'
import type { Workspace } from './workspace.ts'

/** One session seen by the projection P = V⁻¹ − V⁻¹XCX'V⁻¹; m is its number of cells. */
export interface SessionBlock {
  readonly session: number
  readonly pilot: number
  readonly firstCell: number
  readonly cells: number
  /** τs²d + κd²: what 1'V⁻¹1 of a cell loses to session and pilot, over a². */
  readonly loss: number
  /** S = Z'PZ over its cells, m × m, column-major and symmetric. */
  readonly covariance: Float64Array
  /** q_c'Cq_c per cell: what the estimated means take from S. */
  readonly explained: Float64Array
  /** 1'V⁻¹1 per cell, the diagonal of S before the means are taken out. */
  readonly size: Float64Array
}

/**
 * A workspace that holds the model at given variances with C, the covariance of the means.
 *
 * @param layout the runs
 * @param theta variances [unit of y squared], ≥ 0
 * @returns the workspace, or null if the model cannot be evaluated there
 * @source formulas of evaluateCriterion
 */
export function workspaceAt(layout: Layout, theta: PerComponent<number>): Workspace | null {
  const ws = createWorkspace(layout)
  const value = evaluateCriterion(layout, ws, componentArray(theta))
  if (!Number.isFinite(value)) return null
  evaluateCovariance(layout, ws)
  return ws
}

/**
 * Calls `visit` with the block of every session, in the order of the layout.
 *
 *     q_c = a (x_c − v),  v = τs² z + κ d Z
 *     S_cc' = a 1(c = c') − a a' (τs² d + κ d²) − q_c'Cq_c'
 *
 * C v is formed once per pilot and once per session, so a session costs m_s² and a pilot m_p².
 *
 * @param layout the runs
 * @param ws workspace of {@link workspaceAt}
 * @param visit receives a block whose arrays are its own
 * @source derived for this model; leave-out formulas: R. D. Cook, S. Weisberg, Residuals and Influence
 *   in Regression, 1982 (from memory)
 */
export function forEachSessionBlock(
  layout: Layout,
  ws: Workspace,
  visit: (block: SessionBlock) => void,
): void {
  const { pilotCount, pilotStart } = layout
  for (let p = 0; p < pilotCount; p++) {
    const pilot = alongPilot(layout, ws, p)
    for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) visit(blockOf(layout, ws, pilot, s))
  }
}

interface AlongPilot {
  readonly p: number
  /** (C Z_p) on the setups of the pilot, and Z'CZ. */
  readonly solved: Float64Array
  readonly form: number
}

function alongPilot(layout: Layout, ws: Workspace, p: number): AlongPilot {
  const { pilotSetup, pilotSetupStart, setupCount: K } = layout
  const start = pilotSetupStart[p]!
  const end = pilotSetupStart[p + 1]!
  const solved = new Float64Array(end - start)
  let form = 0
  for (let i = start; i < end; i++) {
    let sum = 0
    for (let j = start; j < end; j++) {
      sum += ws.covariance[pilotSetup[i]! + pilotSetup[j]! * K]! * ws.pilotDesign[j]!
    }
    solved[i - start] = sum
    form += ws.pilotDesign[i]! * sum
  }
  return { p, solved, form }
}

function blockOf(layout: Layout, ws: Workspace, pilot: AlongPilot, s: number): SessionBlock {
  const { sessionStart, cellSetup, knownSessionVariance, setupCount: K } = layout
  const firstCell = sessionStart[s]!
  const cells = sessionStart[s + 1]! - firstCell
  const d = ws.sessionShrink[s]!
  const ts2 = ws.theta[1]! + knownSessionVariance[s]!
  const kappa = ws.pilotGain[pilot.p]!
  const loss = ts2 * d + kappa * d * d
  const { along, form } = solveShift(layout, ws, pilot, { s, ts2 })
  const covariance = new Float64Array(cells * cells)
  const explained = new Float64Array(cells)
  const size = new Float64Array(cells)
  for (let j = 0; j < cells; j++) {
    const aj = ws.cellShrunk[firstCell + j]!
    const column = cellSetup[firstCell + j]! * K
    size[j] = aj - aj * aj * loss
    for (let i = 0; i < cells; i++) {
      const ai = ws.cellShrunk[firstCell + i]!
      const inner = ws.covariance[cellSetup[firstCell + i]! + column]! - along[i]! - along[j]!
      const means = ai * aj * (inner + form)
      covariance[i + j * cells] = (i === j ? aj : 0) - ai * aj * loss - means
      if (i === j) explained[j] = means
    }
  }
  return { session: s, pilot: pilot.p, firstCell, cells, loss, covariance, explained, size }
}

/** (C v) at the setups of the session's cells, and v'Cv. */
function solveShift(
  { sessionStart, cellSetup, cellSlot, pilotSetupStart, setupCount: K }: Layout,
  ws: Workspace,
  { p, solved, form }: AlongPilot,
  { s, ts2 }: { readonly s: number; readonly ts2: number },
): { along: Float64Array; form: number } {
  const first = sessionStart[s]!
  const end = sessionStart[s + 1]!
  const d = ws.sessionShrink[s]!
  const pilotShare = ws.pilotGain[p]! * d
  const along = new Float64Array(end - first)
  let shiftForm = 0
  let pilotForm = pilotShare * form
  for (let c = first; c < end; c++) {
    const ofPilot = solved[cellSlot[c]! - pilotSetupStart[p]!]!
    const setup = cellSetup[c]!
    let sum = 0
    for (let r = first; r < end; r++) {
      sum += ws.cellShrunk[r]! * ws.covariance[setup + cellSetup[r]! * K]!
    }
    along[c - first] = ts2 * d * sum + pilotShare * ofPilot
    shiftForm += ts2 * d * ws.cellShrunk[c]! * along[c - first]!
    pilotForm += ts2 * d * ws.cellShrunk[c]! * ofPilot
  }
  return { along, form: shiftForm + pilotShare * pilotForm }
}

/** Pivots of S below this share of its diagonal before the means were taken out count as zero. */
const ZERO_PIVOT = 1e-9

/** Solution of S x = r where S may lack rank. */
export interface BlockSolution {
  readonly x: Float64Array
  /** r'S⁻r, and the rank of S. */
  readonly chiSquare: number
  readonly rank: number
}

/**
 * Solves S x = r over the cells of a session whose S keeps its rank; cells that the rest of the
 * evidence says nothing about are left out.
 *
 * @param block a block of {@link forEachSessionBlock}
 * @param r right-hand side, m entries
 * @returns x (zero for cells left out), r'S⁻r and the rank
 * @source common practice (Cholesky with zero pivots left out)
 */
export function solveBlock(block: SessionBlock, r: Float64Array): BlockSolution {
  const m = block.cells
  const kept: number[] = []
  for (let c = 0; c < m; c++) {
    if (pivotAfter(block, kept, c) > ZERO_PIVOT * block.size[c]!) kept.push(c)
  }
  const n = kept.length
  const inverse = new Float64Array(n * n)
  const factor = subBlock(block, kept)
  choleskyInPlace(factor, n)
  invertFromFactor(factor, n, inverse)
  const x = new Float64Array(m)
  let chiSquare = 0
  for (let i = 0; i < n; i++) {
    let sum = 0
    for (let j = 0; j < n; j++) sum += inverse[i + j * n]! * r[kept[j]!]!
    x[kept[i]!] = sum
    chiSquare += sum * r[kept[i]!]!
  }
  return { x, chiSquare, rank: n }
}

/** What is left of S_cc once the cells kept so far are swept out. */
function pivotAfter(block: SessionBlock, kept: readonly number[], c: number): number {
  const factor = subBlock(block, [...kept, c])
  const n = kept.length + 1
  const failed = choleskyInPlace(factor, n)
  return failed === -1 ? factor[n * n - 1]! ** 2 : 0
}

function subBlock({ covariance, cells }: SessionBlock, rows: readonly number[]): Float64Array {
  const n = rows.length
  const block = new Float64Array(n * n)
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < n; i++) block[i + j * n] = covariance[rows[i]! + rows[j]! * cells]!
  }
  return block
}
