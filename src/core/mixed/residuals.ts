import type { NestedFit } from './fit-result.ts'
import type { Layout } from './layout.ts'
import { forEachSessionBlock, type SessionBlock, workspaceAt } from './model/session-blocks.ts'
import type { Workspace } from './model/workspace.ts'

/** Residuals of one kind, with the precisions they were standardised by. */
export interface StandardisedResiduals {
  /** t = e/√p [1]; NaN where it stands alone. */
  readonly residual: Float64Array
  /** p, the variance of e [1 / unit of y squared]. */
  readonly precision: Float64Array
}

/** Residuals of a fit. */
export interface Residuals {
  /** In the order of the observations. */
  readonly runs: StandardisedResiduals
  /** Of cells as a whole, in the order of the layout. */
  readonly cells: StandardisedResiduals
  /** Of what shifts all cells of a session alike, in the order of the layout. */
  readonly sessions: StandardisedResiduals
}

/** What {@link residualsOf} does beside its result. */
export interface ResidualOptions {
  readonly visit?: (block: SessionBlock, ws: Workspace, residuals: Residuals) => void
  readonly memory?: Workspace
}

/**
 * Residuals of runs, cells and sessions, each against what all others predict.
 *
 *     t_i = e_i / √P_ii,  e = Py;   cells: r_c / √S_cc;   sessions: 1'r / √(1'S1)
 *     r_c = Σ_{i in c} e_i,  S = Z'PZ over the cells of the session
 *
 * All of it at the variances of the fit, which the session itself helped to estimate: a gross error
 * hides a little of itself.
 *
 * @param layout the runs the fit was made from
 * @param fit result of fitNested on that layout
 * @param options `visit` is given the block of every session, in the order of the layout, once its residuals
 *   are written; the block is overwritten for the next one. `memory`: a workspace of this layout to be used
 *   again, mutated
 * @returns the residuals; null where the fit knows no standard errors
 * @source R. D. Cook, S. Weisberg, Residuals and Influence in Regression, 1982, ch. 2 (from memory);
 *   closed form derived for this model
 */
export function residualsOf(
  layout: Layout,
  fit: NestedFit,
  { visit, memory }: ResidualOptions = {},
): Residuals | null {
  if (!fit.standardErrorsKnown) return null
  const ws = workspaceAt(layout, fit.theta, memory)
  if (ws === null) return null
  const residuals = {
    runs: createResiduals(layout.runCount),
    cells: createResiduals(layout.cellCount),
    sessions: createResiduals(layout.sessionCount),
  }
  forEachSessionBlock(layout, ws, (block) => {
    writeSession(ws, block, residuals)
    for (let c = 0; c < block.cells; c++) writeRuns(layout, ws, { block, c, runs: residuals.runs })
    visit?.(block, ws, residuals)
  })
  return residuals
}

function createResiduals(count: number): StandardisedResiduals {
  return { residual: new Float64Array(count), precision: new Float64Array(count) }
}

/** Residuals smaller than this share of their size before the means were taken out are rounding. */
const ZERO_SHARE = 1e-9

function standardised(residual: number, variance: number, size: number): number {
  return variance > ZERO_SHARE * size ? residual / Math.sqrt(variance) : Number.NaN
}

/** The cells of one session, and its shift. */
function writeSession(
  { cellResidual }: Workspace,
  { session, firstCell, cells, covariance, size }: SessionBlock,
  residuals: Residuals,
): void {
  let shift = 0
  let variance = 0
  let whole = 0
  for (let c = 0; c < cells; c++) {
    const r = cellResidual[firstCell + c]!
    const own = covariance[c * (cells + 1)]!
    residuals.cells.precision[firstCell + c] = own
    residuals.cells.residual[firstCell + c] = standardised(r, own, size[c]!)
    shift += r
    whole += size[c]!
    for (let i = 0; i < cells; i++) variance += covariance[i + c * cells]!
  }
  residuals.sessions.precision[session] = variance
  residuals.sessions.residual[session] = standardised(shift, variance, whole)
}

/** t_i of the runs of one cell; e_i = w_i (y_i − level), the level follows from the cell's sum. */
function writeRuns(
  { cellStart, order, deviation }: Layout,
  ws: Workspace,
  {
    block,
    c,
    runs,
  }: {
    readonly block: SessionBlock
    readonly c: number
    readonly runs: StandardisedResiduals
  },
): void {
  const cell = block.firstCell + c
  const W = ws.cellWeight[cell]!
  const a = ws.cellShrunk[cell]!
  const level = ws.cellMean[cell]! - ws.cellResidual[cell]! / W
  // 1'V⁻¹1 per squared weight: what cell, session and pilot, and means take from a run.
  const taken = (ws.theta[2]! * a) / W + (a / W) ** 2 * block.loss + block.explained[c]! / (W * W)
  for (let i = cellStart[cell]!; i < cellStart[cell + 1]!; i++) {
    const w = ws.runWeight[i]!
    const e = w * (deviation[i]! - level)
    runs.precision[order[i]!] = w - w * w * taken
    runs.residual[order[i]!] = standardised(e, w - w * w * taken, w)
  }
}
