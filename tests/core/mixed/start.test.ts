import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Layout } from '../../../src/core/mixed/layout.ts'
import { productsOfPairs } from '../../../src/core/mixed/search/moments.ts'
import { simulateRuns, smallRuns } from './arbitrary-runs.ts'

/** Products of all pairs of runs that share one group but not the next finer one, one pair at a time. */
function pairByPair(layout: Layout) {
  const places: { pilot: number; session: number; cell: number; d: number }[] = []
  for (let pilot = 0; pilot < layout.pilotCount; pilot++)
    for (
      let session = layout.pilotStart[pilot]!;
      session < layout.pilotStart[pilot + 1]!;
      session++
    )
      for (
        let cell = layout.sessionStart[session]!;
        cell < layout.sessionStart[session + 1]!;
        cell++
      )
        for (let i = layout.cellStart[cell]!; i < layout.cellStart[cell + 1]!; i++)
          places.push({ pilot, session, cell, d: layout.deviation[i]! })
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
    const { converged, iterations, theta } = fitNested(layout)
    expect(converged).toBe(true)
    expect(iterations).toBeLessThanOrEqual(4)
    // The truth, within four of its standard errors of this size of community.
    expect(Math.sqrt(theta.pilot)).toBeCloseTo(0.02, 2)
    expect(Math.sqrt(theta.session)).toBeCloseTo(0.03, 2)
    expect(Math.sqrt(theta.cell)).toBeCloseTo(0.015, 2)
    expect(Math.sqrt(theta.run)).toBeCloseTo(0.02, 2)
  })
})
