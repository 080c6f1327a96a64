import { componentArray, type PerComponent } from '../components.ts'
import { createWorkspace, evaluateCovariance, evaluateCriterion } from '../evaluate.ts'
import type { Layout } from '../layout.ts'
import type { Workspace } from './workspace.ts'

/**
 * One session seen by the projection P = V⁻¹ − V⁻¹XCX'V⁻¹; m is its number of cells. The arrays may be
 * longer than their entries.
 */
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
 * @param ws workspace of this layout to be used again. Mutated.
 * @returns the workspace, or null if the model cannot be evaluated there
 * @source formulas of evaluateCriterion
 */
export function workspaceAt(
  layout: Layout,
  theta: PerComponent<number>,
  ws: Workspace = createWorkspace(layout),
): Workspace | null {
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
 * @param visit receives a block that is overwritten for the next session
 * @source derived for this model; leave-out formulas: R. D. Cook, S. Weisberg, Residuals and Influence
 *   in Regression, 1982 (from memory)
 */
export function forEachSessionBlock(
  layout: Layout,
  ws: Workspace,
  visit: (block: SessionBlock) => void,
): void {
  const { pilotCount, pilotStart } = layout
  const memory = createMemory(layout)
  for (let p = 0; p < pilotCount; p++) {
    const form = solvePilot(layout, ws, p)
    for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
      fillBlock(layout, ws, { p, s, form, memory })
      visit(memory.block)
    }
  }
}

/** What the blocks of all sessions are written into, one after the other. */
interface Memory {
  readonly block: { -readonly [Field in keyof SessionBlock]: SessionBlock[Field] }
  /** C v at the setups of the session's cells. */
  readonly along: Float64Array
}

function createMemory(layout: Layout): Memory {
  const cells = mostCells(layout)
  return {
    block: {
      ...{ session: 0, pilot: 0, firstCell: 0, cells: 0, loss: 0 },
      covariance: new Float64Array(cells * cells),
      explained: new Float64Array(cells),
      size: new Float64Array(cells),
    },
    along: new Float64Array(cells),
  }
}

/** Most cells that one session has. */
function mostCells({ sessionStart, sessionCount }: Layout): number {
  let most = 0
  for (let s = 0; s < sessionCount; s++) {
    most = Math.max(most, sessionStart[s + 1]! - sessionStart[s]!)
  }
  return most
}

/** Writes C Z_p on the setups of the pilot into `pilotSolved`; returns Z'CZ. */
function solvePilot(layout: Layout, ws: Workspace, p: number): number {
  const { pilotSetup, pilotSetupStart, setupCount: K } = layout
  const start = pilotSetupStart[p]!
  const end = pilotSetupStart[p + 1]!
  let form = 0
  for (let i = start; i < end; i++) {
    let sum = 0
    for (let j = start; j < end; j++) {
      sum += ws.covariance[pilotSetup[i]! + pilotSetup[j]! * K]! * ws.pilotDesign[j]!
    }
    ws.pilotSolved[i - start] = sum
    form += ws.pilotDesign[i]! * sum
  }
  return form
}

interface SessionOfPilot {
  readonly p: number
  readonly s: number
  /** Z'CZ of the pilot. */
  readonly form: number
  readonly memory: Memory
}

function fillBlock(layout: Layout, ws: Workspace, at: SessionOfPilot): void {
  const { sessionStart, cellSetup, knownSessionVariance, setupCount: K } = layout
  const { p, s } = at
  const { block, along } = at.memory
  const { covariance, explained, size } = block
  const firstCell = sessionStart[s]!
  const cells = sessionStart[s + 1]! - firstCell
  const d = ws.sessionShrink[s]!
  const loss = (ws.theta[1]! + knownSessionVariance[s]!) * d + ws.pilotGain[p]! * d * d
  const form = solveShift(layout, ws, at)
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
  block.session = s
  block.pilot = p
  block.firstCell = firstCell
  block.cells = cells
  block.loss = loss
}

/** Writes C v at the setups of the session's cells; returns v'Cv. */
function solveShift(
  {
    sessionStart,
    cellSetup,
    cellSlot,
    pilotSetupStart,
    knownSessionVariance,
    setupCount: K,
  }: Layout,
  ws: Workspace,
  { p, s, form, memory: { along } }: SessionOfPilot,
): number {
  const first = sessionStart[s]!
  const end = sessionStart[s + 1]!
  const d = ws.sessionShrink[s]!
  const ofSession = (ws.theta[1]! + knownSessionVariance[s]!) * d
  const pilotShare = ws.pilotGain[p]! * d
  let shiftForm = 0
  let pilotForm = pilotShare * form
  for (let c = first; c < end; c++) {
    const ofPilot = ws.pilotSolved[cellSlot[c]! - pilotSetupStart[p]!]!
    const setup = cellSetup[c]!
    let sum = 0
    for (let r = first; r < end; r++) {
      sum += ws.cellShrunk[r]! * ws.covariance[setup + cellSetup[r]! * K]!
    }
    along[c - first] = ofSession * sum + pilotShare * ofPilot
    shiftForm += ofSession * ws.cellShrunk[c]! * along[c - first]!
    pilotForm += ofSession * ws.cellShrunk[c]! * ofPilot
  }
  return shiftForm + pilotShare * pilotForm
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
  const { cells: m, covariance, size } = block
  const kept = new Int32Array(m)
  const factor = new Float64Array(m * m) // row after row
  let rank = 0
  for (let c = 0; c < m; c++) {
    let pivot = covariance[c * (m + 1)]!
    for (let j = 0; j < rank; j++) {
      let rest = covariance[c + kept[j]! * m]!
      for (let i = 0; i < j; i++) rest -= factor[rank * m + i]! * factor[j * m + i]!
      const entry = rest / factor[j * (m + 1)]!
      factor[rank * m + j] = entry
      pivot -= entry * entry
    }
    if (!(pivot > ZERO_PIVOT * size[c]!)) continue
    factor[rank * (m + 1)] = Math.sqrt(pivot)
    kept[rank++] = c
  }
  return { ...solveKept({ factor, kept, rank, m }, r), rank }
}

interface KeptFactor {
  readonly factor: Float64Array
  readonly kept: Int32Array
  readonly rank: number
  readonly m: number
}

/** L z = r, x = L⁻ᵀ z, z'z on the cells kept. */
function solveKept(
  { factor, kept, rank, m }: KeptFactor,
  r: Float64Array,
): { readonly x: Float64Array; readonly chiSquare: number } {
  const x = new Float64Array(m)
  const z = new Float64Array(rank)
  let chiSquare = 0
  for (let i = 0; i < rank; i++) {
    let rest = r[kept[i]!]!
    for (let j = 0; j < i; j++) rest -= factor[i * m + j]! * z[j]!
    z[i] = rest / factor[i * (m + 1)]!
    chiSquare += z[i]! * z[i]!
  }
  for (let i = rank - 1; i >= 0; i--) {
    z[i]! /= factor[i * (m + 1)]!
    for (let j = 0; j < i; j++) z[j]! -= factor[i * m + j]! * z[i]!
    x[kept[i]!] = z[i]!
  }
  return { x, chiSquare }
}
