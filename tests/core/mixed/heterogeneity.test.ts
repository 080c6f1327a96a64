import { describe, expect, it } from 'vitest'

import { studentTQuantile } from '../../../src/core/distributions/student-t.ts'
import { contrast } from '../../../src/core/mixed/contrasts.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { componentSpreads, nextSessionDifference } from '../../../src/core/mixed/heterogeneity.ts'
import { buildLayout } from '../../../src/core/mixed/layout.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { simulateRuns } from './arbitrary-runs.ts'

const CELL = 0.03
const campaign = (seed: number) =>
  fitNested(
    buildLayout(
      simulateRuns({
        seed,
        pilots: 8,
        sessionsPerPilot: 4,
        setupsPerSession: 3,
        runsPerCell: 4,
        setups: 4,
        scatter: [0.03, 0.04, CELL, 0.02],
        largestUncertainty: 0.02,
      }),
    ),
  )
const WEIGHTS = [
  { setup: 'setup 0', weight: 1 },
  { setup: 'setup 2', weight: -1 },
]

describe('nextSessionDifference', () => {
  it('adds two cell variances to the variance of the difference', () => {
    const fit = campaign(1)
    const { standardError } = contrast(fit, WEIGHTS)
    const next = nextSessionDifference(fit, WEIGHTS, standardError)
    expect(next.standardError ** 2).toBeCloseTo(standardError ** 2 + 2 * fit.theta.cell, 12)
    expect(next.degreesOfFreedom).toBeGreaterThan(1)
  })

  // 95 % of 400 with a standard deviation of 1.1 %; four of them, and a little for Satterthwaite.
  it('holds the difference of a new session as often as it says', () => {
    const random = new Pcg32(9)
    let held = 0
    for (let seed = 0; seed < 400; seed++) {
      const fit = campaign(seed)
      const { estimate, standardError } = contrast(fit, WEIGHTS)
      const next = nextSessionDifference(fit, WEIGHTS, standardError)
      const shown = -0.2 + CELL * (random.normal() - random.normal())
      const reach = studentTQuantile(0.975, next.degreesOfFreedom) * next.standardError
      if (Math.abs(shown - estimate) <= reach) held++
    }
    expect(held / 400).toBeGreaterThan(0.95 - 0.05)
    expect(held / 400).toBeLessThan(0.95 + 0.045)
  })

  it('knows nothing where the fit knows no standard errors', () => {
    const fit = fitNested(buildLayout([{ setup: 'setup 0', session: 's', pilot: 'p', y: 1, u: 0 }]))
    const next = nextSessionDifference(fit, [WEIGHTS[0]!], 0)
    expect(next).toEqual({ standardError: Infinity, degreesOfFreedom: 1 })
  })
})

describe('componentSpreads', () => {
  // Rough intervals by design: they have to hold the truth nine times in ten at least.
  it('hold the true standard deviations most of the time', () => {
    let held = 0
    for (let seed = 0; seed < 200; seed++) {
      const { interval95 } = componentSpreads(campaign(500 + seed)).cell
      if (interval95![0] <= CELL && CELL <= interval95![1]) held++
    }
    expect(held / 200).toBeGreaterThan(0.9)
  })

  it('stays finite, and goes on from zero, for a variance that is barely above it', () => {
    const fit = campaign(500)
    const near = (cell: number) => ({ ...fit, theta: { ...fit.theta, cell } })
    const upper = (cell: number) => componentSpreads(near(cell)).cell.interval95![1]
    expect(upper(1e-12)).toBeCloseTo(upper(1e-9), 12)
    expect(upper(1e-9)).toBeGreaterThan(CELL)
    expect(upper(1e-9)).toBeLessThan(5 * CELL)
  })

  it('gives no interval where the design holds no information', () => {
    const one = fitNested(
      buildLayout([1, 1.1, 0.9].map((y) => ({ setup: 'a', session: 's', pilot: 'p', y, u: 0 }))),
    )
    expect(componentSpreads(one).session.interval95).toBeNull()
    expect(componentSpreads(one).run.interval95).not.toBeNull()
  })
})
