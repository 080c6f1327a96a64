import { choleskyInPlace } from '../linalg/cholesky.ts'
import { multiply, sandwich, timesTransposed } from '../linalg/symmetric.ts'
import { invertFromFactor } from '../linalg/triangular.ts'
import { componentArray } from './components.ts'
import { createWorkspace } from './evaluate.ts'
import type { NestedFit } from './fit-result.ts'
import type { Layout } from './layout.ts'
import { accumulatePrecision, weighCells, weighGroups } from './model/precision-pass.ts'
import { cellsOfSlots, type SlotCells } from './model/slot-cells.ts'
import type { Workspace } from './model/workspace.ts'

/**
 * Who carries one and the same draw of a cause: everybody, all runs with one powerplant, all runs of
 * one setup, or all runs of one pilot.
 */
export type SystematicReach = 'everyone' | 'powerplant' | 'setup' | 'pilot'

/** One cause and what a standard deviation of it does to every run. */
export interface SystematicCause {
  readonly cause: string
  readonly reach: SystematicReach
  /** Signed change of y per run [unit of y], in the order of the observations; 0: not touched. */
  readonly effect: ArrayLike<number>
}

/** What a cause adds to the covariance of the setup means. */
export interface SystematicTerm {
  readonly cause: string
  readonly reach: SystematicReach
  /** K × K, symmetric [unit of y squared]. */
  readonly covariance: Float64Array
}

/**
 * What errors that reach beyond a session do to the estimates: each cause is sent through the
 * estimator itself, so it shrinks with more flights exactly as far as it really averages out.
 *
 *     β̂(e) = C X'V⁻¹ e
 *     everyone:           S = β̂(e) β̂(e)'
 *     powerplant, setup:  S = Σ_g β̂(e_g) β̂(e_g)',  e_g = e on the runs of powerplant or setup g
 *     pilot:              S = Σ_p β̂(e_p) β̂(e_p)',  e_p = e on the runs of pilot p less the session's mean
 *
 * The mean effect of a pilot on a session is left to the variances of pilots and sessions, which
 * hold it already; what is added is that the same wing error weighs more on one setup than on another.
 *
 * @param layout the runs the fit was made from
 * @param fit result of fitNested on that layout
 * @param causes effects per run [unit of y]
 * @param powerplantOf powerplant of a setup by its id; absent: each setup counts as having its own
 * @returns one term per cause; none where the fit knows no standard errors
 * @source JCGM 100:2008 (GUM), 5.2.2 (common causes) applied to the generalised least squares estimator
 */
export function systematicTerms(
  layout: Layout,
  fit: NestedFit,
  causes: readonly SystematicCause[],
  powerplantOf: (setupId: string) => string = (setupId) => setupId,
): SystematicTerm[] {
  if (!fit.standardErrorsKnown) return []
  const ws = createWorkspace(layout)
  ws.theta.set(componentArray(fit.theta))
  weighCells(layout, ws)
  weighGroups(layout, ws)
  accumulatePrecision(layout, ws)
  choleskyInPlace(ws.factor, layout.setupCount)
  invertFromFactor(ws.factor, layout.setupCount, ws.covariance)
  const scratch = createScratch(layout, powerplantOf)
  return causes.map(({ cause, reach, effect }) => {
    for (let i = 0; i < layout.runCount; i++) scratch.effect[i] = effect[layout.order[i]!]!
    averageOverCells(layout, ws, scratch)
    const covariance = SPREAD[reach](layout, ws, scratch)
    return { cause, reach, covariance }
  })
}

interface Scratch {
  /** Effect per run, in the order of the layout. */
  readonly effect: Float64Array
  /** Weighted mean effect per cell. */
  readonly cell: Float64Array
  /** X'V⁻¹e. */
  readonly sum: Float64Array
  /** Number of the powerplant of each setup, below K; and of the setup itself. */
  readonly powerplant: Int32Array
  readonly setup: Int32Array
  readonly slotCells: SlotCells
}

function createScratch(layout: Layout, powerplantOf: (setupId: string) => string): Scratch {
  const { runCount, cellCount, setupCount, setupIds } = layout
  const f = (length: number) => new Float64Array(length)
  const numbers = new Map<string, number>()
  const powerplant = Int32Array.from(setupIds, (id) => {
    const name = powerplantOf(id)
    const number = numbers.get(name) ?? numbers.size
    numbers.set(name, number)
    return number
  })
  return {
    ...{ effect: f(runCount), cell: f(cellCount), sum: f(setupCount) },
    powerplant,
    setup: Int32Array.from(setupIds.keys()),
    slotCells: cellsOfSlots(layout),
  }
}

function averageOverCells(
  { cellStart, cellCount }: Layout,
  ws: Workspace,
  { effect, cell }: Scratch,
): void {
  for (let c = 0; c < cellCount; c++) {
    let sum = 0
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) sum += ws.runWeight[i]! * effect[i]!
    cell[c] = sum / ws.cellWeight[c]!
  }
}

type Spread = (layout: Layout, ws: Workspace, scratch: Scratch) => Float64Array

