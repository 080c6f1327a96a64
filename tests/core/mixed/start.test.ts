import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { COMPONENTS } from '../../../src/core/mixed/components.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Layout } from '../../../src/core/mixed/layout.ts'
import { productsOfPairs } from '../../../src/core/mixed/search/moments.ts'
import { simulateRuns, smallRuns } from './arbitrary-runs.ts'

/** Products of all pairs of runs that share one group but not the next finer one, one pair at a time. */
function pairByPair(layout: Layout) {
  const { pilotStart, sessionStart, cellStart, deviation } = layout
  const groupsOf = (starts: Int32Array, count: number) =>
    Array.from({ length: count }, (_, group) =>
      Array<number>(starts[group + 1]! - starts[group]!).fill(group),
    ).flat()
  const pilotOf = groupsOf(pilotStart, layout.pilotCount)
  const sessionOf = groupsOf(sessionStart, layout.sessionCount)
  const places = groupsOf(cellStart, layout.cellCount).map((cell, run) => {
    const session = sessionOf[cell]!
    return { pilot: pilotOf[session]!, session, cell, d: deviation[run]! }
  })
  const found = { pilot: [] as number[], session: [] as number[], cell: [] as number[] }
  for (const [n, a] of places.entries())
    for (const b of places.slice(n + 1)) {
      if (a.cell === b.cell) found.cell.push(a.d * b.d)
      else if (a.session === b.session) found.session.push(a.d * b.d)
      else if (a.pilot === b.pilot) found.pilot.push(a.d * b.d)
    }
  const mean = (values: number[]) =>
    values.length === 0 ? null : values.reduce((sum, x) => sum + x, 0) / values.length
  return { pilot: mean(found.pilot), session: mean(found.session), cell: mean(found.cell) }
}

describe('products of pairs of runs', () => {
  it('are the means over all pairs that share as much and no more', () => {
    fc.assert(
      fc.property(smallRuns, (runs) => {
        const layout = buildLayout(runs)
        const expected = pairByPair(layout)
        const found = productsOfPairs(layout)
        const scale = layout.deviation.reduce((most, d) => Math.max(most, d * d), 0)
        for (const kind of ['pilot', 'session', 'cell'] as const) {
          expect(found[kind] === null, kind).toBe(expected[kind] === null)
          const apart = Math.abs((found[kind] ?? 0) - (expected[kind] ?? 0))
          expect(apart, kind).toBeLessThanOrEqual(1e-12 * scale)
        }
      }),
    )
  })
})

describe('the start of the search', () => {
  it('is so near in a large community that a few steps suffice', () => {
    const layout = buildLayout(
      simulateRuns({
        ...{ seed: 3, pilots: 400, sessionsPerPilot: 8, setupsPerSession: 3, runsPerCell: 3 },
        ...{ setups: 12, scatter: [0.02, 0.03, 0.015, 0.02], largestUncertainty: 0.02 },
      }),
    )
    const { converged, iterations, theta, inverseExpected } = fitNested(layout)
    expect(converged).toBe(true)
    expect(iterations).toBeLessThanOrEqual(4)
    const truth = { pilot: 0.02, session: 0.03, cell: 0.015, run: 0.02 }
    COMPONENTS.forEach((component, j) => {
      const standardError = Math.sqrt(inverseExpected[5 * j]!)
      const apart = Math.abs(theta[component] - truth[component] ** 2)
      expect(apart, component).toBeLessThan(4 * standardError)
    })
  })
})
