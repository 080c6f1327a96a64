import { type SetupWeight, UnknownSetupError } from './contrasts.ts'
import type { NestedFit } from './fit-result.ts'
import type { Layout } from './layout.ts'
import { type SessionBlock, solveBlock } from './model/session-blocks.ts'
import type { Workspace } from './model/workspace.ts'
import { type ResidualOptions, residualsOf } from './residuals.ts'

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
  /**
   * X'V⁻¹-weighted pull of each session on the means, on the setups of its pilot (layout.pilotSetup), one
   * row per session; null for sole evidence. `changesWithout` turns it into changes of contrasts.
   */
  readonly pulls: readonly (Float64Array | null)[]
}

/**
 * Residuals of runs and sessions, and the pull of each session on the means.
 *
 *     χ²_s = r'S⁻¹r,  r and S as in {@link residualsOf}
 *     pull_s = Q_s S⁻¹ r,  Q_s = columns q_c = X'V⁻¹1_c
 *
 * @param layout the runs the fit was made from
 * @param fit result of fitNested on that layout
 * @returns the influences; null where the fit knows no standard errors
 * @source R. D. Cook, S. Weisberg, Residuals and Influence in Regression, 1982, ch. 2 and 5 (from memory);
 *   closed form derived for this model
 */
export function influenceOf(layout: Layout, fit: NestedFit): FitInfluence | null {
  const sessions: SessionInfluence[] = []
  const pulls: (Float64Array | null)[] = []
  const visit: ResidualOptions['visit'] = (block, ws, residuals) => {
    const r = ws.cellResidual.subarray(block.firstCell, block.firstCell + block.cells)
    const { x, chiSquare, rank } = solveBlock(block, r)
    const soleEvidence = rank < block.cells
    sessions.push({
      session: layout.sessionIds[block.session]!,
      pilot: layout.pilotIds[block.pilot]!,
      cells: block.cells,
      chiSquare,
      degreesOfFreedom: rank,
      levelShift: residuals.sessions.residual[block.session]!,
      soleEvidence,
    })
    pulls.push(soleEvidence ? null : pullOf(layout, ws, block, x))
  }
  const residuals = residualsOf(layout, fit, { visit })
  return residuals === null ? null : { sessions, runResiduals: residuals.runs.residual, pulls }
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
