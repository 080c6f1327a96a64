import type { PerComponent } from '../components.ts'
import type { Layout } from '../layout.ts'

/** What stands at one cell of a column that is constant on cells. */
export interface ColumnEntry {
  readonly column: number
  readonly value: number
}

/**
 * Cells with their means and weights, every session's own level taken out: the model with the session
 * as a fixed effect, in which only differences within sessions count.
 */
export interface WithinSessions {
  readonly layout: Layout
  /** a = 1 / (τc² + 1/Σw) per cell. */
  readonly weight: Float64Array
  /** Weighted mean of y − anchor per cell, less that of its session. */
  readonly mean: Float64Array
}

/**
 * Weighs cells and centres their means within sessions.
 *
 *     w = 1 / (s² + u²),  W = Σw,  a = W / (1 + τc²W),  ȳ_c − Σ a ȳ / Σ a
 *
 * @param layout the runs
 * @param theta variances; only cell and run count [unit of y squared]; run may be 0 where all u > 0
 * @returns the cells
 * @source block inverse as in weighCells, in the limit of a large session variance
 */
export function withinSessions(
  layout: Layout,
  theta: Pick<PerComponent<number>, 'cell' | 'run'>,
): WithinSessions {
  const { cellCount, cellStart, sessionCount, sessionStart, deviation, knownRunVariance } = layout
  const weight = new Float64Array(cellCount)
  const mean = new Float64Array(cellCount)
  for (let c = 0; c < cellCount; c++) {
    let W = 0
    let sum = 0
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) {
      const w = 1 / (theta.run + knownRunVariance[i]!)
      W += w
      sum += w * deviation[i]!
    }
    weight[c] = W / (1 + theta.cell * W)
    // y − anchor differs from y by a constant of the setup, which every model here holds.
    mean[c] = sum / W
  }
  for (let s = 0; s < sessionCount; s++) {
    let A = 0
    let g = 0
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) {
      A += weight[c]!
      g += weight[c]! * mean[c]!
    }
    for (let c = sessionStart[s]!; c < sessionStart[s + 1]!; c++) mean[c]! -= g / A
  }
  return { layout, weight, mean }
}

/**
 * Cross products of columns that are constant on cells, and with y, within sessions.
 *
 *     [ F'WF  F'Wy ]      W = ⊕_s ( diag(a) − a a' / Σ a )
 *     [ y'WF  y'Wy ]
 *
 * @param within cells of {@link withinSessions}
 * @param columnCount number of columns n
 * @param entriesOf the entries of a cell that are not zero
 * @returns (n + 1) × (n + 1) matrix, column-major, symmetric; y is the last row
 * @source derived: least squares with session dummies swept out
 */
export function crossProducts(
  { layout, weight, mean }: WithinSessions,
  columnCount: number,
  entriesOf: (cell: number) => readonly ColumnEntry[],
): Float64Array {
  const n = columnCount + 1
  const products = new Float64Array(n * n)
  const y = { column: columnCount, value: 0 }
  for (let s = 0; s < layout.sessionCount; s++) {
    const first = layout.sessionStart[s]!
    const end = layout.sessionStart[s + 1]!
    const rows = Array.from({ length: end - first }, (_, k) => [
      ...entriesOf(first + k),
      { ...y, value: mean[first + k]! },
    ])
    let A = 0
    for (let c = first; c < end; c++) A += weight[c]!
    for (let c = first; c < end; c++) {
      for (let r = first; r < end; r++) {
        const w = (c === r ? weight[c]! : 0) - (weight[c]! * weight[r]!) / A
        for (const a of rows[c - first]!) {
          for (const b of rows[r - first]!) {
            products[a.column + b.column * n]! += w * a.value * b.value
          }
        }
      }
    }
  }
  return products
}
