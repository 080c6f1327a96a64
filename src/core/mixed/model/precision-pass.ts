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
 * @param range cells to be weighed; all of them when left out
 * @returns Σ log(s² + u²) + Σ log(1 + τc²W), the part of log|V| known here
 * @source S. R. Searle, G. Casella, C. E. McCulloch, Variance Components, 1992, ch. 3 and 6 (nested
 *   inverse, from memory); derived in closed form for this model; sum with its lost digits kept:
 *   A. Neumaier, Z. Angew. Math. Mech. 54, 1974, 39-51 (from memory)
 */
export function weighCells(
  layout: Layout,
  ws: Workspace,
  { from, to }: CellRange = { from: 0, to: layout.cellCount },
): number {
  const { cellStart, deviation, knownRunVariance } = layout
  const tc2 = ws.theta[2]!
  const s2 = ws.theta[3]!
  let logDet = 0
  let lost = 0 // what rounding took from logDet; equal terms would lose the same way every time
  for (let c = from; c < to; c++) {
    let W = 0
    let sumSquares = 0
    let sum = 0
    let logs = 0
    let product = 1
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) {
      const variance = s2 + knownRunVariance[i]!
      product *= variance > 0 ? variance : Number.NaN
      if (!(product > SMALLEST_PRODUCT && product < LARGEST_PRODUCT)) {
        logs += Math.log(product)
        product = 1
      }
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
    logs += Math.log(product) + Math.log1p(tc2 * W)
    const longer = logDet + logs
    lost += Math.abs(logDet) >= Math.abs(logs) ? logDet - longer + logs : logs - longer + logDet
    logDet = longer
  }
  return logDet + lost
}

/** Cells from … to − 1. */
export interface CellRange {
  readonly from: number
  readonly to: number
}

/**
 * What is left of {@link weighCells} where the weights of the runs stay: a alone.
 *
 * @param ws workspace with weighed cells. Mutated.
 * @param range cells whose a follows τc²
 * @source as {@link weighCells}
 */
export function shrinkCells(ws: Workspace, { from, to }: CellRange): void {
  const { cellShrunk, cellWeight } = ws
  const tc2 = ws.theta[2]!
  for (let c = from; c < to; c++) cellShrunk[c] = cellWeight[c]! / (1 + tc2 * cellWeight[c]!)
}

/** One logarithm serves the variances of many runs; between these bounds one more factor neither over- nor underflows. */
const SMALLEST_PRODUCT = 1e-150
const LARGEST_PRODUCT = 1e150

/**
 * Second pass: weights of sessions and pilots.
 *
 *     d = 1 / (1 + τs²A),  b = A·d,  g = Σ a·ȳ,  Z_p = Σ_s d Σ a x
 *     B = Σ b,  κ = τp² / (1 + τp²B),  H = Σ d·g
 *
 * Reads the cell fields; writes the session and pilot fields and pilotDesign.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @returns Σ log(1 + τs²A) + Σ log(1 + τp²B), the rest of log|V|
 * @source derived for this model; block inverse as in {@link weighCells}
 */
export function weighGroups(layout: Layout, ws: Workspace): number {
  let logDet = 0
  for (let p = 0; p < layout.pilotCount; p++) logDet = weighPilot(layout, ws, { p, logDet })
  return logDet
}

/**
 * {@link weighGroups} of one pilot.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @param at the pilot, and the sum of logarithms so far
 * @returns that sum and what this pilot adds
 * @source as {@link weighGroups}
 */
export function weighPilot(
  layout: Layout,
  ws: Workspace,
  at: { readonly p: number; readonly logDet: number },
): number {
  const { pilotStart, pilotSetupStart } = layout
  const { p } = at
  const tp2 = ws.theta[0]!
  ws.pilotDesign.fill(0, pilotSetupStart[p]!, pilotSetupStart[p + 1]!)
  let logDet = at.logDet
  let B = 0
  let H = 0
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
    logDet += weighSession(layout, ws, s)
    B += ws.sessionWeight[s]!
    H += ws.sessionShrink[s]! * ws.sessionSum[s]!
  }
  ws.pilotWeight[p] = B
  ws.pilotGain[p] = tp2 / (1 + tp2 * B)
  ws.pilotSum[p] = H
  return logDet + Math.log1p(tp2 * B)
}

