import { traceOfProduct } from '../../linalg/symmetric.ts'
import { COMPONENT_COUNT } from '../components.ts'
import type { Layout } from '../layout.ts'
import { weighCells, weighGroups } from '../model/precision-pass.ts'
import { tracePass } from '../model/trace-pass.ts'
import type { Workspace } from '../model/workspace.ts'

/**
 * Step of the differences, as a share of the smallest variance a group of the component has. Truncation is of
 * the order of its square, 1e-10; rounding of the traces, about 1e-15, over it is of that order too.
 */
const RELATIVE_STEP = 1e-5

/**
 * Expected information ½ tr P G_j P G_k.
 *
 *     tr P G_j P G_k = −∂/∂θ_k [ tr V⁻¹G_j − tr C T_j ]_(C held) + tr C T_j C T_k
 *
 * The first part by central differences of sums over cells and pilots, which leave the means alone. The step of
 * component k is 1e-5 / max 1'V⁻¹1 over its groups, so V stays positive definite even at θ_k = 0, where one of the
 * two points is slightly negative.
 *
 * @param layout the runs
 * @param ws workspace with derivatives and T_j at theta; afterwards its weights belong to another point. Mutated.
 * @param slopes ∂C/∂θ_j of that point
 * @param estimable 1 for each component wanted
 * @returns 4 × 4, symmetric; zero in the rows of other components
 * @source D. A. Harville, J. Amer. Statist. Assoc. 72, 1977, 320-338 (from memory); ∂T_j/∂θ_k derived here
 */
export function expectedInformation(
  layout: Layout,
  ws: Workspace,
  slopes: Float64Array,
  estimable: Uint8Array,
): Float64Array {
  const n = COMPONENT_COUNT
  const K = layout.setupCount
  const theta = ws.theta.slice()
  const steps = ws.largestWeight.map((weight) => RELATIVE_STEP / weight)
  const raw = new Float64Array(n * n)
  const wanted = [...estimable.keys()].filter((j) => estimable[j] === 1)
  for (const k of wanted) {
    const upper = tracesAt(layout, ws, shifted(theta, k, steps[k]!))
    const lower = tracesAt(layout, ws, shifted(theta, k, -steps[k]!))
    const slope = slopes.subarray(k * K * K, (k + 1) * K * K)
    for (const j of wanted) {
      const ofWeights = (lower[j]! - upper[j]!) / (2 * steps[k]!)
      raw[j + n * k] = (ofWeights + traceOfProduct(slope, ws.sensitivity, K, j * K * K)) / 2
    }
  }
  const symmetric = new Float64Array(n * n)
  for (let j = 0; j < n; j++) {
    for (let k = 0; k < n; k++) symmetric[k + n * j] = (raw[k + n * j]! + raw[j + n * k]!) / 2
  }
  return symmetric
}

function shifted(theta: Float64Array, k: number, step: number): Float64Array {
  const result = theta.slice()
  result[k]! += step
  return result
}

/** tr V⁻¹G_j − tr C T_j with C as it stands. */
function tracesAt(layout: Layout, ws: Workspace, theta: Float64Array): Float64Array {
  ws.theta.set(theta)
  weighCells(layout, ws)
  weighGroups(layout, ws)
  tracePass(layout, ws)
  return ws.trace.map((trace, j) => trace - ws.meansTrace[j]!)
}
