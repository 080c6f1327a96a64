import type { Layout } from '../layout.ts'
import { gatherAlongPilots, gatherPilot } from './sensitivity-pass.ts'
import type { Workspace } from './workspace.ts'

/**
 * tr V⁻¹G_j, and tr C T_j without forming T_j: C is met once per pair of setups of a pilot and per pair of cells
 * of a session.
 *
 *     u = C Z,  v = C a over the cells of a session,  γ = τs² d
 *     pilot:    Σ_p (1 + τp²B)⁻² Z'u
 *     session:  Σ_s d² a'v + Σ_p [ ω Z'u − 2 h'u ]
 *     cell:     Σ_s [ Σ a² C_cc − 2γ Σ a² v + γ² (Σ a²) a'v ] + Σ_p [ ω Z'u − 2 h'u ];  run: a² q for a²
 *
 * Reads the weights and `covariance`; writes meansTrace and what gatherAlongPilots writes.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @source derived for this model from the closed forms of sensitivityPass
 */
export function tracePass(layout: Layout, ws: Workspace): void {
  gatherAlongPilots(layout, ws)
  ws.meansTrace.fill(0)
  for (let p = 0; p < layout.pilotCount; p++) addPilot(layout, ws, p)
}

/**
 * {@link tracePass} of one pilot, added to the traces so far.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @param p the pilot
 * @source as {@link tracePass}
 */
export function tracePilot(layout: Layout, ws: Workspace, p: number): void {
  gatherPilot(layout, ws, p)
  addPilot(layout, ws, p)
}

function addPilot(layout: Layout, ws: Workspace, p: number): void {
  solveAlongPilot(layout, ws, p)
  addAlongPilot(layout, ws, p)
  for (let s = layout.pilotStart[p]!; s < layout.pilotStart[p + 1]!; s++) addSession(layout, ws, s)
}

/** u = C Z on the setups of one pilot, in the order of layout.pilotSetup. */
function solveAlongPilot(layout: Layout, ws: Workspace, p: number): void {
  const { pilotSetup, pilotSetupStart, setupCount: K } = layout
  const start = pilotSetupStart[p]!
  const n = pilotSetupStart[p + 1]! - start
  const C = ws.covariance
  const Z = ws.pilotDesign
  const u = ws.pilotSolved
  for (let j = 0; j < n; j++) u[j] = 0
  for (let j = 0; j < n; j++) {
    const column = pilotSetup[start + j]! * K
    const z = Z[start + j]!
    let sum = u[j]! + C[column + pilotSetup[start + j]!]! * z
    for (let i = j + 1; i < n; i++) {
      const c = C[column + pilotSetup[start + i]!]!
      u[i]! += c * z
      sum += c * Z[start + i]!
    }
    u[j] = sum
  }
}

/** ω Z'u − 2 h'u of one pilot. */
function addAlongPilot({ pilotSetupStart }: Layout, ws: Workspace, p: number): void {
  const [hSession, hCell, hRun] = ws.pilotCross
  const [alongSession, alongCell, alongRun] = ws.pilotAlong
  const start = pilotSetupStart[p]!
  const end = pilotSetupStart[p + 1]!
  let form = 0
  let ofSession = 0
  let ofCell = 0
  let ofRun = 0
  for (let i = start; i < end; i++) {
    const u = ws.pilotSolved[i - start]!
    form += ws.pilotDesign[i]! * u
    ofSession += hSession[i]! * u
    ofCell += hCell[i]! * u
    ofRun += hRun[i]! * u
  }
  const total = ws.meansTrace
  total[0]! += (1 + ws.theta[0]! * ws.pilotWeight[p]!) ** -2 * form
  total[1]! += alongSession[p]! * form - 2 * ofSession
  total[2]! += alongCell[p]! * form - 2 * ofCell
  total[3]! += alongRun[p]! * form - 2 * ofRun
}

/** What the blocks of one session add. */
function addSession(layout: Layout, ws: Workspace, s: number): void {
  const { sessionStart, cellSetup, knownSessionVariance, setupCount: K } = layout
  const C = ws.covariance
  const first = sessionStart[s]!
  const end = sessionStart[s + 1]!
  let form = 0 // a'v
  let ownCell = 0 // Σ a² C_cc
  let ownRun = 0
  let crossCell = 0 // Σ a² v
  let crossRun = 0
  for (let c = first; c < end; c++) {
    const column = cellSetup[c]! * K
    const a = ws.cellShrunk[c]!
    const ofCell = a * a
    const ofRun = ofCell * ws.cellConcentration[c]!
    let v = 0
    for (let r = first; r < end; r++) v += C[column + cellSetup[r]!]! * ws.cellShrunk[r]!
    const own = C[column + cellSetup[c]!]!
    form += a * v
    ownCell += ofCell * own
    ownRun += ofRun * own
    crossCell += ofCell * v
    crossRun += ofRun * v
  }
  const d = ws.sessionShrink[s]!
  const gain = (ws.theta[1]! + knownSessionVariance[s]!) * d
  const total = ws.meansTrace
  total[1]! += d * d * form
  total[2]! += ownCell - 2 * gain * crossCell + gain * gain * ws.sessionCellSquares[s]! * form
  total[3]! += ownRun - 2 * gain * crossRun + gain * gain * ws.sessionRunSquares[s]! * form
}
