import { type SetupWeight, UnknownSetupError } from './contrasts.ts'
import type { NestedFit } from './fit-result.ts'
import type { Layout } from './layout.ts'
import {
  forEachSessionBlock,
  type SessionBlock,
  solveBlock,
  workspaceAt,
} from './model/session-blocks.ts'
import type { Workspace } from './model/workspace.ts'

/** How one session sits among the others, at the variances of the fit. */
export interface SessionInfluence {
  readonly session: string
  readonly pilot: string
  readonly cells: number
  /** Distance of its cells from what all others predict, chi-square on `degreesOfFreedom` [1]. */
  readonly chiSquare: number
  readonly degreesOfFreedom: number
  /** The part of it that is one shift of all cells alike, a standard normal deviate [1]. */
  readonly levelShift: number
  /** True where the rest of the evidence says nothing about one of its setups: no influence number. */
  readonly soleEvidence: boolean
}

/** Residuals and influence of a fit. */
export interface FitInfluence {
  /** In the order of the layout. */
  readonly sessions: readonly SessionInfluence[]
  /** Standardised residual of each run, in the order of the observations; NaN where the run stands alone. */
  readonly runResiduals: Float64Array
  /** Standardised residual of each cell as a whole, in the order of the layout; NaN where it stands alone. */
  readonly cellResiduals: Float64Array
  /**
   * X'V⁻¹-weighted pull of each session on the means, on the setups of its pilot (layout.pilotSetup), one
   * row per session; null for sole evidence. `changesWithout` turns it into changes of contrasts.
   */
  readonly pulls: readonly (Float64Array | null)[]
  /** Variances of the residuals that were standardised: of runs, cells and session levels. */
  readonly precisions: {
    readonly runs: Float64Array
    readonly cells: Float64Array
    readonly sessions: Float64Array
  }
}

/**
 * Residuals of runs and sessions, and the pull of each session on the means.
 *
 *     t_i = e_i / √P_ii,  e = Py
 *     χ²_s = r'S⁻¹r,  t_s = 1'r / √(1'S1),  r_c = Σ_{i in c} e_i,  S = Z'PZ over the cells of s
 *     pull_s = Q_s S⁻¹ r,  Q_s = columns q_c = X'V⁻¹1_c
 *
 * All of it at the variances of the fit, which the session itself helped to estimate: a gross error
 * hides a little of itself.
 *
 * @param layout the runs the fit was made from
 * @param fit result of fitNested on that layout
 * @returns the influences; null where the fit knows no standard errors
 * @source R. D. Cook, S. Weisberg, Residuals and Influence in Regression, 1982, ch. 2 and 5 (from memory);
 *   closed form derived for this model
 */
export function influenceOf(layout: Layout, fit: NestedFit): FitInfluence | null {
  if (!fit.standardErrorsKnown) return null
  const ws = workspaceAt(layout, fit.theta)
  if (ws === null) return null
  const sessions: SessionInfluence[] = []
  const pulls: (Float64Array | null)[] = []
  const runResiduals = new Float64Array(layout.runCount)
  const cellResiduals = new Float64Array(layout.cellCount)
  const precisions = {
    runs: new Float64Array(layout.runCount),
    cells: new Float64Array(layout.cellCount),
    sessions: new Float64Array(layout.sessionCount),
  }
  forEachSessionBlock(layout, ws, (block) => {
    const r = ws.cellResidual.subarray(block.firstCell, block.firstCell + block.cells)
    const { x, chiSquare, rank } = solveBlock(block, r)
    const soleEvidence = rank < block.cells
    sessions.push({
      session: layout.sessionIds[block.session]!,
      pilot: layout.pilotIds[block.pilot]!,
      cells: block.cells,
      chiSquare,
      degreesOfFreedom: rank,
      levelShift: levelShift(block, r),
      soleEvidence,
    })
    pulls.push(soleEvidence ? null : pullOf(layout, ws, block, x))
    precisions.sessions[block.session] = sum(block.covariance)
    for (let c = 0; c < block.cells; c++) {
      const variance = block.covariance[c * (block.cells + 1)]!
      precisions.cells[block.firstCell + c] = variance
      cellResiduals[block.firstCell + c] = standardised(r[c]!, variance, block.size[c]!)
      writeRunResiduals(layout, ws, { block, c, runResiduals, precisions: precisions.runs })
    }
  })
  return { sessions, runResiduals, cellResiduals, pulls, precisions }
}

