import { type RowSpace, rowSpaceOf } from '../linalg/row-space.ts'
import { COMPONENT_COUNT } from './components.ts'
import {
  type ContrastResult,
  type DegreesOfFreedomMethod,
  quadraticForm,
  satterthwaite,
} from './contrasts.ts'
import {
  buildMeanDesign,
  type MeanColumn,
  type MeanDesign,
  type MeanRow,
} from './design/mean-design.ts'
import { fitNested } from './fit.ts'
import type { FitOptions, NestedFit } from './fit-result.ts'
import type { Layout } from './layout.ts'
import { sensitivityPass } from './model/sensitivity-pass.ts'
import { workspaceAt } from './model/session-blocks.ts'

export type { MeanColumn, MeanDesign, MeanRow } from './design/mean-design.ts'

/** A fit in which parts add up: the mean of a setup is the sum of what its parts bring. */
export interface AdditiveFit {
  readonly design: MeanDesign
  /** Setup means Z b and their covariance; contrasts of setups work as on any fit. */
  readonly fit: NestedFit
  /** b on the kept columns [unit of y], and its covariance, p × p. */
  readonly coefficients: Float64Array
  readonly coefficientCovariance: Float64Array
  /** T_j = X'V⁻¹G_jV⁻¹X for the four components, one K × K matrix after the other. */
  readonly sensitivity: Float64Array
}

/** A fit of parts could not be made, or a combination was asked of a column it does not hold. */
export class UnknownColumnError extends Error {
  override readonly name = 'UnknownColumnError'
}

/**
 * Fits the nested model with additive means by restricted maximum likelihood.
 *
 *     μ = Z b:  intercept + one effect per level of each factor + slope × covariate
 *
 * Which variance components can be told apart is judged as for separate setup means, the more cautious
 * rule.
 *
 * @param layout the runs
 * @param setups what each setup is made of, in the order of layout.setupIds
 * @param options as for fitNested
 * @returns the fit; coefficients are NaN where it is singular
 * @source R. Christensen, Plane Answers to Complex Questions, 4th ed., 2011, ch. 2 (linear restrictions,
 *   from memory); restricted likelihood as in fitNested
 */
export function fitAdditive(
  layout: Layout,
  setups: readonly MeanRow[],
  options: Partial<FitOptions> = {},
): AdditiveFit {
  const design = buildMeanDesign(setups)
  const structured = { ...withCommonAnchor(layout), means: design }
  const fit = fitNested(structured, options)
  const ws = fit.standardErrorsKnown ? workspaceAt(structured, fit.theta) : null
  if (ws !== null) sensitivityPass(structured, ws)
  const p = design.kept.length
  const unknown = (length: number) => new Float64Array(length).fill(Number.NaN)
  const coefficients = ws?.coefficients.slice() ?? unknown(p)
  coefficients[0]! += structured.anchor[0] ?? 0
  return {
    design,
    fit,
    coefficients,
    coefficientCovariance: ws?.coefficientCovariance.slice() ?? unknown(p * p),
    sensitivity: ws?.sensitivity ?? unknown(COMPONENT_COUNT * layout.setupCount ** 2),
  }
}

/** One anchor for all setups: a mean of each would not be a sum of parts. */
function withCommonAnchor(layout: Layout): Layout {
  const { anchor, deviation, cellStart, cellSetup, cellCount } = layout
  const common = anchor.reduce((sum, value) => sum + value / anchor.length, 0)
  const moved = deviation.slice()
  for (let c = 0; c < cellCount; c++) {
    const shift = anchor[cellSetup[c]!]! - common
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) moved[i]! += shift
  }
  return { ...layout, anchor: anchor.map(() => common), deviation: moved }
}

/** Weight of one column. */
export interface ColumnWeight {
  readonly column: MeanColumn
  readonly weight: number
}

/**
 * Estimate of a combination of coefficients with Satterthwaite's degrees of freedom. Baseline levels
 * have no column; a combination that names one leaves it out.
 *
 *     l'b,   v = l'C_b l,   u = Z C_b l,   g_j = u' T_j u
 *
 * @param additive result of fitAdditive
 * @param weights finite weights of columns [1]
 * @param options method as for contrast
 * @returns estimate and standard error [unit of y], degrees of freedom in [1, 1e9]
 * @throws {UnknownColumnError} if the fit does not hold a column, or left it out as dependent
 * @source as for contrast
 */
