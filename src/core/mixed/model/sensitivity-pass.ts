import type { Layout } from '../layout.ts'
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
  ws.sensitivityEntries.fill(0)
  ws.trace.fill(0)
  ws.traceSquares.fill(0)
  ws.largestWeight.fill(0)
  for (let p = 0; p < layout.pilotCount; p++) addPilot(layout, ws, p)
  separate(ws, layout.setupCount)
}

/** Puts the four entries that stood side by side into four matrices, lower triangles. */
function separate({ sensitivity: T, sensitivityEntries: entries }: Workspace, K: number): void {
  const K2 = K * K
  for (let j = 0; j < K; j++) {
    for (let at = j + j * K; at < (j + 1) * K; at++) {
      T[at] = entries[4 * at]!
      T[at + K2] = entries[4 * at + 1]!
      T[at + 2 * K2] = entries[4 * at + 2]!
      T[at + 3 * K2] = entries[4 * at + 3]!
    }
  }
}

/** Notes 1'V⁻¹1 of one group of component j. */
function addTrace(ws: Workspace, j: number, weight: number): void {
  ws.trace[j]! += weight
  ws.traceSquares[j]! += weight * weight
  if (weight > ws.largestWeight[j]!) ws.largestWeight[j] = weight
}

function addPilot(layout: Layout, ws: Workspace, p: number): void {
  const { pilotStart, pilotSetupStart } = layout
  const start = pilotSetupStart[p]!
  const end = pilotSetupStart[p + 1]!
  const denominator = 1 + ws.theta[0]! * ws.pilotWeight[p]!
  addTrace(ws, 0, ws.pilotWeight[p]! / denominator)
  // Weights of Z Z' in T_session, T_cell and T_run.
  const along = ws.componentScratch
  along.fill(0)
  for (const scratch of ws.pilotScratch) scratch.fill(0, 0, end - start)
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) addSession(layout, ws, { p, s })
  addPilotBlock(layout, ws, { start, end, factor: denominator ** -2 })
}

/** Setups of one pilot: entries start … end − 1 of layout.pilotSetup; weight of Z Z' in T_pilot. */
interface PilotBlock {
  readonly start: number
  readonly end: number
  readonly factor: number
}

/**
 * Adds ω Z Z' to T_pilot and ω Z Z' − h Z' − Z h' to the others, h the sum of the sessions' cross terms,
 * in one walk over the pilot's setups.
 */
function addPilotBlock(layout: Layout, ws: Workspace, block: PilotBlock): void {
  const { pilotSetup, setupCount: K } = layout
  const { start, end, factor } = block
  const [hSession, hCell, hRun] = ws.pilotScratch
  const along = ws.componentScratch
  const Z = ws.pilotDesign
  const T = ws.sensitivityEntries
  for (let j = start; j < end; j++) {
    const column = pilotSetup[j]! * K
    const zj = Z[j]!
    const ofPilot = factor * zj
    const ofSession = along[1]! * zj
    const ofCell = along[2]! * zj
    const ofRun = along[3]! * zj
    const hSessionJ = hSession[j - start]!
    const hCellJ = hCell[j - start]!
    const hRunJ = hRun[j - start]!
    for (let i = j; i < end; i++) {
      const at = 4 * (column + pilotSetup[i]!)
      const zi = Z[i]!
      const h = i - start
      T[at]! += ofPilot * zi
      T[at + 1] = T[at + 1]! + ofSession * zi - (hSession[h]! * zj + hSessionJ * zi)
      T[at + 2] = T[at + 2]! + ofCell * zi - (hCell[h]! * zj + hCellJ * zi)
      T[at + 3] = T[at + 3]! + ofRun * zi - (hRun[h]! * zj + hRunJ * zi)
    }
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
  const T = ws.sensitivityEntries
  const end = sessionStart[s + 1]!
  for (let c = sessionStart[s]!; c < end; c++) {
    const a = ws.cellShrunk[c]!
    const alpha = gain * a
    const cell = a * a
    const run = cell * ws.cellConcentration[c]!
    const column = cellSetup[c]! * K
    T[4 * (column + cellSetup[c]!) + 2]! += cell
    T[4 * (column + cellSetup[c]!) + 3]! += run
    for (let r = c; r < end; r++) {
      const at = 4 * (column + cellSetup[r]!)
      const ar = ws.cellShrunk[r]!
      const alphaR = gain * ar
      const cellR = ar * ar
      T[at + 1]! += d * a * d * ar
      T[at + 2]! += omegaCell * alpha * alphaR - cell * alphaR - cellR * alpha
      T[at + 3]! +=
        omegaRun * alpha * alphaR - run * alphaR - cellR * ws.cellConcentration[r]! * alpha
    }
  }
}
