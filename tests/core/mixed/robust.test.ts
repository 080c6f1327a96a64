import { describe, expect, it } from 'vitest'

import { studentTQuantile } from '../../../src/core/distributions/student-t.ts'
import { contrast } from '../../../src/core/mixed/contrasts.ts'
import { fitNested, type NestedFit } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { fitRobust } from '../../../src/core/mixed/robust.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { simulateRuns } from './arbitrary-runs.ts'

const campaign = (seed: number) =>
  simulateRuns({
    seed,
    pilots: 8,
    sessionsPerPilot: 4,
    setupsPerSession: 3,
    runsPerCell: 4,
    setups: 4,
    scatter: [0.03, 0.04, 0.015, 0.02],
    largestUncertainty: 0.02,
  })
const DIFFERENCE = [
  { setup: 'setup 0', weight: 1 },
  { setup: 'setup 2', weight: -1 },
]
const TRUTH = -0.2

/** One run in twenty is far off, as from a stopwatch started late. */
function spoil(rows: readonly Observation[], seed: number): Observation[] {
  const random = new Pcg32(seed, 3)
  return rows.map((row) => (random.uniform() < 0.05 ? { ...row, y: row.y + 0.4 } : row))
}

const errorOf = (fit: NestedFit) => contrast(fit, DIFFERENCE).estimate - TRUTH

describe('fitRobust', () => {
  it('changes little where everything fits', () => {
    const shifts = Array.from({ length: 40 }, (_, seed) => {
      const layout = buildLayout(campaign(seed))
      const plain = fitNested(layout)
      const robust = fitRobust(layout, plain)!
      const { estimate, standardError } = contrast(plain, DIFFERENCE)
      return Math.abs(contrast(robust.fit, DIFFERENCE).estimate - estimate) / standardError
    })
    const mean = shifts.reduce((sum, x) => sum + x / 40, 0)
    expect(mean).toBeLessThan(0.4)
  })

  it('keeps its intervals honest where everything fits', () => {
    let held = 0
    for (let seed = 0; seed < 200; seed++) {
      const layout = buildLayout(campaign(seed))
      const { fit } = fitRobust(layout, fitNested(layout))!
      const { standardError, degreesOfFreedom } = contrast(fit, DIFFERENCE)
      if (Math.abs(errorOf(fit)) <= studentTQuantile(0.975, degreesOfFreedom) * standardError)
        held++
    }
    // Four standard deviations of 1.5 % below 95 %; weights make it no better than the plain fit.
    expect(held / 200).toBeGreaterThan(0.89)
  })

  it('is nearer to the truth than the plain fit where one run in twenty is far off', () => {
    let plainSquares = 0
    let robustSquares = 0
    for (let seed = 0; seed < 60; seed++) {
      const layout = buildLayout(spoil(campaign(seed), seed))
      const plain = fitNested(layout)
      plainSquares += errorOf(plain) ** 2
      robustSquares += errorOf(fitRobust(layout, plain)!.fit) ** 2
    }
    expect(robustSquares).toBeLessThan(0.5 * plainSquares)
  })

  it('gives a low weight to what is off and leaves the rest of its session alone', () => {
    const rows = campaign(5)
    const spoilt = rows.map((row, i) => (i === 20 ? { ...row, y: row.y + 0.5 } : row))
    const layout = buildLayout(spoilt)
    const robust = fitRobust(layout, fitNested(layout))!
    expect(robust.runWeights[20]!).toBeLessThan(0.05)
    const others = [...robust.runWeights].filter((_, i) => i !== 20)
    expect(Math.min(...others)).toBeGreaterThan(0.2)
  })

  it('is a function of the runs, whatever their order', () => {
    const rows = spoil(campaign(7), 7)
    const one = buildLayout(rows)
    const other = buildLayout([...rows].reverse())
    expect(fitRobust(other, fitNested(other))!.fit).toEqual(fitRobust(one, fitNested(one))!.fit)
  })

  it('gives nothing where no standard error is known', () => {
    const layout = buildLayout([{ setup: 'a', session: 's', pilot: 'p', y: 1, u: 0 }])
    expect(fitRobust(layout, fitNested(layout))).toBeNull()
  })
})
