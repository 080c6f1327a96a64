import { traceOfProduct } from '../../linalg/symmetric.ts'
import { COMPONENT_COUNT, COMPONENTS } from '../components.ts'
import type { Layout } from '../layout.ts'
import { shrinkCells, weighCells, weighPilot } from '../model/precision-pass.ts'
import { tracePilot } from '../model/trace-pass.ts'
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
  const wanted = [...estimable.keys()].filter((j) => estimable[j] === 1)
  const differences = wanted.map((k) => differenceAlong(ws, k))
  for (let p = 0; p < layout.pilotCount; p++) {
    for (const difference of differences) addTraces(layout, difference, p)
  }
  const raw = new Float64Array(n * n)
  for (const { k, step, lower, upper } of differences) {
    const slope = slopes.subarray(k * K * K, (k + 1) * K * K)
    for (const j of wanted) {
      const ofWeights = (held(lower, j) - held(upper, j)) / (2 * step)
      raw[j + n * k] = (ofWeights + traceOfProduct(slope, ws.sensitivity, K, j * K * K)) / 2
    }
  }
  const symmetric = new Float64Array(n * n)
  for (let j = 0; j < n; j++) {
    for (let k = 0; k < n; k++) symmetric[k + n * j] = (raw[k + n * j]! + raw[j + n * k]!) / 2
  }
  return symmetric
}

/** Two points beside that of a workspace, a step of component k to either side. */
interface Difference {
  readonly k: number
  readonly step: number
  readonly lower: Workspace
  readonly upper: Workspace
}

function differenceAlong(ws: Workspace, k: number): Difference {
  const step = RELATIVE_STEP / ws.largestWeight[k]!
  return { k, step, lower: shifted(ws, k, -step), upper: shifted(ws, k, step) }
}

/** The same memory at another point, with traces of its own. */
function shifted(ws: Workspace, k: number, step: number): Workspace {
  const own = () => new Float64Array(COMPONENT_COUNT)
  const theta = ws.theta.slice()
  theta[k]! += step
  return {
    ...ws,
    theta,
    ...{ trace: own(), traceSquares: own(), largestWeight: own(), meansTrace: own() },
  }
}

/** Place of the runs among the components. They come last: their step alone changes the weights of runs. */
const RUN = COMPONENTS.indexOf('run')

/** What one pilot adds to the traces; its block of C stays in the fastest memory from point to point. */
function addTraces(layout: Layout, { k, lower, upper }: Difference, p: number): void {
  const { pilotStart, sessionStart } = layout
  const cells = { from: sessionStart[pilotStart[p]!]!, to: sessionStart[pilotStart[p + 1]!]! }
  for (const point of [lower, upper]) {
    if (k === RUN) weighCells(layout, point, cells)
    else shrinkCells(point, cells)
    weighPilot(layout, point, { p, logDet: 0 })
    tracePilot(layout, point, p)
  }
}

/** tr V⁻¹G_j − tr C T_j with C held. */
function held({ trace, meansTrace }: Workspace, j: number): number {
  return trace[j]! - meansTrace[j]!
}