export function coefficientContrast(
  additive: AdditiveFit,
  weights: readonly ColumnWeight[],
  options: { readonly method?: DegreesOfFreedomMethod } = {},
): ContrastResult {
  const { design, fit, coefficients, coefficientCovariance: C } = additive
  const p = coefficients.length
  const K = fit.setups.length
  const l = new Float64Array(p)
  for (const { column, weight } of weights) l[placeOf(design, column)]! += weight
  const solved = new Float64Array(p) // C_b l
  for (let j = 0; j < p; j++) {
    for (let i = 0; i < p; i++) solved[i]! += C[i + j * p]! * l[j]!
  }
  const dot = (a: Float64Array) => a.reduce((sum, x, j) => sum + x * l[j]!, 0)
  const estimate = dot(coefficients)
  if (!fit.standardErrorsKnown) return { estimate, standardError: Infinity, degreesOfFreedom: 1 }
  const onSetups = Float64Array.from(design.keptRows, (row) =>
    row.reduce((sum, { column, value }) => sum + value * solved[column]!, 0),
  )
  const gradient = Float64Array.from({ length: COMPONENT_COUNT }, (_, j) =>
    quadraticForm(additive.sensitivity.subarray(j * K * K, (j + 1) * K * K), onSetups),
  )
  const variance = dot(solved)
  const inverse = options.method === 'observed' ? fit.inverseObserved : fit.inverseExpected
  return {
    estimate,
    standardError: Math.sqrt(Math.max(0, variance)),
    degreesOfFreedom: satterthwaite(variance, gradient, inverse),
  }
}

function placeOf({ columns, kept }: MeanDesign, wanted: MeanColumn): number {
  const place = kept.findIndex((column) => sameColumn(columns[column]!, wanted))
  if (place < 0) throw new UnknownColumnError(`no coefficient of ${JSON.stringify(wanted)}`)
  return place
}

function sameColumn(a: MeanColumn, b: MeanColumn): boolean {
  if (a.kind === 'level') {
    return b.kind === 'level' && a.factor === b.factor && a.level === b.level
  }
  if (a.kind === 'covariate') return b.kind === 'covariate' && a.covariate === b.covariate
  return b.kind === 'intercept'
}

/**
 * What differences within sessions say about parts: the row space of Z' Lap, where Lap links setups
 * flown in the same session. Setups of one group are linked, so differences to its first setup span it.
 *
 * @param design the columns
 * @param groupOf group of each setup, in the order of the design; null: the setup says nothing
 * @returns the row space over all columns of the design
 * @source estimable functions: S. R. Searle, Linear Models, 1971, ch. 5 (from memory); reduction to groups
 *   derived here: the Laplacian of a connected graph spans all vectors that sum to zero on it
 */
export function withinSessionRowSpace(
  design: MeanDesign,
  groupOf: readonly (number | null)[],
): RowSpace {
  const n = design.columns.length
  const first = new Map<number, number>()
  const rows: Float64Array[] = []
  for (const [setup, group] of groupOf.entries()) {
    if (group === null) continue
    const reference = first.get(group)
    if (reference === undefined) first.set(group, setup)
    else rows.push(columnDifference(design, setup, reference))
  }
  return rowSpaceOf(rows, n)
}

/**
 * z_a − z_b over all columns of a design.
 *
 * @param design the columns
 * @param a index of one setup
 * @param b index of the other
 * @returns vector over the columns
 * @source derived
 */
export function columnDifference(design: MeanDesign, a: number, b: number): Float64Array {
  const difference = new Float64Array(design.columns.length)
  for (const { column, value } of design.rows[a]!) difference[column]! += value
  for (const { column, value } of design.rows[b]!) difference[column]! -= value
  return difference
}

/**
 * Level a less level b of one factor over all columns of a design; a baseline has no column.
 *
 * @param design the columns
 * @param factor name of the factor
 * @param levels a and b
 * @returns vector over the columns
 * @source derived
 */
export function levelDifference(
  design: MeanDesign,
  factor: string,
  levels: { readonly a: string; readonly b: string },
): Float64Array {
  return Float64Array.from(design.columns, (column) => {
    if (column.kind !== 'level' || column.factor !== factor) return 0
    return (column.level === levels.a ? 1 : 0) - (column.level === levels.b ? 1 : 0)
  })
}
