import { describe, expect, it } from 'vitest'

import { fitNested } from '../../../src/core/mixed/fit.ts'
import { componentSpreads } from '../../../src/core/mixed/heterogeneity.ts'
import { buildLayout } from '../../../src/core/mixed/layout.ts'
import { plannedSessionVariance } from '../../../src/core/mixed/planned-session.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'

const DIFFERENCE = [
  { setup: 'a', weight: 1 },
  { setup: 'b', weight: -1 },
]
const U = 0.03
const PLANNED = { runs: 3, knownVariance: U ** 2 }

/** Sessions of two setups by four pilots; `cell` and `run` are standard deviations beyond the known one. */
function fitOf(seed: number, { sessions = 16, runs = 3, cell = 0, run = 0 }) {
  const random = new Pcg32(seed)
  const rows = Array.from({ length: sessions }, (_, s) =>
    ['a', 'b'].flatMap((setup) => {
      const onThatDay = cell * random.normal()
      return Array.from({ length: runs }, () => ({
        ...{ setup, session: `s${s}`, pilot: `p${s % 4}`, u: U },
        y: onThatDay + run * random.normal(),
      }))
    }),
  ).flat()
  return fitNested(buildLayout(rows))
}

describe('plannedSessionVariance', () => {
  it('is that of the model where both scatters were found', () => {
    const fit = fitOf(1, { cell: 0.06, run: 0.06 })
    const { cell, run } = fit.theta
    expect(fit.status).toMatchObject({ cell: 'estimated', run: 'estimated' })
    expect(plannedSessionVariance(fit, DIFFERENCE, PLANNED)).toBeCloseTo(
      2 * (cell + (run + U ** 2) / 3),
      12,
    )
  })

  it('counts what was not detected at the upper end of its interval, not as nothing', () => {
    const fit = fitOf(2, { cell: 0, run: 0.01 })
    expect(fit.status).toMatchObject({ cell: 'notDetected', run: 'notDetected' })
    const { cell, run } = componentSpreads(fit)
    const [cellSd, runSd] = [cell.interval95![1], run.interval95![1]]
    expect(cellSd).toBeGreaterThan(0)
    expect(plannedSessionVariance(fit, DIFFERENCE, PLANNED)).toBeCloseTo(
      2 * (cellSd ** 2 + (runSd ** 2 + U ** 2) / 3),
      12,
    )
  })

  it('does not average out over runs what one run of each session cannot tell from the day', () => {
    const fit = fitOf(3, { runs: 1, cell: 0.08 })
    expect(fit.mergedInto.cell).toBe('run')
    expect(fit.status.run).toBe('estimated')
    expect(plannedSessionVariance(fit, DIFFERENCE, PLANNED)).toBeCloseTo(
      2 * (fit.theta.run + U ** 2 / 3),
      12,
    )
  })

  it('is never less than what sessions like it showed, however lucky they were', () => {
    // Nearly no scatter at all, so every component ends at zero: what is left is more than the stated u.
    const fit = fitOf(4, { sessions: 5, runs: 1, run: 0.001 })
    expect(fit.theta).toMatchObject({ cell: 0, run: 0 })
    expect(plannedSessionVariance(fit, DIFFERENCE, PLANNED)).toBeGreaterThan(2 * (U ** 2 / 3))
  })

  it('promises nothing where no two sessions tell what a setup does on a day', () => {
    const rows = ['a', 'a', 'b', 'b'].map((setup, i) => ({
      ...{ setup, session: 's', pilot: 'p', u: U },
      y: 0.05 * Math.sin(i * 78.233),
    }))
    const fit = fitNested(buildLayout(rows))
    expect(fit.mergedInto.cell).toBeNull()
    expect(plannedSessionVariance(fit, DIFFERENCE, PLANNED)).toBeNull()
  })
})
