import { semidefiniteCholeskyInPlace } from '../../linalg/cholesky.ts'

/** What a setup is made of: one level per factor, and numbers that act in proportion. */
export interface MeanRow {
  readonly factors: Readonly<Record<string, string>>
  readonly covariates?: Readonly<Record<string, number>>
}

/** One column of Z; the first level of each factor has none, it is the baseline. */
export type MeanColumn =
  | { readonly kind: 'intercept' }
  | { readonly kind: 'level'; readonly factor: string; readonly level: string }
  | { readonly kind: 'covariate'; readonly covariate: string }

/** A column and what stands there for one setup. */
export interface MeanEntry {
  readonly column: number
  readonly value: number
}

/** Structure of the setup means, μ = Z b. */
export interface MeanDesign {
  /** All columns of Z, dependent ones included. */
  readonly columns: readonly MeanColumn[]
  /** Indices of the columns that are estimated, linearly independent, ascending. */
  readonly kept: readonly number[]
  /** Entries of each setup on all columns. */
  readonly rows: readonly (readonly MeanEntry[])[]
  /** Entries of each setup on the kept columns, numbered 0 … p − 1. */
  readonly keptRows: readonly (readonly MeanEntry[])[]
}

/**
 * Columns of an additive model: intercept, factors in the order of the first row with their levels
 * sorted, then covariates. Columns that follow from earlier ones are left out of the estimate.
 *
 * @param setups one entry per setup, in the order of the layout; all name the same factors
 * @returns the design
 * @source common practice (treatment coding)
 */
export function buildMeanDesign(setups: readonly MeanRow[]): MeanDesign {
  const columns = columnsOf(setups)
  const rows = setups.map((setup) => entriesOf(setup, columns))
  const kept = independentColumns(rows, columns.length)
  const place = new Map(kept.map((column, j) => [column, j]))
  const keptRows = rows.map((row) =>
    row.flatMap(({ column, value }) => {
      const j = place.get(column)
      return j === undefined ? [] : [{ column: j, value }]
    }),
  )
  return { columns, kept, rows, keptRows }
}

function columnsOf(setups: readonly MeanRow[]): MeanColumn[] {
  const factors = Object.keys(setups[0]?.factors ?? {})
  const covariates = Object.keys(setups[0]?.covariates ?? {})
  const levels = factors.flatMap((factor) => {
    const sorted = [...new Set(setups.map((setup) => setup.factors[factor]!))].sort()
    return sorted.slice(1).map((level) => ({ kind: 'level', factor, level }) as const)
  })
  return [
    { kind: 'intercept' },
    ...levels,
    ...covariates.map((covariate) => ({ kind: 'covariate', covariate }) as const),
  ]
}

function entriesOf(setup: MeanRow, columns: readonly MeanColumn[]): MeanEntry[] {
  return columns.flatMap((column, index) => {
    const value = valueIn(setup, column)
    return value === 0 ? [] : [{ column: index, value }]
  })
}

function valueIn({ factors, covariates }: MeanRow, column: MeanColumn): number {
  if (column.kind === 'intercept') return 1
  if (column.kind === 'level') return factors[column.factor] === column.level ? 1 : 0
  return covariates?.[column.covariate] ?? 0
}

/** Columns that are no combination of those before them, by the Cholesky factor of Z'Z. */
function independentColumns(rows: readonly (readonly MeanEntry[])[], n: number): number[] {
  const gram = new Float64Array(n * n)
  for (const row of rows) {
    for (const a of row) {
      for (const b of row) gram[a.column + b.column * n]! += a.value * b.value
    }
  }
  semidefiniteCholeskyInPlace(gram, n)
  return Array.from({ length: n }, (_, j) => j).filter((j) => gram[j + j * n]! > 0)
}