/** Σ β̂(e) β̂(e)' over the independent draws of the cause, K × K. */
const SPREAD: Readonly<Record<SystematicReach, Spread>> = {
  everyone(layout, ws, { cell, sum }) {
    const K = layout.setupCount
    sum.fill(0)
    for (let p = 0; p < layout.pilotCount; p++) addRightHandSide(layout, ws, p, cell, sum)
    const solved = new Float64Array(K)
    for (let j = 0; j < K; j++) {
      for (let i = 0; i < K; i++) solved[i]! += ws.covariance[i + j * K]! * sum[j]!
    }
    return outerProduct(solved)
  },
  powerplant: (layout, ws, scratch) => overGroups(layout, ws, scratch, scratch.powerplant),
  setup: (layout, ws, scratch) => overGroups(layout, ws, scratch, scratch.setup),
  pilot(layout, ws, { cell, sum }) {
    const K = layout.setupCount
    const total = new Float64Array(K * K)
    sum.fill(0) // another cause may have left its own
    removeSessionMeans(layout, ws, cell)
    const { pilotSetup, pilotSetupStart } = layout
    for (let p = 0; p < layout.pilotCount; p++) {
      addRightHandSide(layout, ws, p, cell, sum)
      for (let j = pilotSetupStart[p]!; j < pilotSetupStart[p + 1]!; j++) {
        const column = pilotSetup[j]! * K
        const own = sum[pilotSetup[j]!]!
        for (let i = pilotSetupStart[p]!; i < pilotSetupStart[p + 1]!; i++) {
          total[pilotSetup[i]! + column]! += sum[pilotSetup[i]!]! * own
        }
      }
      for (let j = pilotSetupStart[p]!; j < pilotSetupStart[p + 1]!; j++) sum[pilotSetup[j]!] = 0
    }
    return sandwich(ws.covariance, total, K)
  },
}

/** Σ_g β̂(e_g) β̂(e_g)' over groups of setups, numbered from 0, K × K. */
function overGroups(
  layout: Layout,
  ws: Workspace,
  { cell, slotCells }: Scratch,
  groupOf: Int32Array,
): Float64Array {
  const K = layout.setupCount
  const columns = new Float64Array(K * K) // column g: X'V⁻¹e_g
  for (let p = 0; p < layout.pilotCount; p++) {
    for (let slot = layout.pilotSetupStart[p]!; slot < layout.pilotSetupStart[p + 1]!; slot++) {
      const group = groupOf[layout.pilotSetup[slot]!]!
      addOneSetup(layout, ws, { p, slot, group, cell, columns, slotCells })
    }
  }
  return timesTransposed(multiply(ws.covariance, columns, K), K)
}

/**
 * What one setup adds to X'V⁻¹e_g for one pilot: a (x − τs² d a) e for each cell with the setup, less
 * κ H Z for the pilot.
 */
function addOneSetup(
  layout: Layout,
  ws: Workspace,
  at: {
    readonly p: number
    readonly slot: number
    readonly group: number
    readonly cell: Float64Array
    readonly columns: Float64Array
    readonly slotCells: SlotCells
  },
): void {
  const { sessionStart, cellSetup, pilotSetup, pilotSetupStart, knownSessionVariance } = layout
  const { p, slot, group, cell, columns } = at
  const { cells, cellStart, cellSession } = at.slotCells
  const setup = pilotSetup[slot]!
  const column = group * layout.setupCount
  let H = 0
  for (let n = cellStart[slot]!; n < cellStart[slot + 1]!; n++) {
    const c = cells[n]!
    const s = cellSession[c]!
    const d = ws.sessionShrink[s]!
    const pulled = ws.cellShrunk[c]! * cell[c]!
    const shift = (ws.theta[1]! + knownSessionVariance[s]!) * d * pulled
    H += d * pulled
    columns[column + setup]! += pulled
    for (let r = sessionStart[s]!; r < sessionStart[s + 1]!; r++) {
      columns[column + cellSetup[r]!]! -= ws.cellShrunk[r]! * shift
    }
  }
  const along = ws.pilotGain[p]! * H
  for (let i = pilotSetupStart[p]!; i < pilotSetupStart[p + 1]!; i++) {
    columns[column + pilotSetup[i]!]! -= along * ws.pilotDesign[i]!
  }
}

/** X'V⁻¹e of one pilot: a (ē − τs² d g − κ d H) for each cell, as for y in the precision pass. */
function addRightHandSide(
  layout: Layout,
  ws: Workspace,
  p: number,
  cell: Float64Array,
  sum: Float64Array,
): void {
  const { pilotStart, sessionStart, cellSetup, knownSessionVariance } = layout
  const a = ws.cellShrunk
  let H = 0
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      H += ws.sessionShrink[s]! * a[c]! * cell[c]!
    }
  }
  for (let s = pilotStart[p]!; s < pilotStart[p + 1]!; s++) {
    let g = 0
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) g += a[c]! * cell[c]!
    const ts2 = ws.theta[1]! + knownSessionVariance[s]!
    const shift = ws.sessionShrink[s]! * (ts2 * g + ws.pilotGain[p]! * H)
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      sum[cellSetup[c]!]! += a[c]! * (cell[c]! - shift)
    }
  }
}

/** Takes from each cell the mean of its session, weighted as the estimator weighs cells. Mutates `cell`. */
function removeSessionMeans(
  { sessionStart, sessionCount }: Layout,
  ws: Workspace,
  cell: Float64Array,
): void {
  for (let s = 0; s < sessionCount; s++) {
    let weight = 0
    let sum = 0
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      weight += ws.cellShrunk[c]!
      sum += ws.cellShrunk[c]! * cell[c]!
    }
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) cell[c]! -= sum / weight
  }
}

function outerProduct(v: Float64Array): Float64Array {
  const n = v.length
  const product = new Float64Array(n * n)
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < n; i++) product[i + j * n] = v[i]! * v[j]!
  }
  return product
}