/**
 * By how much leaving out each session changes a combination of setup means, at fixed variances.
 *
 *     l'β(without s) − l'β = −(Cl)' pull_s        (exact)
 *
 * @param layout the runs
 * @param fit the fit
 * @param influence of that fit
 * @param weights finite weights [1]; +1 and −1 give a difference
 * @returns changes [unit of y], one per session in the order of the layout; NaN for sole evidence
 * @throws {UnknownSetupError} if the fit does not hold a setup
 * @source derived here from the update of C when the columns of a session are added to X
 */
export function changesWithout(
  layout: Layout,
  fit: NestedFit,
  influence: FitInfluence,
  weights: readonly SetupWeight[],
): Float64Array {
  const K = fit.setups.length
  const solved = new Float64Array(K) // C l
  for (const { setup, weight } of weights) {
    const k = fit.setups.indexOf(setup)
    if (k < 0) throw new UnknownSetupError(`the fit holds no setup ${setup}`)
    for (let i = 0; i < K; i++) solved[i]! += weight * fit.covariance[i + k * K]!
  }
  const changes = new Float64Array(layout.sessionCount).fill(Number.NaN)
  for (let p = 0; p < layout.pilotCount; p++) {
    const start = layout.pilotSetupStart[p]!
    for (let s = layout.pilotStart[p]!; s < layout.pilotStart[p + 1]!; s++) {
      const pull = influence.pulls[s] ?? null
      if (pull === null) continue
      let change = 0
      for (let i = 0; i < pull.length; i++)
        change -= solved[layout.pilotSetup[start + i]!]! * pull[i]!
      changes[s] = change
    }
  }
  return changes
}

/** Residuals smaller than this share of their size before the means were taken out are rounding. */
const ZERO_SHARE = 1e-9

function standardised(residual: number, variance: number, size: number): number {
  return variance > ZERO_SHARE * size ? residual / Math.sqrt(variance) : Number.NaN
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0)
}

/** 1'r / √(1'S1). */
function levelShift({ covariance, size }: SessionBlock, r: Float64Array): number {
  return standardised(sum(r), sum(covariance), sum(size))
}

/** Σ x_c q_c on the setups of the pilot: Σ x a at each cell's own setup, less (Σ x a) v. */
function pullOf(layout: Layout, ws: Workspace, block: SessionBlock, x: Float64Array): Float64Array {
  const { pilotSetupStart, cellSlot, knownSessionVariance } = layout
  const start = pilotSetupStart[block.pilot]!
  const end = pilotSetupStart[block.pilot + 1]!
  const d = ws.sessionShrink[block.session]!
  const ts2 = ws.theta[1]! + knownSessionVariance[block.session]!
  const alongPilot = ws.pilotGain[block.pilot]! * d
  const pull = new Float64Array(end - start)
  let total = 0
  for (let c = 0; c < block.cells; c++) total += x[c]! * ws.cellShrunk[block.firstCell + c]!
  for (let i = start; i < end; i++) pull[i - start] = -total * alongPilot * ws.pilotDesign[i]!
  for (let c = 0; c < block.cells; c++) {
    const a = ws.cellShrunk[block.firstCell + c]!
    pull[cellSlot[block.firstCell + c]! - start]! += a * (x[c]! - total * ts2 * d)
  }
  return pull
}

/** t_i of the runs of one cell; e_i = w_i (y_i − level), the level follows from the cell's sum. */
function writeRunResiduals(
  { cellStart, order, deviation }: Layout,
  ws: Workspace,
  at: {
    readonly block: SessionBlock
    readonly c: number
    readonly runResiduals: Float64Array
    readonly precisions: Float64Array
  },
): void {
  const { block, c, runResiduals, precisions } = at
  const cell = block.firstCell + c
  const W = ws.cellWeight[cell]!
  const a = ws.cellShrunk[cell]!
  const level = ws.cellMean[cell]! - ws.cellResidual[cell]! / W
  // 1'V⁻¹1 per squared weight: what cell, session and pilot, and means take from a run.
  const taken = (ws.theta[2]! * a) / W + (a / W) ** 2 * block.loss + block.explained[c]! / (W * W)
  for (let i = cellStart[cell]!; i < cellStart[cell + 1]!; i++) {
    const w = ws.runWeight[i]!
    const e = w * (deviation[i]! - level)
    precisions[order[i]!] = w - w * w * taken
    runResiduals[order[i]!] = standardised(e, w - w * w * taken, w)
  }
}
