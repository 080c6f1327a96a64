import type { Layout } from '../layout.ts'
import { addOuterProduct } from './precision-pass.ts'
import type { Workspace } from './workspace.ts'

/**
 * T_j = X'V⁻¹G_jV⁻¹X and tr V⁻¹G_j of the four components.
 *
 *     q_p = Z / (1 + τp²B)            q_s = z − κ b Z
 *     q_c = a (x − τs² z − κ d Z)     T_j = Σ q_j q_j',  T_run = Σ q(c) q_c q_c'
 *
 * The parts along Z are gathered per pilot, so a session costs m_s² and a pilot m_p².
 * Reads the weights; writes sensitivity (lower triangles), trace, traceSquares, largestWeight.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @source derived for this model from D. A. Harville, J. Amer. Statist. Assoc. 72, 1977, 320-338
 *   (from memory)
 */
export function sensitivityPass(layout: Layout, ws: Workspace): void {
  ws.sensitivity.fill(0)
  ws.trace.fill(0)
  ws.traceSquares.fill(0)
  ws.largestWeight.fill(0)
  for (let p = 0; p < layout.pilotCount; p++) addPilot(layout, ws, p)
}

/** Notes 1'V⁻¹1 of one group of component j. */
function addTrace(ws: Workspace, j: number, weight: number): void {
  ws.trace[j]! += weight
  ws.traceSquares[j]! += weight * weight
  if (weight > ws.largestWeight[j]!) ws.largestWeight[j] = weight
}

function addPilot(layout: Layout, ws: Workspace, p: number): void {
  const { pilotStart, pilotSetupStart, setupCount: K } = layout
  const start = pilotSetupStart[p]!
  const end = pilotSetupStart[p + 1]!
  const kappa = ws.pilotGain[p]!
  const denominator = 1 + ws.theta[0]! * ws.pilotWeight[p]!
  addTrace(ws, 0, ws.pilotWeight[p]! / denominator)
  // Weights of Z Z' in T_session, T_cell and T_run.
  const along = ws.componentScratch
  along.fill(0)
  for (const scratch of ws.pilotScratch) scratch.fill(0, 0, end - start)
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) addSession(layout, ws, { p, s })
  const slots = ws.pilotDesign
  const outer = (j: number, factor: number) =>
    addOuterProduct(layout, ws.sensitivity, { slots, start, end, factor }, j * K * K)
  outer(0, denominator ** -2)
  if (kappa === 0) return
  for (let j = 1; j <= 3; j++) {
    outer(j, along[j]!)
    subtractCross(layout, ws, { p, j })
  }
}

/** Takes h Z' + Z h' from T_j, h the sum of the sessions' cross terms. */
function subtractCross(layout: Layout, ws: Workspace, at: { p: number; j: number }): void {
  const { pilotSetup, pilotSetupStart, setupCount: K } = layout
  const start = pilotSetupStart[at.p]!
  const end = pilotSetupStart[at.p + 1]!
  const h = ws.pilotScratch[at.j - 1]!
  const Z = ws.pilotDesign
  const T = ws.sensitivity
  for (let j = start; j < end; j++) {
    const column = at.j * K * K + pilotSetup[j]! * K
    const hj = h[j - start]!
    const zj = Z[j]!
    for (let i = j; i < end; i++) T[column + pilotSetup[i]!]! -= h[i - start]! * zj + hj * Z[i]!
  }
}

/** What one session adds: its own block of T_s, T_c, T_r, and its share of the pilot's sums. */
function addSession(layout: Layout, ws: Workspace, at: { p: number; s: number }): void {
  const { sessionStart, cellSlot, pilotSetupStart, knownSessionVariance } = layout
  const { p, s } = at
  const [hSession, hCell, hRun] = ws.pilotScratch
  const along = ws.componentScratch
  const d = ws.sessionShrink[s]!
  const b = ws.sessionWeight[s]!
  const kappa = ws.pilotGain[p]!
  const gain = (ws.theta[1]! + knownSessionVariance[s]!) * d
  const f = gain + kappa * d * d
  addTrace(ws, 1, b - kappa * b * b)
  let omegaCell = 0
  let omegaRun = 0
  for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
    const square = ws.cellShrunk[c]! ** 2
    omegaCell += square
    omegaRun += square * ws.cellConcentration[c]!
    addCellTraces(ws, c, f)
  }
  addSessionBlock(layout, ws, { s, d, gain, omegaCell, omegaRun })
  if (kappa === 0) return
  along[1]! += (kappa * b) ** 2
  along[2]! += (kappa * d) ** 2 * omegaCell
  along[3]! += (kappa * d) ** 2 * omegaRun
  for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
    const slot = cellSlot[c]! - pilotSetupStart[p]!
    const a = ws.cellShrunk[c]!
    const square = a * a
    hSession[slot]! += kappa * b * d * a
    hCell[slot]! += kappa * d * (square - omegaCell * gain * a)
    hRun[slot]! += kappa * d * (square * ws.cellConcentration[c]! - omegaRun * gain * a)
  }
}

function addCellTraces(ws: Workspace, c: number, f: number): void {
  const W = ws.cellWeight[c]!
  const q = ws.cellConcentration[c]!
  const a = ws.cellShrunk[c]!
  const tc2 = ws.theta[2]!
  addTrace(ws, 2, a - a * a * f)
  const runs = W - q * W * a * tc2 - q * a * a * f
  ws.trace[3]! += runs
  ws.traceSquares[3]! += q * W * W // Σ w², the leading term; only a scale is needed
  const largest = W * Math.sqrt(q) // √Σw², at least the largest weight
  if (largest > ws.largestWeight[3]!) ws.largestWeight[3] = largest
}

/** What the cells of one session share. */
interface SessionShare {
  readonly s: number
  readonly d: number
  readonly gain: number
  readonly omegaCell: number
  readonly omegaRun: number
}

/** Σ ω (x − α)(x − α)' with α = τs² z, for ω = a² (cell) and a² q (run); and z z' (session). */
function addSessionBlock(layout: Layout, ws: Workspace, share: SessionShare): void {
  const { sessionStart, cellSetup, setupCount: K } = layout
  const { s, d, gain, omegaCell, omegaRun } = share
  const T = ws.sensitivity
  const K2 = K * K
  const end = sessionStart[s + 1]!
  for (let c = sessionStart[s]!; c < end; c++) {
    const a = ws.cellShrunk[c]!
    const alpha = gain * a
    const cell = a * a
    const run = cell * ws.cellConcentration[c]!
    const column = cellSetup[c]! * K
    T[2 * K2 + column + cellSetup[c]!]! += cell
    T[3 * K2 + column + cellSetup[c]!]! += run
    for (let r = c; r < end; r++) {
      const at = K2 + column + cellSetup[r]!
      const ar = ws.cellShrunk[r]!
      const alphaR = gain * ar
      const cellR = ar * ar
      T[at]! += d * a * d * ar
      T[at + K2]! += omegaCell * alpha * alphaR - cell * alphaR - cellR * alpha
      T[at + 2 * K2]! +=
        omegaRun * alpha * alphaR - run * alphaR - cellR * ws.cellConcentration[r]! * alpha
    }
  }
}
