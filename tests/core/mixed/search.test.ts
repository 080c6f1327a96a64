import { describe, expect, it } from 'vitest'
import { perComponent } from '../../../src/core/mixed/components.ts'
import { createWorkspace } from '../../../src/core/mixed/evaluate.ts'
import { DEFAULT_FIT_OPTIONS, fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout } from '../../../src/core/mixed/layout.ts'
import { searchTheta } from '../../../src/core/mixed/search/search.ts'
import { proposeStep } from '../../../src/core/mixed/search/step.ts'
import { simulateRuns } from './arbitrary-runs.ts'

describe('the step of the search', () => {
  const domain = { estimable: new Uint8Array([1, 1, 0, 1]), lower: new Float64Array(4) }
  const information = new Float64Array(16)
  for (let j = 0; j < 4; j++) information[5 * j] = 1
  information[1] = information[4] = 0.9 // pilot and session hard to tell apart
  const point = (theta: number[], score: number[]) => ({
    theta: Float64Array.from(theta),
    score: Float64Array.from(score),
    information,
    informationScale: new Float64Array(4).fill(2),
  })

  it('solves the information equations where no bound is near', () => {
    const { delta } = proposeStep(point([9, 9, 9, 9], [1.9, 1.9, 5, 2]), domain, 0)
    // (1 0.9; 0.9 1) δ = (1.9, 1.9) has the solution (1, 1); the held component stays.
    expect([...delta].map((x) => Number(x.toFixed(6)))).toEqual([1, 1, 0, 2])
  })

  it('keeps a component off its bound that only another one pulls there', () => {
    // Unbounded, pilot would move by (0.1 + 0.9 · 2) / 0.19 = 10 and session by -11. With session
    // stopped at zero, one unit down, pilot moves by 0.1 + 0.9 · 1 = 1.
    const { delta, reachesBound } = proposeStep(point([5, 1, 0, 1], [0.1, -2, 0, 0]), domain, 0)
    expect(delta[1]).toBe(-1)
    expect(delta[0]).toBeCloseTo(1, 6)
    expect(reachesBound).toBe(true)
  })

  it('stays where the score points out of the bounds', () => {
    const { delta, decrement } = proposeStep(point([0, 0, 0, 0], [-1, -1, 3, -1]), domain, 0)
    expect([...delta]).toEqual([0, 0, 0, 0])
    expect(decrement).toBe(0)
  })

  it('shortens with damping and keeps a tenth of each variance', () => {
    const at = point([1, 1, 1, 1], [0, -50, 0, 0.5])
    const plain = proposeStep(at, domain, 0)
    const damped = proposeStep(at, domain, 1)
    expect(plain.delta[1]).toBe(-1)
    expect(damped.delta[1]).toBeCloseTo(-0.9, 12)
    expect(damped.delta[3]!).toBeLessThan(plain.delta[3]!)
  })
})

describe('the search', () => {
  // Regression cases met in simulated campaigns. Two have a lower maximum at zero where the first
  // search ends (found by trying nine starts); the other two once ran out of evaluations.
  it.each([
    { seed: 1282, pilots: 3, setups: 5, small: false, gain: 0.0329543 },
    { seed: 1779, pilots: 3, setups: 6, small: true, gain: 0.1086479 },
  ])('crosses over to a higher maximum on the other side of zero (seed $seed)', (shape) => {
    const scatter = (
      [
        [0.02, 0.03, 0.015, 0.02],
        [0, 0.03, 0, 0.02],
        [0.03, 0, 0.01, 0.02],
        [0.002, 0.03, 0.002, 0.01],
      ] as const
    )[shape.seed % 4]!
    const layout = buildLayout(
      simulateRuns({
        seed: shape.seed,
        pilots: shape.pilots,
        sessionsPerPilot: shape.small ? 3 : 6,
        setupsPerSession: 3,
        runsPerCell: shape.small ? 2 : 3,
        setups: shape.setups,
        scatter,
        largestUncertainty: shape.seed % 2 === 0 ? 0.02 : 0,
      }),
    )
    const fit = fitNested(layout)
    const domain = {
      estimable: Uint8Array.from(
        Object.values(fit.status).map((status) => (status === 'notSeparable' ? 0 : 1)),
      ),
      lower: new Float64Array(4),
    }
    const firstStep = fit.search[0]!
    const first = searchTheta(layout, createWorkspace(layout), {
      start: Float64Array.from(Object.values(firstStep.theta)),
      domain,
      options: DEFAULT_FIT_OPTIONS,
    })
    expect(first.converged).toBe(true)
    expect(fit.logLikelihood - first.logLikelihood).toBeCloseTo(shape.gain, 5)
  })

  it('finds a run variance a million times smaller than that of sessions', () => {
    const run = (y: number, session: string) => ({ y, u: 0, setup: 'a', session, pilot: 'p' })
    const fit = fitNested(
      buildLayout([run(1.67368610492, 's'), run(1.67372148114, 's'), run(1.71908778728, 't')]),
    )
    expect(fit.converged).toBe(true)
    // Two readings of one session: half their squared difference.
    expect(fit.theta.run / ((1.67372148114 - 1.67368610492) ** 2 / 2)).toBeCloseTo(1, 4)
  })

  it('reaches the optimum from a start of nothing', () => {
    const layout = buildLayout(
      simulateRuns({
        seed: 337,
        pilots: 6,
        sessionsPerPilot: 5,
        setupsPerSession: 3,
        runsPerCell: 3,
        setups: 5,
        scatter: [0.02, 0.03, 0.015, 0.02],
        largestUncertainty: 0,
      }),
    )
    const fit = fitNested(layout)
    const fromNothing = fitNested(layout, { start: perComponent(() => 0) })
    expect(fromNothing.converged).toBe(true)
    expect(fromNothing.logLikelihood).toBeCloseTo(fit.logLikelihood, 8)
  })
})
