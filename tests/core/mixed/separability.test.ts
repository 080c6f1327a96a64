import { describe, expect, it } from 'vitest'
import { separability } from '../../../src/core/mixed/design/separability.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout } from '../../../src/core/mixed/layout.ts'
import { referenceFit } from './reference-fits.ts'

/** Layout from words "pilot session setup", readings made up. */
const layoutOf = (...cells: string[]) =>
  buildLayout(
    cells.map((cell, i) => {
      const [pilot, session, setup] = cell.split(' ') as [string, string, string]
      return { y: Math.sin(i * 78.233), u: 0, setup, session, pilot }
    }),
  )

describe('separability', () => {
  it('counts the ranks of the formulas in a full design', () => {
    const { layout } = referenceFit('sim_lme4_u0')
    const { degreesOfFreedom } = separability(layout, {})
    const { runCount: N, cellCount: C, sessionCount: S, pilotCount: P, setupCount: K } = layout
    // All setups hang together here: cp = cs = 1.
    expect(degreesOfFreedom).toEqual({
      pilot: P - 1,
      session: S - 1 - (P - 1),
      cell: C - (K + S - 1),
      run: N - C,
    })
  })

  it('merges sessions into pilots where each pilot has one session', () => {
    const { layout } = referenceFit('machines')
    const fit = fitNested(layout)
    expect(fit.separability.session).toBe(0)
    expect(fit.status.session).toBe('notSeparable')
    expect(fit.mergedInto.session).toBe('pilot')
    // The pilots then carry what R calls the variance of the workers.
    expect(fit.theta.pilot).toBeCloseTo(22.8584442330957, 3)
  })

  it('merges cells into runs where each cell has one run', () => {
    const layout = layoutOf(
      'p s1 a',
      'p s1 b',
      'p s2 a',
      'p s2 b',
      'p s3 a',
      'p s3 b',
      'q s4 a',
      'q s4 b',
      'q s5 a',
    )
    const { degreesOfFreedom, mergedInto, estimable } = separability(layout, {})
    expect(degreesOfFreedom).toEqual({ pilot: 1, session: 3, cell: 3, run: 0 })
    expect(mergedInto).toEqual({ pilot: null, session: null, cell: 'run', run: null })
    expect(estimable).toEqual({ pilot: true, session: true, cell: false, run: true })
  })

  it('leaves the cell variance to the outside where cells follow from setups and sessions', () => {
    const layout = layoutOf('p s1 a', 'p s1 a', 'p s1 b', 'p s1 b', 'p s2 a', 'p s2 a')
    const { degreesOfFreedom, mergedInto, estimable } = separability(layout, {})
    expect(degreesOfFreedom).toEqual({ pilot: 0, session: 1, cell: 0, run: 3 })
    expect(mergedInto.cell).toBeNull()
    expect(estimable).toEqual({ pilot: false, session: true, cell: false, run: true })
  })

  it('has nothing left for pilots where all data are of one', () => {
    const layout = layoutOf(
      ...['p s1 a', 'p s1 a', 'p s1 b', 'p s1 b', 'p s2 a', 'p s2 a', 'p s2 b', 'p s2 b'],
    )
    const { degreesOfFreedom, mergedInto, estimable } = separability(layout, {})
    expect(degreesOfFreedom).toEqual({ pilot: 0, session: 1, cell: 1, run: 4 }) // P = cp = 1
    expect(mergedInto.pilot).toBeNull()
    expect(estimable).toEqual({ pilot: false, session: true, cell: true, run: true })
  })

  it('merges cells into sessions where every session is one cell', () => {
    const layout = layoutOf('p s1 a', 'p s1 a', 'p s2 a', 'p s2 a', 'p s3 a', 'p s3 a')
    expect(separability(layout, {}).mergedInto.cell).toBe('session')
  })

  it('puts all variance into the runs where every run is a session of its own', () => {
    const layout = layoutOf('p s1 a', 'p s2 a', 'q s3 a', 'q s4 a')
    const { mergedInto, estimable } = separability(layout, {})
    expect(mergedInto.session).toBe('run')
    expect(estimable).toEqual({ pilot: true, session: false, cell: false, run: true })
  })

  it('finds nothing to estimate where every run is a setup of its own', () => {
    const { estimable } = separability(layoutOf('p s a', 'p s b', 'q t c'), {})
    expect(estimable).toEqual({ pilot: false, session: false, cell: false, run: false })
  })

  it('gives the rank of a fixed component to the next finer one', () => {
    const { layout } = referenceFit('senn2013_arm')
    const { degreesOfFreedom, estimable } = separability(layout, { pilot: 0, cell: 0 })
    const { runCount: N, sessionCount: S, setupCount: K } = layout
    expect(degreesOfFreedom).toEqual({ pilot: 0, session: S - 1, cell: 0, run: N - K - S + 1 })
    expect(estimable).toEqual({ pilot: false, session: true, cell: false, run: true })
  })
})
