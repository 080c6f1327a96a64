import { describe, expect, it } from 'vitest'
import { studentTQuantile } from '../../../src/core/distributions/student-t.ts'
import { COMPONENTS } from '../../../src/core/mixed/components.ts'
import { contrast } from '../../../src/core/mixed/contrasts.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout } from '../../../src/core/mixed/layout.ts'
import { simulateRuns } from './arbitrary-runs.ts'

const CAMPAIGNS = 300
const SCATTER = [0.02, 0.03, 0.015, 0.02] as const

const fits = Array.from({ length: CAMPAIGNS }, (_, seed) =>
  fitNested(
    buildLayout(
      simulateRuns({
        seed,
        pilots: 8,
        sessionsPerPilot: 6,
        setupsPerSession: 3,
        runsPerCell: 4,
        setups: 5,
        scatter: SCATTER,
        largestUncertainty: 0.02,
      }),
    ),
  ),
)

describe('fits of simulated campaigns with known truth', () => {
  it('all converge', () => {
    expect(fits.filter((fit) => !fit.converged)).toEqual([])
  })

  // Four standard errors of the mean over the campaigns, from their own spread. Zero as lower bound
  // lifts the mean of a component that is often at zero: here that is at most a few per cent of the
  // pilots' variance, hence 10 % on top.
  it.each(COMPONENTS.map((component, j) => [component, SCATTER[j]! ** 2] as const))(
    'find the variance of the %s component on average',
    (component, truth) => {
      const found = fits.map((fit) => fit.theta[component])
      const mean = found.reduce((sum, x) => sum + x, 0) / CAMPAIGNS
      const variance = found.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (CAMPAIGNS - 1)
      const standardError = Math.sqrt(variance / CAMPAIGNS)
      expect(Math.abs(mean - truth)).toBeLessThan(4 * standardError + 0.1 * truth)
    },
  )

  // A proportion of 0.95 over 300 independent campaigns has the standard error 0.0126; four of them
  // are 0.05. A wrong standard error by 30 % would give a coverage near 0.83 or 0.99.
  it('cover the true difference of two setups as often as they claim', () => {
    const difference = [
      { setup: 'setup 0', weight: 1 },
      { setup: 'setup 3', weight: -1 },
    ]
    const truth = -0.3
    const covered = fits.filter((fit) => {
      const found = contrast(fit, difference)
      const half = studentTQuantile(0.975, found.degreesOfFreedom) * found.standardError
      return Math.abs(found.estimate - truth) <= half
    }).length
    expect(covered / CAMPAIGNS).toBeGreaterThan(0.95 - 0.05)
    expect(covered / CAMPAIGNS).toBeLessThan(0.995)
  })

  it('are not biased in the difference of two setups', () => {
    const standardised = fits.map((fit) => {
      const found = contrast(fit, [
        { setup: 'setup 4', weight: 1 },
        { setup: 'setup 1', weight: -1 },
      ])
      return (found.estimate - 0.3) / found.standardError
    })
    const mean = standardised.reduce((sum, x) => sum + x, 0) / CAMPAIGNS
    // Mean of 300 values with standard deviation about 1.1 at most: four standard errors.
    expect(Math.abs(mean)).toBeLessThan((4 * 1.1) / Math.sqrt(CAMPAIGNS))
  })
})
