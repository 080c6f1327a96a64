import { mirrorLowerInPlace } from '../../linalg/symmetric.ts'
import { COMPONENT_COUNT } from '../components.ts'
import type { Layout } from '../layout.ts'
import type { Workspace } from './workspace.ts'

/**
 * T_j = X'V⁻¹G_jV⁻¹X of the four components, each a sum over pilots.
 *
 *     q_p = Z / (1 + τp²B)            q_s = z − κ b Z
 *     q_c = a (x − τs² z − κ d Z)     T_j = Σ q_j q_j',  T_run = Σ q(c) q_c q_c'
 *
 * The parts along Z are gathered per pilot, so a session costs m_s² and a pilot m_p².
 * Reads the weights; writes sensitivity and what {@link gatherAlongPilots} writes.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @source derived for this model from D. A. Harville, J. Amer. Statist. Assoc. 72, 1977, 320-338
 *   (from memory)
 */
export function sensitivityPass(layout: Layout, ws: Workspace): void {
  const K = layout.setupCount
  ws.sensitivity.fill(0)
  gatherAlongPilots(layout, ws)
  for (let p = 0; p < layout.pilotCount; p++) addPilot(layout, ws, p)
  for (let j = 0; j < COMPONENT_COUNT; j++) mirrorLowerInPlace(ws.sensitivity, K, j * K * K)
}

/**
 * tr V⁻¹G_j, and what T_session, T_cell and T_run hold along Z, pilot by pilot.
 *
 *     T_j = Σ_p [ blocks of its sessions + ω Z Z' − h Z' − Z h' ]
 *
 * Reads the weights; writes trace, traceSquares, largestWeight, pilotAlong (ω), pilotCross (h) and the sums of
 * squares of the sessions.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @source as {@link sensitivityPass}
 */
export function gatherAlongPilots(layout: Layout, ws: Workspace): void {
  ws.trace.fill(0)
  ws.traceSquares.fill(0)
  ws.largestWeight.fill(0)
  for (let p = 0; p < layout.pilotCount; p++) gatherPilot(layout, ws, p)
}

/** Notes 1'V⁻¹1 of one group of component j. */
function addTrace(ws: Workspace, j: number, weight: number): void {
  ws.trace[j]! += weight
  ws.traceSquares[j]! += weight * weight
  if (weight > ws.largestWeight[j]!) ws.largestWeight[j] = weight
}

/**
 * {@link gatherAlongPilots} of one pilot; the traces are added to those so far.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @param p the pilot
 * @source as {@link sensitivityPass}
 */
export function gatherPilot(layout: Layout, ws: Workspace, p: number): void {
  const { pilotStart, pilotSetupStart, sessionStart, cellSlot, knownSessionVariance } = layout
  const [crossSession, crossCell, crossRun] = ws.pilotCross
  const [alongSession, alongCell, alongRun] = ws.pilotAlong
  const kappa = ws.pilotGain[p]!
  for (const cross of ws.pilotCross) cross.fill(0, pilotSetupStart[p]!, pilotSetupStart[p + 1]!)
  for (const along of ws.pilotAlong) along[p] = 0
  addTrace(ws, 0, ws.pilotWeight[p]! / (1 + ws.theta[0]! * ws.pilotWeight[p]!))
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
    const d = ws.sessionShrink[s]!
    const b = ws.sessionWeight[s]!
    const gain = (ws.theta[1]! + knownSessionVariance[s]!) * d
    addTrace(ws, 1, b - kappa * b * b)
    sumSquares(layout, ws, { s, f: gain + kappa * d * d })
    if (kappa === 0) continue
    const omegaCell = ws.sessionCellSquares[s]!
    const omegaRun = ws.sessionRunSquares[s]!
    alongSession[p]! += (kappa * b) ** 2
    alongCell[p]! += (kappa * d) ** 2 * omegaCell
    alongRun[p]! += (kappa * d) ** 2 * omegaRun
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      const slot = cellSlot[c]!
      const a = ws.cellShrunk[c]!
      const square = a * a
      crossSession[slot]! += kappa * b * d * a
      crossCell[slot]! += kappa * d * (square - omegaCell * gain * a)
      crossRun[slot]! += kappa * d * (square * ws.cellConcentration[c]! - omegaRun * gain * a)
    }
  }
}

