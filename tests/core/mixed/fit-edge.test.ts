import { describe, expect, it } from 'vitest'
import { contrast } from '../../../src/core/mixed/contrasts.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { simulateColumns } from '../../bench/simulated-runs.ts'
import { referenceFit } from './reference-fits.ts'

const run = (y: number, setup: string, session: string, rest: Partial<Observation> = {}) => ({
  y,
  u: 0,
  setup,
  session,
  pilot: session,
  ...rest,
})
const difference = [
  { setup: 'a', weight: 1 },
  { setup: 'b', weight: -1 },
]

describe('a fit of doubtful data', () => {
  it('of no runs holds nothing', () => {
    const fit = fitNested(buildLayout([]))
    expect(fit.setups).toEqual([])
    expect(fit.counts).toEqual({ runs: 0, cells: 0, sessions: 0, pilots: 0, setups: 0 })
    expect(fit.standardErrorsKnown).toBe(false)
    expect(Object.values(fit.status)).toEqual(Array(4).fill('notSeparable'))
  })

  it('of one run per setup gives the readings and no standard error', () => {
    const fit = fitNested(buildLayout([run(1, 'a', 's'), run(3, 'b', 's')]))
    expect([...fit.beta]).toEqual([1, 3])
    expect(fit.standardErrorsKnown).toBe(false)
    expect(contrast(fit, difference)).toEqual({
      estimate: -2,
      standardError: Infinity,
      degreesOfFreedom: 1,
    })
  })

  it('of one run per setup uses the known uncertainty if there is one', () => {
    const fit = fitNested(buildLayout([run(1, 'a', 's', { u: 0.3 }), run(3, 'b', 's', { u: 0.4 })]))
    const found = contrast(fit, difference)
    expect(fit.standardErrorsKnown).toBe(true)
    expect(found.standardError).toBeCloseTo(0.5, 12) // √(0.3² + 0.4²)
    expect(found.degreesOfFreedom).toBe(1e9) // nothing was estimated
  })

  it('of one setup is its mean', () => {
    const fit = fitNested(buildLayout([1, 2, 6].map((y) => run(y, 'a', 's'))))
    const mean = contrast(fit, [{ setup: 'a', weight: 1 }])
    expect(mean.estimate).toBeCloseTo(3, 12)
    expect(fit.theta.run).toBeCloseTo(7, 6) // sample variance of 1, 2, 6
    expect(mean.standardError).toBeCloseTo(Math.sqrt(7 / 3), 6)
    expect(mean.degreesOfFreedom).toBeCloseTo(2, 4)
  })

  it('of equal readings holds the run variance at its floor', () => {
    const rows = ['s', 't'].flatMap((s) => [run(0.1, 'a', s), run(0.1, 'a', s), run(0.2, 'b', s)])
    const fit = fitNested(buildLayout(rows))
    expect(fit.status.run).toBe('notDetected')
    expect(fit.singular).toBe(false)
    const found = contrast(fit, difference)
    expect(found.estimate).toBeCloseTo(-0.1, 12)
    expect(found.standardError).toBeLessThan(1e-12)
    expect(found.degreesOfFreedom).toBeGreaterThanOrEqual(1)
  })

  it('of equal readings with known uncertainty finds no variance and keeps the known one', () => {
    const rows = ['s', 't', 'v'].map((s) => run(0.1, 'a', s, { u: 0.3 }))
    const fit = fitNested(buildLayout(rows))
    expect(fit.theta).toEqual({ pilot: 0, session: 0, cell: 0, run: 0 })
    expect(fit.converged).toBe(true)
    const mean = contrast(fit, [{ setup: 'a', weight: 1 }])
    expect(mean.standardError).toBeCloseTo(0.3 / Math.sqrt(3), 12)
  })

  it('with zero noise fixed and no known uncertainty is reported as singular, not thrown', () => {
    const rows = [run(1, 'a', 's'), run(2, 'a', 's')]
    const fit = fitNested(buildLayout(rows), { fixed: { run: 0 } })
    expect(fit.singular).toBe(true)
    expect(fit.converged).toBe(false)
    expect(fit.standardErrorsKnown).toBe(false)
    expect(fit.beta[0]).toBeNaN()
  })

  it('that may not search long enough says that it did not converge', () => {
    const { layout } = referenceFit('sim_lme4_u0')
    const fit = fitNested(layout, { maxEvaluations: 2 })
    expect(fit.converged).toBe(false)
    expect(fit.search).toHaveLength(1)
  })

  it('of wildly different scales still converges', () => {
    const rows = Array.from({ length: 40 }, (_, i) =>
      run(1e6 * (i % 4) + Math.sin(i * 12.9898) * 1e-3, `k${i % 2}`, `s${i % 4}`),
    )
    const fit = fitNested(buildLayout(rows))
    expect(fit.converged).toBe(true)
    expect(fit.theta.pilot).toBeGreaterThan(1e11)
  })
})

describe('the options of a fit', () => {
  const { layout } = referenceFit('machines')

  it('hold a component at a value from outside', () => {
    const free = fitNested(layout, { fixed: { pilot: 0 } })
    const held = fitNested(layout, { fixed: { pilot: 0, cell: free.theta.cell } })
    expect(held.status.cell).toBe('fixed')
    expect(held.theta.cell).toBe(free.theta.cell)
    expect(held.theta.session).toBeCloseTo(free.theta.session, 3)
    expect(held.logLikelihood).toBeCloseTo(free.logLikelihood, 8)
  })

  it('come back with the result, defaults filled in', () => {
    const { options } = fitNested(layout, { fixed: { pilot: 0 } })
    expect(options).toEqual({
      tolerance: 1e-10,
      maxEvaluations: 100,
      start: null,
      keepStart: null,
      fixed: { pilot: 0 },
    })
  })

  it('are refused outside their range', () => {
    expect(() => fitNested(layout, { tolerance: 0 })).toThrow('tolerance')
    expect(() => fitNested(layout, { maxEvaluations: Number.NaN })).toThrow('maxEvaluations')
    expect(() => fitNested(layout, { fixed: { run: -1 } })).toThrow('fixed.run')
    const start = { pilot: 0, session: 0, cell: Number.NaN, run: 1 }
    expect(() => fitNested(layout, { start })).toThrow('start.cell')
  })

  it('leave a record of every step', () => {
    const fit = fitNested(layout, { fixed: { pilot: 0 } })
    expect(fit.search.filter((step) => step.accepted)).toHaveLength(fit.iterations)
    const last = fit.search.at(-1)!
    expect(last.theta).toEqual(fit.theta)
    expect(last.logLikelihood).toBe(fit.logLikelihood)
  })
})

describe('a fit of many runs', () => {
  it('converges where all are equally sure, so that no rounding averages out', () => {
    const runs = simulateColumns({ runs: 100_000, setups: 100, exact: true })
    const fit = fitNested(buildLayout(runs))
    expect(fit.converged).toBe(true)
    expect(fit.iterations).toBeLessThan(10)
  })
})
