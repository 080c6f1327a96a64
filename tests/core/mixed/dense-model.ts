import { COMPONENTS, type PerComponent } from '../../../src/core/mixed/components.ts'
import type { Observation } from '../../../src/core/mixed/layout.ts'

type Matrix = number[][]

/** The nested model at given variances by plain matrix algebra on V, for small data only. */
export interface DenseEvaluation {
  readonly setups: readonly string[]
  readonly logLikelihood: number
  readonly beta: readonly number[]
  readonly covariance: Matrix
  readonly score: readonly number[]
  readonly averageInformation: Matrix
  /** ½ tr(P G_j P G_k). */
  readonly expectedInformation: Matrix
  /** T_j = X'V⁻¹G_jV⁻¹X. */
  readonly sensitivity: readonly Matrix[]
}

/**
 * Evaluates the model from its definition, without any of the closed forms under test: V is
 * written out, inverted by Gauss-Jordan elimination, and all quantities are matrix products.
 */
export function evaluateDensely(
  rows: readonly Observation[],
  theta: PerComponent<number>,
  sessionVariance: ReadonlyMap<string, number> = new Map(),
): DenseEvaluation {
  const setups = [...new Set(rows.map((row) => row.setup))].sort()
  const groups = {
    pilot: sameAs(rows, (row) => row.pilot),
    session: sameAs(rows, (row) => row.session),
    cell: sameAs(rows, (row) => `${row.session} | ${row.setup}`),
    run: rows.map((_, i) => rows.map((_, j) => (i === j ? 1 : 0))),
  }
  const V = rows.map((row, i) =>
    rows.map((_, j) => {
      const known = groups.session[i]![j]! * (sessionVariance.get(row.session) ?? 0)
      const modelled = COMPONENTS.reduce((sum, c) => sum + theta[c] * groups[c][i]![j]!, 0)
      return modelled + known + (i === j ? row.u ** 2 : 0)
    }),
  )
  const X = rows.map((row) => setups.map((setup) => (setup === row.setup ? 1 : 0)))
  const y = rows.map((row) => [row.y])
  const { inverse: W, logDeterminant: logV } = invert(V)
  const M = product(transpose(X), product(W, X))
  const { inverse: C, logDeterminant: logM } = invert(M)
  const WX = product(W, X)
  const beta = product(C, product(transpose(WX), y))
  const P = subtract(W, product(WX, product(C, transpose(WX))))
  const e = product(P, y)
  const squares = product(transpose(y), e)[0]![0]!
  const f = COMPONENTS.map((c) => product(groups[c], e))
  const PG = COMPONENTS.map((c) => product(P, groups[c]))
  const table = (entry: (j: number, k: number) => number) =>
    COMPONENTS.map((_, j) => COMPONENTS.map((_, k) => entry(j, k)))
  return {
    setups,
    logLikelihood:
      -((rows.length - setups.length) * Math.log(2 * Math.PI) + logV + logM + squares) / 2,
    beta: beta.map((row) => row[0]!),
    covariance: C,
    score: f.map((fj, j) => (product(transpose(e), fj)[0]![0]! - trace(PG[j]!)) / 2),
    averageInformation: table((j, k) => product(transpose(f[j]!), product(P, f[k]!))[0]![0]! / 2),
    expectedInformation: table((j, k) => trace(product(PG[j]!, PG[k]!)) / 2),
    sensitivity: COMPONENTS.map((c) => product(transpose(WX), product(groups[c], WX))),
  }
}

/** P = V⁻¹ − V⁻¹X(X'V⁻¹X)⁻¹X'V⁻¹ from V and the columns of X, and Py. */
export function projectDensely(
  V: Matrix,
  X: Matrix,
  y: readonly number[],
): { P: Matrix; Py: readonly number[] } {
  const W = invert(V).inverse
  const WX = product(W, X)
  const C = invert(product(transpose(X), WX)).inverse
  const P = subtract(W, product(WX, product(C, transpose(WX))))
  return {
    P,
    Py: product(
      P,
      y.map((value) => [value]),
    ).map((row) => row[0]!),
  }
}

/** V of the nested model at given variances. */
export function covarianceOfRuns(
  rows: readonly Observation[],
  theta: PerComponent<number>,
  sessionVariance: ReadonlyMap<string, number> = new Map(),
): Matrix {
  const same = (a: Observation, b: Observation) => ({
    pilot: a.pilot === b.pilot,
    session: a.session === b.session,
    cell: a.session === b.session && a.setup === b.setup,
    run: a === b,
  })
  return rows.map((a) =>
    rows.map((b) => {
      const is = same(a, b)
      const modelled = COMPONENTS.reduce((sum, c) => sum + (is[c] ? theta[c] : 0), 0)
      const shared = is.session ? (sessionVariance.get(a.session) ?? 0) : 0
      return modelled + shared + (is.run ? a.u ** 2 : 0)
    }),
  )
}

function sameAs(rows: readonly Observation[], key: (row: Observation) => string): Matrix {
  return rows.map((a) => rows.map((b) => (key(a) === key(b) ? 1 : 0)))
}

function transpose(a: Matrix): Matrix {
  return a[0]!.map((_, j) => a.map((row) => row[j]!))
}

function product(a: Matrix, b: Matrix): Matrix {
  return a.map((row) => b[0]!.map((_, j) => row.reduce((sum, x, k) => sum + x * b[k]![j]!, 0)))
}

function subtract(a: Matrix, b: Matrix): Matrix {
  return a.map((row, i) => row.map((x, j) => x - b[i]![j]!))
}

function trace(a: Matrix): number {
  return a.reduce((sum, row, i) => sum + row[i]!, 0)
}

/** Gauss-Jordan elimination with row exchanges. */
export function invert(a: Matrix): { inverse: Matrix; logDeterminant: number } {
  const n = a.length
  const rows = a.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))])
  let logDeterminant = 0
  for (let column = 0; column < n; column++) {
    let best = column
    for (let i = column; i < n; i++) {
      if (Math.abs(rows[i]![column]!) > Math.abs(rows[best]![column]!)) best = i
    }
    const pivotRow = rows[best]!
    rows[best] = rows[column]!
    const pivot = pivotRow[column]!
    logDeterminant += Math.log(Math.abs(pivot))
    rows[column] = pivotRow.map((x) => x / pivot)
    for (let i = 0; i < n; i++) {
      if (i === column) continue
      const factor = rows[i]![column]!
      rows[i] = rows[i]!.map((x, j) => x - factor * rows[column]![j]!)
    }
  }
  return { inverse: rows.map((row) => row.slice(n)), logDeterminant }
}
