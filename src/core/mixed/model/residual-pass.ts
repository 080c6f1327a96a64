import type { Layout } from '../layout.ts'
import type { Workspace } from './workspace.ts'

/**
 * Third pass: e = V⁻¹(y − Xβ) from residuals, never from y'V⁻¹y − b'Cb, which cancels.
 *
 *     r̄ = ȳ − μ,  g = Σ a r̄,  H = Σ d g,  ρ = 1 / (1 + τc²W)
 *     τ = τc² a r̄ + ρ (τs² d g + κ d H)      predicted pilot + session + cell effect
 *     e_i = w_i (y_i − μ − τ)
 *
 * Reads the weights and `effect`; writes the residual sums of cells, sessions, pilots and runs.
 *
 * @param layout the runs
 * @param ws workspace of this layout. Mutated.
 * @returns r'V⁻¹r
 * @source C. R. Henderson, Best linear unbiased estimation and prediction, Biometrics 31, 1975,
 *   423-447 (from memory); derived in closed form for this model
 */
export function residualPass(layout: Layout, ws: Workspace): number {
  const { pilotStart, pilotCount, sessionStart, cellSetup, knownSessionVariance } = layout
  ws.residualSquares.fill(0)
  let squares = 0
  for (let p = 0; p < pilotCount; p++) {
    let H = 0
    for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
      let g = 0
      for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
        g += ws.cellShrunk[c]! * (ws.cellMean[c]! - ws.effect[cellSetup[c]!]!)
      }
      ws.sessionResidual[s] = g // kept here until the session is done
      H += ws.sessionShrink[s]! * g
    }
    let pilotResidual = 0
    for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
      const ts2 = ws.theta[1]! + knownSessionVariance[s]!
      const shift = ws.sessionShrink[s]! * (ts2 * ws.sessionResidual[s]! + ws.pilotGain[p]! * H)
      let sessionResidual = 0
      for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
        squares += cellResiduals(layout, ws, c, shift)
        sessionResidual += ws.cellResidual[c]!
      }
      ws.sessionResidual[s] = sessionResidual
      pilotResidual += sessionResidual
    }
    ws.pilotResidual[p] = pilotResidual
  }
  return squares
}

/** Residuals of one cell, given the predicted session + pilot effect; returns Σ r e. */
function cellResiduals(
  { cellStart, cellSetup, deviation }: Layout,
  ws: Workspace,
  c: number,
  shift: number,
): number {
  const tc2 = ws.theta[2]!
  const mean = ws.effect[cellSetup[c]!]!
  const rho = 1 / (1 + tc2 * ws.cellWeight[c]!)
  const level = mean + tc2 * ws.cellShrunk[c]! * (ws.cellMean[c]! - mean) + rho * shift
  let sum = 0
  let weighted = 0
  let squares = 0
  let own = 0
  let ownWeighted = 0
  for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) {
    const w = ws.runWeight[i]!
    const e = w * (deviation[i]! - level)
    sum += e
    weighted += w * e
    squares += e * (deviation[i]! - mean)
    own += e * e
    ownWeighted += w * e * e
  }
  ws.cellResidual[c] = sum
  ws.cellWeightedResidual[c] = weighted
  ws.residualSquares[0]! += own
  ws.residualSquares[1]! += ownWeighted
  return squares
}
