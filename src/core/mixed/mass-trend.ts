import { chiSquareUpperTail } from '../distributions/chi-square.ts'
import { holmAdjusted } from '../distributions/holm.ts'
import { semidefiniteCholeskyInPlace } from '../linalg/cholesky.ts'
import type { PerComponent } from './components.ts'
import type { Layout } from './layout.ts'
import { type ColumnEntry, crossProducts, withinSessions } from './model/within-sessions.ts'

/** How one setup's advantage over the others changes with mass. */
export interface SetupTrend {
  readonly setup: string
  /** Change of its y relative to those it was flown with, per unit of the covariate [unit of y]. */
  readonly slope: number
  readonly standardError: number
  /** Two-sided, normal, adjusted for the number of setups (Holm) [1]. */
  readonly pValue: number
}

/** Test whether advantages depend on a covariate of the session. */
export interface CovariateTest {
  /** Wald statistic of all setups' slopes being equal [1]. */
  readonly statistic: number
  readonly degreesOfFreedom: number
  readonly pValue: number
  readonly setups: readonly SetupTrend[]
}

/**
 * Whether the differences of setups depend on a covariate such as the logarithm of the mass, judged
 * within sessions: in a light pilot's sessions against a heavy one's.
 *
 *     ȳ_c = session + μ_k + γ_k x_c,   Q = γ' (cov γ)⁻ γ for equal γ_k, by Cholesky with the setups first
 *
 * @param layout the runs
 * @param theta variances of cells and runs [unit of y squared]
 * @param x covariate per run, in the order of the observations; runs with NaN take the mean of the rest
 * @returns the test; null where x never differs or no slope can be told from the others
 * @source interaction of treatment and covariate (common practice); Wald test, A. Wald, Trans. Amer.
 *   Math. Soc. 54, 1943, 426-482 (from memory)
 */
export function testCovariate(
  layout: Layout,
  theta: Pick<PerComponent<number>, 'cell' | 'run'>,
  x: ArrayLike<number>,
): CovariateTest | null {
  const K = layout.setupCount
  const ofCell = cellMeans(layout, x)
  const within = withinSessions(layout, theta)
  const columns = (c: number): ColumnEntry[] => {
    const setup = layout.cellSetup[c]!
    // What all setups share is one column of its own, ahead of the setups' own slopes.
    return [
      { column: setup, value: 1 },
      { column: K, value: ofCell[c]! },
      { column: K + 1 + setup, value: ofCell[c]! },
    ]
  }
  const n = 2 * K + 2
  const products = crossProducts(within, n - 1, columns)
  const setups = slopes(layout, products)
  semidefiniteCholeskyInPlace(products, n)
  let statistic = 0
  let degreesOfFreedom = 0
  for (let j = K + 1; j < n - 1; j++) {
    if (!(products[j + j * n]! > 0)) continue
    degreesOfFreedom++
    statistic += products[n - 1 + j * n]! ** 2
  }
  if (degreesOfFreedom === 0) return null
  const pValue = chiSquareUpperTail(statistic, degreesOfFreedom)
  return { statistic, degreesOfFreedom, pValue, setups }
}

/** Mean of x per cell less the mean over all cells; cells without any x stand at that mean, zero. */
function cellMeans({ cellCount, cellStart, order }: Layout, x: ArrayLike<number>): Float64Array {
  const means = new Float64Array(cellCount)
  let sum = 0
  let known = 0
  for (let c = 0; c < cellCount; c++) {
    let total = 0
    let count = 0
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) {
      const value = x[order[i]!]!
      if (Number.isNaN(value)) continue
      total += value
      count++
    }
    means[c] = total / count // NaN without any
    if (count === 0) continue
    sum += means[c]!
    known++
  }
  return means.map((mean) => (Number.isNaN(mean) ? 0 : mean - sum / known))
}

/** Share of its size that a slope's column must keep once setups and the common slope are swept out. */
const LEAST_SHARE = 1e-9

/** Each setup's slope against the common slope of the others, one at a time. */
function slopes(layout: Layout, products: Float64Array): SetupTrend[] {
  const K = layout.setupCount
  const n = 2 * K + 2
  const m = K + 1 // setups and the common slope come first
  const first = new Float64Array((m + 1) * (m + 1))
  const rows = [...Array.from({ length: m }, (_, i) => i), n - 1]
  for (const [j, from] of rows.entries()) {
    for (const [i, row] of rows.entries()) first[i + j * (m + 1)] = products[row + from * n]!
  }
  semidefiniteCholeskyInPlace(first, m + 1)
  const found = layout.setupIds.flatMap((setup, k) => {
    const column = m + k
    const left = sweep(first, m, {
      column: products.subarray(column * n, column * n + m),
      size: products[column * (n + 1)]!,
      withY: products[n - 1 + column * n]!,
    })
    if (left === null) return []
    return [{ setup, slope: left.withY / left.size, standardError: 1 / Math.sqrt(left.size) }]
  })
  const pValues = holmAdjusted(
    found.map(({ slope, standardError }) => chiSquareUpperTail((slope / standardError) ** 2, 1)),
  )
  return found.map((trend, i) => ({ ...trend, pValue: pValues[i]! }))
}

/** A column once the first m are swept out of it. */
function sweep(
  factor: Float64Array,
  m: number,
  { column, size, withY }: { column: Float64Array; size: number; withY: number },
): { readonly size: number; readonly withY: number } | null {
  const rest = column.slice()
  const n = m + 1
  let left = size
  let product = withY
  for (let j = 0; j < m; j++) {
    const pivot = factor[j + j * n]!
    const z = pivot > 0 ? rest[j]! / pivot : 0
    for (let i = j + 1; i < m; i++) rest[i]! -= factor[i + j * n]! * z
    left -= z * z
    product -= z * factor[m + j * n]!
  }
  return left > LEAST_SHARE * size ? { size: left, withY: product } : null
}
