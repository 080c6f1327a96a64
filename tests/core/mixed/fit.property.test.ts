import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { COMPONENTS, perComponent } from '../../../src/core/mixed/components.ts'
import { evaluateAt } from '../../../src/core/mixed/evaluate.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { simulateRuns, smallRuns } from './arbitrary-runs.ts'

const fitRows = (rows: readonly Observation[]) => fitNested(buildLayout(rows))

/** Campaigns large enough for all components to be separable. */
const campaigns = fc.nat().map((seed) =>
  simulateRuns({
    seed,
    pilots: 6,
    sessionsPerPilot: 5,
    setupsPerSession: 3,
    runsPerCell: 3,
    setups: 5,
    scatter: [0.02, 0.03, 0.015, 0.02],
    largestUncertainty: seed % 2 === 0 ? 0.02 : 0,
  }),
)

describe('a nested fit', () => {
  it('does not depend on the order of the runs, bit for bit', () => {
    fc.assert(
      fc.property(campaigns, fc.nat(), (rows, seed) => {
        expect(fitRows(new Pcg32(seed).shuffle([...rows]))).toEqual(fitRows(rows))
      }),
      { numRuns: 20 },
    )
  })

  it('scales with the unit of the measurement', () => {
    fc.assert(
      fc.property(campaigns, (rows) => {
        const fit = fitRows(rows)
        const scaled = fitRows(rows.map((row) => ({ ...row, y: 10 * row.y, u: 10 * row.u })))
        expect(scaled.status).toEqual(fit.status)
        for (const component of COMPONENTS) {
          // Both searches stop within 1e-5 standard errors of the optimum.
          const difference = scaled.theta[component] - 100 * fit.theta[component]
          expect(Math.abs(difference)).toBeLessThanOrEqual(1e-6 * scaled.theta[component])
        }
        for (const [k, mean] of fit.beta.entries())
          expect(scaled.beta[k]! / mean).toBeCloseTo(10, 6)
      }),
      { numRuns: 20 },
    )
  })

  it('scales exactly with a power of four in variance', () => {
    // Doubling is exact in binary arithmetic, so not even the last bit may move.
    fc.assert(
      fc.property(campaigns, (rows) => {
        const fit = fitRows(rows)
        const doubled = fitRows(rows.map((row) => ({ ...row, y: 2 * row.y, u: 2 * row.u })))
        expect(doubled.beta).toEqual(fit.beta.map((mean) => 2 * mean))
        expect(doubled.theta).toEqual(perComponent((j) => 4 * fit.theta[COMPONENTS[j]!]))
      }),
      { numRuns: 10 },
    )
  })

  it('moves with the level of the measurement and nothing else moves', () => {
    fc.assert(
      fc.property(campaigns, fc.integer({ min: -1000, max: 1000 }), (rows, shift) => {
        const fit = fitRows(rows)
        const moved = fitRows(rows.map((row) => ({ ...row, y: row.y + shift })))
        // y + 1000 keeps 13 decimals, residuals of 0.02 about 11 digits.
        for (const [k, mean] of fit.beta.entries()) {
          expect(moved.beta[k]! - shift).toBeCloseTo(mean, 9)
        }
        for (const component of COMPONENTS) {
          const difference = moved.theta[component] - fit.theta[component]
          expect(Math.abs(difference)).toBeLessThanOrEqual(1e-6 * fit.theta[component] + 1e-15)
        }
      }),
      { numRuns: 20 },
    )
  })

  it('takes a known session variance of zero as none', () => {
    fc.assert(
      fc.property(campaigns, (rows) => {
        const zero = new Map(rows.map((row) => [row.session, 0]))
        expect(fitNested(buildLayout(rows, { knownSessionVariance: zero }))).toEqual(fitRows(rows))
      }),
      { numRuns: 10 },
    )
  })

  it('takes a known session variance off the estimated one', () => {
    const rows = simulateRuns({
      seed: 4,
      pilots: 8,
      sessionsPerPilot: 6,
      setupsPerSession: 3,
      runsPerCell: 3,
      setups: 4,
      scatter: [0.01, 0.05, 0.01, 0.02],
      largestUncertainty: 0,
    })
    const known = new Map(rows.map((row) => [row.session, 0.0005]))
    const fit = fitRows(rows)
    const reduced = fitNested(buildLayout(rows, { knownSessionVariance: known }))
    // The same amount everywhere: only the name of the variance changes.
    expect(reduced.theta.session).toBeCloseTo(fit.theta.session - 0.0005, 8)
    expect(reduced.logLikelihood).toBeCloseTo(fit.logLikelihood, 8)
    expect(fit.theta.session).toBeGreaterThan(0.0005)
  })

  it('ends where no allowed small change raises the likelihood', () => {
    fc.assert(
      fc.property(smallRuns, (rows) => {
        const layout = buildLayout(rows)
        const fit = fitNested(layout)
        expect(fit.converged).toBe(true)
        if (!fit.standardErrorsKnown) return
        for (const component of COMPONENTS) {
          if (fit.status[component] === 'notSeparable') continue
          const step = 0.02 * fit.theta[component] + 1e-6
          for (const change of fit.theta[component] > step ? [step, -step] : [step]) {
            const theta = { ...fit.theta, [component]: fit.theta[component] + change }
            const { logLikelihood } = evaluateAt(layout, theta)
            expect(logLikelihood).toBeLessThanOrEqual(fit.logLikelihood + 1e-9)
          }
        }
      }),
    )
  })

  it('finds the same optimum from a warm start', () => {
    fc.assert(
      fc.property(campaigns, fc.double({ min: 0, max: 0.01, noNaN: true }), (rows, start) => {
        const fit = fitRows(rows)
        const warm = fitNested(buildLayout(rows), { start: perComponent(() => start) })
        expect(warm.converged).toBe(true)
        expect(warm.logLikelihood).toBeCloseTo(fit.logLikelihood, 7)
      }),
      { numRuns: 30 },
    )
  })
})
