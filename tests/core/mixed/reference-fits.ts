import { readFileSync } from 'node:fs'
import { COMPONENTS, type Component } from '../../../src/core/mixed/components.ts'
import { buildLayout, type Layout, type Observation } from '../../../src/core/mixed/layout.ts'

/** A difference of two setups, or one mean if `b` is missing, as R reports it. */
export interface ReferenceContrast {
  readonly a: string
  readonly b?: string
  readonly est: number
  readonly se: number
  readonly df: number
}

/** One file of tests/reference/inference in the terms of the model. */
export interface ReferenceFit {
  readonly name: string
  readonly layout: Layout
  readonly logLikelihood: number
  /** Components of the model R fitted; the others are fixed at zero. */
  readonly theta: Readonly<Partial<Record<Component, number>>>
  readonly fixed: Readonly<Partial<Record<Component, number>>>
  readonly setups: readonly string[]
  readonly beta: readonly number[]
  readonly se: readonly number[]
  readonly contrasts: readonly ReferenceContrast[]
  /** Criterion, score and observed information at theta, computed by dense algebra in R. */
  readonly dense: DenseReference | null
}

interface DenseReference {
  readonly logLikelihood: number
  readonly score: readonly number[]
  readonly information: readonly (readonly number[])[]
}

interface ReferenceFile {
  readonly data: readonly (Omit<Observation, 'pilot'> & { readonly pilot: string | number })[]
  readonly logLik_lme4?: number
  readonly logLik_plain?: number
  readonly varcomp?: Readonly<Record<string, number>>
  readonly map?: Readonly<Partial<Record<Component, string>>>
  readonly theta?: readonly number[]
  readonly levels: string | readonly string[]
  readonly beta: number | readonly number[]
  readonly se: number | readonly number[]
  readonly contrasts?: readonly ReferenceContrast[]
  readonly intercept_df?: number
  readonly dense_check?: number
  readonly dense_score?: readonly number[]
  readonly info_observed?: readonly (readonly number[])[]
}

/** Parses a file of tests/reference/inference. */
export function readReference<T>(name: string): T {
  const url = new URL(`../../reference/inference/${name}.json`, import.meta.url)
  return JSON.parse(readFileSync(url, 'utf8')) as T
}

/** Reads one reference fit. */
export function referenceFit(name: string): ReferenceFit {
  const file = readReference<ReferenceFile>(name)
  const theta = thetaOf(file)
  const setups = list(file.levels)
  const beta = list(file.beta)
  const se = list(file.se)
  return {
    name,
    layout: buildLayout(file.data.map((row) => ({ ...row, pilot: String(row.pilot) }))),
    logLikelihood: file.logLik_lme4 ?? file.logLik_plain!,
    theta,
    fixed: Object.fromEntries(COMPONENTS.filter((c) => theta[c] === undefined).map((c) => [c, 0])),
    setups,
    beta,
    se,
    contrasts: file.contrasts ?? [
      { a: setups[0]!, est: beta[0]!, se: se[0]!, df: file.intercept_df! },
    ],
    dense:
      file.dense_check === undefined
        ? null
        : {
            logLikelihood: file.dense_check,
            score: file.dense_score!,
            information: file.info_observed!,
          },
  }
}

function thetaOf({ map, varcomp, theta }: ReferenceFile): Partial<Record<Component, number>> {
  if (map !== undefined) {
    return Object.fromEntries(Object.entries(map).map(([c, term]) => [c, varcomp![term!]!]))
  }
  const order: Component[] = theta!.length === 2 ? ['session', 'run'] : [...COMPONENTS]
  return Object.fromEntries(order.map((component, j) => [component, theta![j]!]))
}

function list<T>(value: T | readonly T[]): readonly T[] {
  return Array.isArray(value) ? value : [value as T]
}

/** All reference fits of the nested model. */
export const REFERENCE_FITS = [
  'sim_lme4_u0',
  'machines',
  'machines_unbalanced',
  'penicillin',
  'pastes',
  'sim_boundary_u0',
  'sim_metafor_known_u',
  'konstantopoulos2011',
  'senn2013_arm',
  'hasselblad1998_arm',
] as const
