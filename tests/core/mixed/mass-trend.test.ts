import { describe, expect, it } from 'vitest'

import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { testCovariate } from '../../../src/core/mixed/mass-trend.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { covarianceOfRuns, projectDensely } from './dense-model.ts'

/** Pilots of different mass fly two of a, b, c; the result of c follows ln mass by `slope`. */
function campaign(seed: number, slope: number, sessions = 40) {
  const random = new Pcg32(seed)
  const pairs = ['ab', 'bc', 'ca']
  const rows: (Observation & { readonly x: number })[] = []
  for (let s = 0; s < sessions; s++) {
    const x = Math.log(90 + 80 * random.uniform())
    const level = 0.05 * random.normal() + 0.3 * x
    for (const setup of pairs[s % 3]!) {
      const cell = level + 0.02 * random.normal() + (setup === 'c' ? slope * (x - 4.8) : 0)
      for (let i = 0; i < 2; i++) {
        const y = cell + 0.02 * random.normal()
        rows.push({ setup, session: `s${s}`, pilot: `p${s}`, y, u: 0, x })
      }
    }
  }
  return rows
}

describe('testCovariate', () => {
  it('is the Wald statistic of dense algebra with sessions as columns', () => {
    const rows = campaign(1, 0.1, 12)
    const theta = { pilot: 0, session: 0, cell: 0.0004, run: 0.0004 }
    const found = testCovariate(
      buildLayout(rows),
      theta,
      rows.map(({ x }) => x),
    )!
    const sessions = [...new Set(rows.map(({ session }) => session))]
    const mean = 4.8
    const base = rows.map((row) => [
      ...sessions.map((session) => (session === row.session ? 1 : 0)),
      ...['b', 'c'].map((setup) => (setup === row.setup ? 1 : 0)),
    ])
    const slopes = rows.map((row) =>
      ['b', 'c'].map((setup) => (setup === row.setup ? row.x - mean : 0)),
    )
    const y = rows.map((row) => row.y)
    const V = covarianceOfRuns(rows, theta)
    const squares = (X: number[][]) => {
      const { Py } = projectDensely(V, X, y)
      return Py.reduce((sum, e, i) => sum + e * y[i]!, 0)
    }
    const expected = squares(base) - squares(base.map((row, i) => [...row, ...slopes[i]!]))
    expect(found.degreesOfFreedom).toBe(2)
    expect(found.statistic / expected).toBeCloseTo(1, 8)
  })

  it('finds a setup that gains with mass, with its size', () => {
    const rows = campaign(2, 0.3)
    const layout = buildLayout(rows)
    const found = testCovariate(
      layout,
      fitNested(layout).theta,
      rows.map(({ x }) => x),
    )!
    expect(found.pValue).toBeLessThan(0.001)
    const c = found.setups.find(({ setup }) => setup === 'c')!
    expect(c.pValue).toBeLessThan(0.001)
    expect(Math.abs(c.slope - 0.3)).toBeLessThan(3 * c.standardError)
  })

  // 400 campaigns: 20 alarms expected, standard deviation 4.4; the estimated variances add a little.
  it('seldom finds what is not there', () => {
    let alarms = 0
    for (let seed = 0; seed < 400; seed++) {
      const rows = campaign(1000 + seed, 0)
      const layout = buildLayout(rows)
      if (
        testCovariate(
          layout,
          fitNested(layout).theta,
          rows.map(({ x }) => x),
        )!.pValue < 0.05
      )
        alarms++
    }
    expect(alarms).toBeGreaterThan(20 - 4 * 4.4)
    expect(alarms).toBeLessThan(26 + 4 * 4.9)
  })

  it('gives nothing where everybody has the same mass or none is known', () => {
    const rows = campaign(3, 0)
    const layout = buildLayout(rows)
    const { theta } = fitNested(layout)
    expect(
      testCovariate(
        layout,
        theta,
        rows.map(() => 4.8),
      ),
    ).toBeNull()
    expect(
      testCovariate(
        layout,
        theta,
        rows.map(() => Number.NaN),
      ),
    ).toBeNull()
  })
})