/**
 * Third pass: M = X'V⁻¹X and X'V⁻¹y.
 *
 *     z_s = d Σ a x,  M = Σ_p M_p,  M_p = Σ a x x' − Σ (τs²/d) z z' − κ Z Z'     over the cells and sessions of the pilot
 *
 * Reads the fields of cells and groups; writes the lower triangle of M into `factor`, and X'V⁻¹y into `effect`.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @source derived for this model; block inverse as in {@link weighCells}
 */
export function accumulatePrecision(layout: Layout, ws: Workspace): void {
  ws.factor.fill(0)
  ws.effect.fill(0)
  for (let p = 0; p < layout.pilotCount; p++) {
    addRightHandSide(layout, ws, p)
    addPilot(layout, ws, p)
  }
}

/** d, b and g of one session, and its share of Z_p; returns log(1 + τs²A). */
function weighSession(layout: Layout, ws: Workspace, s: number): number {
  const { sessionStart, cellSlot, knownSessionVariance } = layout
  const a = ws.cellShrunk
  const end = sessionStart[s + 1]!
  const ts2 = ws.theta[1]! + knownSessionVariance[s]!
  let A = 0
  let g = 0
  for (let c = sessionStart[s]!; c < end; c++) {
    A += a[c]!
    g += a[c]! * ws.cellMean[c]!
  }
  const d = 1 / (1 + ts2 * A)
  ws.sessionShrink[s] = d
  ws.sessionWeight[s] = A * d
  ws.sessionSum[s] = g
  for (let c = sessionStart[s]!; c < end; c++) ws.pilotDesign[cellSlot[c]!]! += d * a[c]!
  return Math.log1p(ts2 * A)
}

/** M_p on the setups of one pilot, from its block to M: a pilot's block stays in the fastest memory. */
function addPilot(layout: Layout, ws: Workspace, p: number): void {
  const { pilotSetup, pilotSetupStart, setupCount: K } = layout
  const start = pilotSetupStart[p]!
  const n = pilotSetupStart[p + 1]! - start
  const [block] = ws.pilotBlocks
  const Z = ws.pilotDesign
  const M = ws.factor
  gatherSessions(layout, ws, { p, start, n })
  for (let j = 0; j < n; j++) {
    const along = -ws.pilotGain[p]! * Z[start + j]!
    const column = pilotSetup[start + j]! * K
    for (let i = j; i < n; i++) {
      M[column + pilotSetup[start + i]!]! += block[j * n + i]! + along * Z[start + i]!
      block[j * n + i] = 0
    }
  }
}

/** Σ a x x' − Σ (τs²/d) z z' of the sessions of one pilot, lower triangle. */
function gatherSessions(
  layout: Layout,
  ws: Workspace,
  { p, start, n }: { readonly p: number; readonly start: number; readonly n: number },
): void {
  const { pilotStart, sessionStart, cellSlot, knownSessionVariance } = layout
  const a = ws.cellShrunk
  const [block] = ws.pilotBlocks
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
    const gain = (ws.theta[1]! + knownSessionVariance[s]!) * ws.sessionShrink[s]!
    const end = sessionStart[s + 1]!
    for (let c = sessionStart[s]!; c < end; c++) {
      const scaled = gain * a[c]!
      const column = (cellSlot[c]! - start) * n - start
      block[column + cellSlot[c]!]! += a[c]! - scaled * a[c]!
      for (let r = c + 1; r < end; r++) block[column + cellSlot[r]!]! -= scaled * a[r]!
    }
  }
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
