import { COMPONENT_COUNT } from '../components.ts'
import type { Layout } from '../layout.ts'

/**
 * Memory for evaluations of the model on one layout, allocated once. The letters are those of
 * the formulas: each pass states which fields it reads and which it writes.
 */
export interface Workspace {
  /** Variances of the last evaluation (pilot, session, cell, run) [unit of y squared]. */
  readonly theta: Float64Array
  /** w_i = 1 / (s² + u_i²) per run. */
  readonly runWeight: Float64Array
  /** W = Σw, ȳ = Σwy / W, q = Σw² / W² and a = W / (1 + τc²W) per cell. */
  readonly cellWeight: Float64Array
  readonly cellMean: Float64Array
  readonly cellConcentration: Float64Array
  readonly cellShrunk: Float64Array
  /** d = 1 / (1 + τs²A), b = A·d with A = Σa, and g = Σ a·mean, per session. */
  readonly sessionShrink: Float64Array
  readonly sessionWeight: Float64Array
  readonly sessionSum: Float64Array
  /** B = Σb, κ = τp² / (1 + τp²B) and H = Σ d·g per pilot. */
  readonly pilotWeight: Float64Array
  readonly pilotGain: Float64Array
  readonly pilotSum: Float64Array
  /** Z_p = Σ d·a·x on the setups of each pilot (layout.pilotSetup). */
  readonly pilotDesign: Float64Array
  /** Cholesky factor of M = X'V⁻¹X, and C = M⁻¹; K × K, column-major. */
  readonly factor: Float64Array
  readonly covariance: Float64Array
  /** For structured means μ = Z b only: Cholesky factor of Z'MZ, b, and its covariance. */
  readonly structuredFactor: Float64Array
  readonly coefficients: Float64Array
  readonly coefficientCovariance: Float64Array
  /** Setup means less the layout's anchor. */
  readonly effect: Float64Array
  /** Sums of e = V⁻¹r over cells, sessions and pilots. */
  readonly cellResidual: Float64Array
  readonly sessionResidual: Float64Array
  readonly pilotResidual: Float64Array
  /** Σ w·e per cell. */
  readonly cellWeightedResidual: Float64Array
  /** e'e and Σ w·e² over all runs. */
  readonly residualSquares: Float64Array
  /** T_j, four K × K matrices in a row, symmetric. */
  readonly sensitivity: Float64Array
  /** tr V⁻¹G_j, Σ (1'V⁻¹1)² and max 1'V⁻¹1 over the groups of each component. */
  readonly trace: Float64Array
  readonly traceSquares: Float64Array
  readonly largestWeight: Float64Array
  /** tr C T_j: what the estimated means take from the traces. */
  readonly meansTrace: Float64Array
  /** Derivative of the criterion, and average information (4 × 4). */
  readonly score: Float64Array
  readonly averageInformation: Float64Array
  /** X'V⁻¹f_j, four columns of K; and C times them. */
  readonly projected: Float64Array
  readonly solved: Float64Array
  /** Σ a² and Σ a² q over the cells of each session. */
  readonly sessionCellSquares: Float64Array
  readonly sessionRunSquares: Float64Array
  /** On the setups of each pilot (layout.pilotSetup): cross terms with Z for T_session, T_cell and T_run. */
  readonly pilotCross: readonly [Float64Array, Float64Array, Float64Array]
  /** Weights of Z Z' in T_session, T_cell and T_run, per pilot. */
  readonly pilotAlong: readonly [Float64Array, Float64Array, Float64Array]
  /** Scratch: blocks of one pilot on its setups, zero between uses. */
  readonly pilotBlocks: readonly [Float64Array, Float64Array, Float64Array]
  /** Scratch: C Z on the setups of one pilot. */
  readonly pilotSolved: Float64Array
  /** Scratch of one entry per component: sums over a session and over a pilot. */
  readonly sessionScratch: Float64Array
  readonly componentScratch: Float64Array
}

/**
 * Allocates what evaluations on a layout need: O(N + K²) numbers.
 *
 * @param layout the runs
 * @returns a workspace that fits this layout only
 * @source common practice
 */
export function createWorkspace(layout: Layout): Workspace {
  const { runCount, cellCount, sessionCount, pilotCount, setupCount: k } = layout
  const f = (length: number) => new Float64Array(length)
  const slots = layout.pilotSetup.length
  const square = mostSetups(layout) ** 2
  const p = layout.means?.kept.length ?? 0
  return {
    theta: f(COMPONENT_COUNT),
    runWeight: f(runCount),
    cellWeight: f(cellCount),
    cellMean: f(cellCount),
    cellConcentration: f(cellCount),
    cellShrunk: f(cellCount),
    sessionShrink: f(sessionCount),
    sessionWeight: f(sessionCount),
    sessionSum: f(sessionCount),
    pilotWeight: f(pilotCount),
    pilotGain: f(pilotCount),
    pilotSum: f(pilotCount),
    pilotDesign: f(slots),
    factor: f(k * k),
    covariance: f(k * k),
    structuredFactor: f(p * p),
    coefficients: f(p),
    coefficientCovariance: f(p * p),
    effect: f(k),
    cellResidual: f(cellCount),
    sessionResidual: f(sessionCount),
    pilotResidual: f(pilotCount),
    cellWeightedResidual: f(cellCount),
    residualSquares: f(2),
    sensitivity: f(COMPONENT_COUNT * k * k),
    trace: f(COMPONENT_COUNT),
    traceSquares: f(COMPONENT_COUNT),
    largestWeight: f(COMPONENT_COUNT),
    meansTrace: f(COMPONENT_COUNT),
    score: f(COMPONENT_COUNT),
    averageInformation: f(COMPONENT_COUNT * COMPONENT_COUNT),
    projected: f(COMPONENT_COUNT * k),
    solved: f(COMPONENT_COUNT * k),
    sessionCellSquares: f(sessionCount),
    sessionRunSquares: f(sessionCount),
    pilotCross: [f(slots), f(slots), f(slots)],
    pilotAlong: [f(pilotCount), f(pilotCount), f(pilotCount)],
    pilotBlocks: [f(square), f(square), f(square)],
    pilotSolved: f(k),
    sessionScratch: f(COMPONENT_COUNT),
    componentScratch: f(COMPONENT_COUNT),
  }
}

/** Most setups that one pilot has flown. */
function mostSetups({ pilotSetupStart, pilotCount }: Layout): number {
  let most = 0
  for (let p = 0; p < pilotCount; p++) {
    most = Math.max(most, pilotSetupStart[p + 1]! - pilotSetupStart[p]!)
  }
  return most
}
