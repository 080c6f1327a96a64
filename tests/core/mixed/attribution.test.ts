import { describe, expect, it } from 'vitest'

import {
  coefficientContrast,
  columnDifference,
  fitAdditive,
  levelDifference,
  type MeanColumn,
  type MeanRow,
  UnknownColumnError,
  withinSessionRowSpace,
} from '../../../src/core/mixed/attribution.ts'
import { contrast } from '../../../src/core/mixed/contrasts.ts'
import { buildMeanDesign } from '../../../src/core/mixed/design/mean-design.ts'
import { gatherEvidence } from '../../../src/core/mixed/evidence.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { simulateRuns } from './arbitrary-runs.ts'
import { readReference } from './reference-fits.ts'

interface Parts {
  readonly setup: string
  readonly engine: string
  readonly propeller: string
  readonly frame: string
  readonly diam?: number
}

type Row = Omit<Observation, 'pilot'> & { readonly pilot: string | number }

interface ComponentFit {
  readonly data: readonly Row[]
  readonly components: readonly Parts[]
  readonly logLik_lme4: number
  readonly varcomp: Readonly<Record<'cell' | 'session' | 'pilot' | 'Residual', number>>
  readonly coef: readonly { term: string; est: number; se: number; df: number }[]
}

interface Unconnected {
  readonly data: readonly Row[]
  readonly components: readonly Parts[]
  readonly rank_within_component: number
  readonly setup_pairs: readonly {
    a: string
    b: string
    setup_estimable: boolean
    estimable_through_components: boolean
  }[]
  readonly component_pairs: readonly { a: string; b: string; estimable: boolean }[]
}

const layoutOf = (data: readonly Row[]) =>
  buildLayout(data.map((row) => ({ ...row, pilot: String(row.pilot) })))

const rowsFor = (ids: readonly string[], components: readonly Parts[]): MeanRow[] =>
  ids.map((id) => {
    const { engine, propeller, frame, diam } = components.find(({ setup }) => setup === id)!
    return {
      factors: { engine, propeller, frame },
      ...(diam === undefined ? {} : { covariates: { diam } }),
    }
  })

const FACTORS = ['engine', 'propeller', 'frame']

/** The column that R calls by this name. */
function columnNamed(term: string): MeanColumn {
  const factor = FACTORS.find((name) => term.startsWith(name))
  if (factor !== undefined) return { kind: 'level', factor, level: term.slice(factor.length) }
  return term === '(Intercept)' ? { kind: 'intercept' } : { kind: 'covariate', covariate: term }
}

describe('fitAdditive on the component fit of lme4', () => {
  // Source: tests/reference/inference/component_lme4.json, lme4 1.1-31 and lmerTest 3.1-3. Tolerances as
  // its README states: log-likelihood 1e-6, variances 1e-4, estimates and errors 1e-5 se, df 1e-4.
  const reference = readReference<ComponentFit>('component_lme4')
  const layout = layoutOf(reference.data)
  const additive = fitAdditive(layout, rowsFor(layout.setupIds, reference.components))

  it('has its restricted likelihood and variance components', () => {
    const { fit } = additive
    expect(fit.converged).toBe(true)
    expect(Math.abs(fit.logLikelihood - reference.logLik_lme4)).toBeLessThan(1e-6)
    const { cell, session, pilot, Residual: run } = reference.varcomp
    for (const [component, expected] of Object.entries({ cell, session, pilot, run })) {
      const found = fit.theta[component as 'cell']
      expect(Math.abs(found / expected - 1)).toBeLessThan(1e-4)
    }
  })

  it.each(reference.coef)('has its coefficient of $term', ({ term, est, se, df }) => {
    const weights = [{ column: columnNamed(term), weight: 1 }]
    const found = coefficientContrast(additive, weights, { method: 'observed' })
    expect(Math.abs(found.estimate - est) / se).toBeLessThan(1e-5)
    expect(Math.abs(found.standardError / se - 1)).toBeLessThan(1e-5)
    expect(Math.abs(found.degreesOfFreedom / df - 1)).toBeLessThan(1e-4)
  })

  it('has no coefficient of a baseline', () => {
    const baseline = { kind: 'level', factor: 'engine', level: 'e1' } as const
    expect(() => coefficientContrast(additive, [{ column: baseline, weight: 1 }])).toThrow(
      UnknownColumnError,
    )
  })
})

describe('fitAdditive', () => {
  it('is the nested fit where every setup is a level of its own', () => {
    const layout = buildLayout(
      simulateRuns({
        seed: 3,
        pilots: 8,
        sessionsPerPilot: 3,
        setupsPerSession: 3,
        runsPerCell: 3,
        setups: 4,
        scatter: [0.03, 0.04, 0.02, 0.02],
        largestUncertainty: 0.02,
      }),
    )
    const toTheEnd = { tolerance: 1e-14 } // the two searches may stop on either side of the usual one
    const plain = fitNested(layout, toTheEnd)
    const { fit } = fitAdditive(
      layout,
      layout.setupIds.map((id) => ({ factors: { setup: id } })),
      toTheEnd,
    )
    expect(fit.logLikelihood).toBeCloseTo(plain.logLikelihood, 8)
    const difference = [
      { setup: 'setup 0', weight: 1 },
      { setup: 'setup 3', weight: -1 },
    ]
    const [a, b] = [contrast(fit, difference), contrast(plain, difference)]
    expect(a.estimate).toBeCloseTo(b.estimate, 8)
    expect(a.standardError).toBeCloseTo(b.standardError, 8)
    expect(a.degreesOfFreedom / b.degreesOfFreedom).toBeCloseTo(1, 5)
  })
})

describe('estimability in the unconnected design', () => {
  // Source: tests/reference/inference/unconnected.json, exact ranks in R 4.2.2.
  const reference = readReference<Unconnected>('unconnected')
  const layout = layoutOf(reference.data)
  const evidence = gatherEvidence(layout)
  const design = buildMeanDesign(rowsFor(layout.setupIds, reference.components))
  const space = withinSessionRowSpace(
    design,
    evidence.setups.map(({ component }) => component),
  )
  const index = (setup: string) => layout.setupIds.indexOf(setup)

  it('has the rank that R finds', () => {
    expect(space.rank).toBe(reference.rank_within_component)
  })

  it.each(reference.setup_pairs)('of $a and $b is as R finds it', (pair) => {
    const through = space.contains(columnDifference(design, index(pair.a), index(pair.b)))
    expect(through).toBe(pair.estimable_through_components)
  })

  it.each(reference.component_pairs)(
    'of parts $a and $b is as R finds it',
    ({ a, b, estimable }) => {
      const factor = FACTORS.find((name) => a.startsWith(name))!
      const levels = { a: a.slice(factor.length), b: b.slice(factor.length) }
      expect(space.contains(levelDifference(design, factor, levels))).toBe(estimable)
    },
  )
})