/** Σ a² and Σ a² q of one session, and the traces of its cells. */
function sumSquares(layout: Layout, ws: Workspace, { s, f }: { s: number; f: number }): void {
  const { cellShrunk, cellConcentration, cellWeight, trace, traceSquares, largestWeight } = ws
  const tc2 = ws.theta[2]!
  let omegaCell = 0
  let omegaRun = 0
  let largest = largestWeight[3]! ** 2
  for (let c = layout.sessionStart[s]!; c < layout.sessionStart[s + 1]!; c++) {
    const a = cellShrunk[c]!
    const q = cellConcentration[c]!
    const W = cellWeight[c]!
    omegaCell += a * a
    omegaRun += a * a * q
    addTrace(ws, 2, a - a * a * f)
    trace[3]! += W - q * W * a * tc2 - q * a * a * f
    const squares = q * W * W // Σ w², the leading term; only a scale is needed
    traceSquares[3]! += squares
    if (squares > largest) largest = squares // √Σw² is at least the largest weight
  }
  largestWeight[3] = Math.sqrt(largest)
  ws.sessionCellSquares[s] = omegaCell
  ws.sessionRunSquares[s] = omegaRun
}

/**
 * The four T_j of one pilot on its setups, from its blocks to the sums: ω Z Z' in T_pilot, and what its sessions
 * hold + ω Z Z' − h Z' − Z h' in the others, h the sum of the sessions' cross terms.
 */
function addPilot(layout: Layout, ws: Workspace, p: number): void {
  const { pilotSetup, pilotSetupStart, setupCount: K } = layout
  const start = pilotSetupStart[p]!
  const n = pilotSetupStart[p + 1]! - start
  const [hSession, hCell, hRun] = ws.pilotCross
  const [blockSession, blockCell, blockRun] = ws.pilotBlocks
  const K2 = K * K
  const T = ws.sensitivity
  const Z = ws.pilotDesign
  gatherSessions(layout, ws, { p, start, n })
  for (let j = 0; j < n; j++) {
    const slot = start + j
    const column = pilotSetup[slot]! * K
    const z = Z[slot]!
    const ofPilot = z * (1 + ws.theta[0]! * ws.pilotWeight[p]!) ** -2
    const ofSession = z * ws.pilotAlong[0][p]! - hSession[slot]!
    const ofCell = z * ws.pilotAlong[1][p]! - hCell[slot]!
    const ofRun = z * ws.pilotAlong[2][p]! - hRun[slot]!
    for (let i = j; i < n; i++) {
      const at = column + pilotSetup[start + i]!
      const entry = j * n + i
      const zi = Z[start + i]!
      T[at]! += ofPilot * zi
      T[at + K2]! += blockSession[entry]! + (ofSession * zi - hSession[start + i]! * z)
      T[at + 2 * K2]! += blockCell[entry]! + (ofCell * zi - hCell[start + i]! * z)
      T[at + 3 * K2]! += blockRun[entry]! + (ofRun * zi - hRun[start + i]! * z)
      blockSession[entry] = 0
      blockCell[entry] = 0
      blockRun[entry] = 0
    }
  }
}

/**
 * Σ ω (x − α)(x − α)' with α = τs² z, for ω = a² (cell) and a² q (run), and z z' (session), of the sessions of
 * one pilot, lower triangles.
 */
function gatherSessions(
  layout: Layout,
  ws: Workspace,
  { p, start, n }: { readonly p: number; readonly start: number; readonly n: number },
): void {
  const { pilotStart, sessionStart, cellSlot, knownSessionVariance } = layout
  const [ofSession, ofCell, ofRun] = ws.pilotBlocks
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
    const d = ws.sessionShrink[s]!
    const gain = (ws.theta[1]! + knownSessionVariance[s]!) * d
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      const a = ws.cellShrunk[c]!
      const alpha = gain * a
      const cell = a * a
      const run = cell * ws.cellConcentration[c]!
      const alongCell = ws.sessionCellSquares[s]! * alpha - cell
      const alongRun = ws.sessionRunSquares[s]! * alpha - run
      const column = (cellSlot[c]! - start) * n - start
      ofCell[column + cellSlot[c]!]! += cell
      ofRun[column + cellSlot[c]!]! += run
      for (let r = c; r < sessionStart[s + 1]!; r++) {
        const entry = column + cellSlot[r]!
        const ar = ws.cellShrunk[r]!
        const alphaR = gain * ar
        const cellR = ar * ar
        ofSession[entry]! += d * a * d * ar
        ofCell[entry]! += alongCell * alphaR - cellR * alpha
        ofRun[entry]! += alongRun * alphaR - cellR * ws.cellConcentration[r]! * alpha
      }
    }
  }
}
