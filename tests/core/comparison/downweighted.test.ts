import { describe, expect, it } from 'vitest'

import { downweightedIn } from '../../../src/core/comparison/downweighted.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout } from '../../../src/core/mixed/layout.ts'
import { fitRobust } from '../../../src/core/mixed/robust.ts'
import { simulateRuns } from '../mixed/arbitrary-runs.ts'

const rows = simulateRuns({
  seed: 5,
  pilots: 8,
  sessionsPerPilot: 4,
  setupsPerSession: 3,
  runsPerCell: 4,
  setups: 4,
  scatter: [0.03, 0.04, 0.015, 0.02],
  largestUncertainty: 0.02,
})

/** Twenty runs in: one that is far off. */
function spoiltFit() {
  const spoilt = rows.map((row, i) => (i === 20 ? { ...row, y: row.y + 0.5 } : row))
  const layout = buildLayout(spoilt)
  const plain = fitNested(layout)
  return { plain, robust: fitRobust(layout, plain)! }
}

describe('downweightedIn', () => {
  it('names the run that counts least, with its place, and how many count less at all', () => {
    const { plain, robust } = spoiltFit()
    const pointers = rows.map((_, i) => `/entries/0/runs/${i}`)
    const { runs, counts } = downweightedIn(robust, plain, pointers)
    const { session, setup } = rows[20]!
    expect(runs[0]).toEqual({
      session,
      setup,
      pointer: '/entries/0/runs/20',
      weight: robust.runWeights[20],
    })
    expect(counts.runs).toBe(robust.runWeights.filter((weight) => weight < 1).length)
    expect(runs.length).toBe(Math.min(30, counts.runs))
    for (const [i, { weight }] of runs.entries()) {
      expect(weight).toBeLessThan(1)
      if (i > 0) expect(weight).toBeGreaterThanOrEqual(runs[i - 1]!.weight)
    }
  })

  it('says which setups that moves, against what all have in common', () => {
    const { plain, robust } = spoiltFit()
    const { moved } = downweightedIn(robust, plain)
    expect(moved[0]!.setup).toBe(rows[20]!.setup)
    expect(moved[0]!.change).toBeLessThan(0) // its high run counts less
    expect(moved.reduce((sum, { change }) => sum + change, 0)).toBeCloseTo(0, 12)
  })
})
