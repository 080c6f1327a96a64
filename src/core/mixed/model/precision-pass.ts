import type { Layout } from '../layout.ts'
import type { Workspace } from './workspace.ts'

/**
 * First pass of an evaluation: weights of runs and cells.
 *
 *     w = 1 / (s² + u²),  W = Σw,  ȳ = Σwy / W,  q = Σw² / W²,  a = W / (1 + τc²W)
 *
 * Reads theta; writes runWeight and the cell fields up to cellShrunk.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @returns Σ log(s² + u²) + Σ log(1 + τc²W), the part of log|V| known here
 * @source S. R. Searle, G. Casella, C. E. McCulloch, Variance Components, 1992, ch. 3 and 6 (nested
 *   inverse, from memory); derived in closed form for this model; sum with its lost digits kept:
 *   A. Neumaier, Z. Angew. Math. Mech. 54, 1974, 39-51 (from memory)
 */
export function weighCells(layout: Layout, ws: Workspace): number {
  const { cellStart, cellCount, deviation, knownRunVariance } = layout
  const tc2 = ws.theta[2]!
  const s2 = ws.theta[3]!
  let logDet = 0
  let lost = 0 // what rounding took from logDet; equal terms would lose the same way every time
  let lastVariance = 1
  let lastLog = 0
  for (let c = 0; c < cellCount; c++) {
    let W = 0
    let sumSquares = 0
    let sum = 0
    let logs = 0
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) {
      const variance = s2 + knownRunVariance[i]!
      if (variance !== lastVariance) {
        lastVariance = variance
        lastLog = Math.log(variance)
      }
      logs += lastLog
      const w = 1 / variance
      ws.runWeight[i] = w
      W += w
      sumSquares += w * w
      sum += w * deviation[i]!
    }
    ws.cellWeight[c] = W
    ws.cellMean[c] = sum / W
    ws.cellConcentration[c] = sumSquares / (W * W)
    ws.cellShrunk[c] = W / (1 + tc2 * W)
    logs += Math.log1p(tc2 * W)
    const longer = logDet + logs
    lost += Math.abs(logDet) >= Math.abs(logs) ? logDet - longer + logs : logs - longer + logDet
    logDet = longer
  }
  return logDet + lost
}

/**
 * Second pass: M = X'V⁻¹X and X'V⁻¹y.
 *
 *     d = 1 / (1 + τs²A),  z_s = d Σ a x,  Z_p = Σ z_s,  κ = τp² / (1 + τp²B)
 *     M = Σ a x x' − Σ (τs²/d) z z' − Σ κ Z Z'
 *
 * Reads the cell fields; writes the session and pilot fields, pilotDesign, the lower triangle of
 * M into `factor`, and X'V⁻¹y into `effect`.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @returns Σ log(1 + τs²A) + Σ log(1 + τp²B), the rest of log|V|
 * @source derived for this model; block inverse as in {@link weighCells}
 */
export function accumulatePrecision(layout: Layout, ws: Workspace): number {
  const { pilotStart, pilotCount, pilotSetupStart } = layout
  const tp2 = ws.theta[0]!
  ws.factor.fill(0)
  ws.effect.fill(0)
  ws.pilotDesign.fill(0)
  let logDet = 0
  for (let p = 0; p < pilotCount; p++) {
    let B = 0
    let H = 0
    for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
      logDet += addSession(layout, ws, s)
      B += ws.sessionWeight[s]!
      H += ws.sessionShrink[s]! * ws.sessionSum[s]!
    }
    const kappa = tp2 / (1 + tp2 * B)
    logDet += Math.log1p(tp2 * B)
    ws.pilotWeight[p] = B
    ws.pilotGain[p] = kappa
    ws.pilotSum[p] = H
    if (kappa !== 0) {
      addOuterProduct(layout, ws.factor, {
        slots: ws.pilotDesign,
        start: pilotSetupStart[p]!,
        end: pilotSetupStart[p + 1]!,
        factor: -kappa,
      })
    }
    addRightHandSide(layout, ws, p)
  }
  return logDet
}

/** Adds Σ a x x' − (τs²/d) z z' of one session to M and z to Z_p; returns log(1 + τs²A). */
function addSession(layout: Layout, ws: Workspace, s: number): number {
  const { sessionStart, cellSetup, cellSlot, setupCount: K, knownSessionVariance } = layout
  const a = ws.cellShrunk
  const M = ws.factor
  const first = sessionStart[s]!
  const end = sessionStart[s + 1]!
  const ts2 = ws.theta[1]! + knownSessionVariance[s]!
  let A = 0
  let g = 0
  for (let c = first; c < end; c++) {
    A += a[c]!
    g += a[c]! * ws.cellMean[c]!
  }
  const d = 1 / (1 + ts2 * A)
  ws.sessionShrink[s] = d
  ws.sessionWeight[s] = A * d
  ws.sessionSum[s] = g
  for (let c = first; c < end; c++) {
    const column = cellSetup[c]! * K
    const scaled = ts2 * d * a[c]!
    M[column + cellSetup[c]!]! += a[c]! - scaled * a[c]!
    if (scaled !== 0) {
      for (let r = c + 1; r < end; r++) M[column + cellSetup[r]!]! -= scaled * a[r]!
    }
    ws.pilotDesign[cellSlot[c]!]! += d * a[c]!
  }
  return Math.log1p(ts2 * A)
}

/** X'V⁻¹y of one pilot: a (ȳ − τs² d g − κ d H) for each cell. */
function addRightHandSide(layout: Layout, ws: Workspace, p: number): void {
  const { pilotStart, sessionStart, cellSetup, knownSessionVariance } = layout
  const kappaH = ws.pilotGain[p]! * ws.pilotSum[p]!
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
    const ts2 = ws.theta[1]! + knownSessionVariance[s]!
    const shift = ws.sessionShrink[s]! * (ts2 * ws.sessionSum[s]! + kappaH)
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      ws.effect[cellSetup[c]!]! += ws.cellShrunk[c]! * (ws.cellMean[c]! - shift)
    }
  }
}

/** A vector on the setups of one pilot, and the weight of its outer product. */
interface PilotVector {
  readonly slots: Float64Array
  readonly start: number
  readonly end: number
  readonly factor: number
}

/**
 * Adds factor · v v' to the lower triangle of a K × K matrix, v given on the setups of one pilot.
 *
 * @param layout the runs
 * @param matrix K × K, column-major, starting at `offset`. Mutated.
 * @param vector entries start … end − 1 of `slots`, in the order of layout.pilotSetup
 * @param offset where the matrix starts in its array
 * @source common practice
 */
export function addOuterProduct(
  { pilotSetup, setupCount: K }: Layout,
  matrix: Float64Array,
  { slots, start, end, factor }: PilotVector,
  offset = 0,
): void {
  for (let j = start; j < end; j++) {
    const column = offset + pilotSetup[j]! * K
    const scaled = factor * slots[j]!
    for (let i = j; i < end; i++) matrix[column + pilotSetup[i]!]! += scaled * slots[i]!
  }
}
