import { solveLowerInPlace, solveLowerTransposedInPlace } from '../../linalg/triangular.ts'
import type { Layout } from '../layout.ts'
import type { Workspace } from './workspace.ts'

/** Upper triangle of a 4 × 4 matrix, row by row. */
const PAIRS = [0, 1, 2, 3].flatMap((j) =>
  [0, 1, 2, 3].filter((k) => k >= j).map((k) => [j, k] as const),
)

/**
 * Average information of the four components.
 *
 *     AI_jk = ½ [ f_j'V⁻¹f_k − (X'V⁻¹f_j)' C (X'V⁻¹f_k) ],   f_j = G_j e
 *
 * f is constant within the groups of its component, so all but the run level is solved on cells.
 * Reads weights, residual sums and `factor` (structured means: `covariance`); writes averageInformation, projected and solved.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @source A. R. Gilmour, R. Thompson, B. R. Cullis, Average information REML, Biometrics 51, 1995,
 *   1440-1450 (from memory); sums derived for this model
 */
export function informationPass(layout: Layout, ws: Workspace): void {
  ws.averageInformation.fill(0)
  ws.projected.fill(0)
  for (let p = 0; p < layout.pilotCount; p++) addPilot(layout, ws, p)
  ws.averageInformation[15]! += ws.residualSquares[1]!
  subtractMeans(layout.setupCount, ws, layout.means !== undefined)
}

/** −(X'V⁻¹f_j)' C (X'V⁻¹f_k), then the factor ½ and the lower triangle. */
function subtractMeans(K: number, ws: Workspace, structured: boolean): void {
  const AI = ws.averageInformation
  if (structured) multiplyByCovariance(K, ws)
  else solveByFactor(K, ws)
  for (const [j, k] of PAIRS) {
    let sum = AI[j + 4 * k]!
    for (let i = 0; i < K; i++) sum -= ws.projected[j * K + i]! * ws.solved[k * K + i]!
    AI[j + 4 * k] = sum / 2
    AI[k + 4 * j] = sum / 2
  }
}

function solveByFactor(K: number, ws: Workspace): void {
  ws.solved.set(ws.projected)
  for (let j = 0; j < 4; j++) {
    const column = ws.solved.subarray(j * K, (j + 1) * K)
    solveLowerInPlace(ws.factor, K, column)
    solveLowerTransposedInPlace(ws.factor, K, column)
  }
}

/** Structured means have no factor of M of their own: Z C_b Z' lacks rank. */
function multiplyByCovariance(K: number, ws: Workspace): void {
  ws.solved.fill(0)
  for (let j = 0; j < 4; j++) {
    for (let k = 0; k < K; k++) {
      const x = ws.projected[j * K + k]!
      for (let i = 0; i < K; i++) ws.solved[j * K + i]! += ws.covariance[i + k * K]! * x
    }
  }
}

function addPilot(layout: Layout, ws: Workspace, p: number): void {
  const { pilotStart, sessionStart, cellSetup, setupCount: K, knownSessionVariance } = layout
  const H = ws.componentScratch
  const g = ws.sessionScratch
  const kappa = ws.pilotGain[p]!
  H.fill(0)
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
    sumSession(layout, ws, { p, s })
    const d = ws.sessionShrink[s]!
    const gain = (ws.theta[1]! + knownSessionVariance[s]!) * d
    for (const [j, k] of PAIRS) ws.averageInformation[j + 4 * k]! -= gain * g[j]! * g[k]!
    for (let j = 0; j < 4; j++) {
      H[j]! += d * g[j]!
      const shift = gain * g[j]!
      for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
        ws.projected[j * K + cellSetup[c]!]! -= ws.cellShrunk[c]! * shift
      }
    }
  }
  if (kappa === 0) return
  for (const [j, k] of PAIRS) ws.averageInformation[j + 4 * k]! -= kappa * H[j]! * H[k]!
  for (let slot = layout.pilotSetupStart[p]!; slot < layout.pilotSetupStart[p + 1]!; slot++) {
    const along = kappa * ws.pilotDesign[slot]!
    const setup = layout.pilotSetup[slot]!
    for (let j = 0; j < 4; j++) ws.projected[j * K + setup]! -= along * H[j]!
  }
}

/** Adds the cells of one session as if it had no effect of its own; leaves g_j = Σ ρ S_j. */
function sumSession(layout: Layout, ws: Workspace, at: { p: number; s: number }): void {
  const { sessionStart, cellSetup, setupCount: K } = layout
  const AI = ws.averageInformation
  const g = ws.sessionScratch
  const tc2 = ws.theta[2]!
  const fp = ws.pilotResidual[at.p]!
  const fs = ws.sessionResidual[at.s]!
  g.fill(0)
  for (let c = sessionStart[at.s]!; c < sessionStart[at.s + 1]!; c++) {
    const a = ws.cellShrunk[c]!
    const rho = 1 / (1 + tc2 * ws.cellWeight[c]!)
    const fc = ws.cellResidual[c]!
    const run = rho * ws.cellWeightedResidual[c]! // ρ S_run; the others are a f
    AI[0]! += a * fp * fp
    AI[4]! += a * fp * fs
    AI[8]! += a * fp * fc
    AI[12]! += run * fp
    AI[5]! += a * fs * fs
    AI[9]! += a * fs * fc
    AI[13]! += run * fs
    AI[10]! += a * fc * fc
    AI[14]! += run * fc
    AI[15]! -= tc2 * run * ws.cellWeightedResidual[c]!
    g[0]! += a * fp
    g[1]! += a * fs
    g[2]! += a * fc
    g[3]! += run
    const setup = cellSetup[c]!
    ws.projected[setup]! += a * fp
    ws.projected[K + setup]! += a * fs
    ws.projected[2 * K + setup]! += a * fc
    ws.projected[3 * K + setup]! += run
  }
}
