import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { OutOfRangeError } from '../../../src/core/errors.ts'
import { evaluateAt } from '../../../src/core/mixed/evaluate.ts'
import { fitNested, REFRESH_TOLERANCE } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Layout } from '../../../src/core/mixed/layout.ts'
import { slopesOfCovariance } from '../../../src/core/mixed/slopes.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'

/** A community of so many pilots with four evenings each, three setups an evening, two runs each. */
function community(pilots: number, seed: number, cellScatter = 0.015): Layout {
  const random = new Pcg32(seed, 7)
  const runs = []
  for (let p = 0; p < pilots; p++) {
    const pilot = 0.02 * random.normal()
    for (let s = 0; s < 4; s++) {
      const session = pilot + 0.03 * random.normal()
      for (let c = 0; c < 3; c++) {
        const setup = (p + s * (1 + c) + c) % 9
        const cell = session + cellScatter * random.normal()
        for (let i = 0; i < 2; i++) {
          const u = 0.02 * random.uniform()
          const y = 0.01 * setup + cell + Math.hypot(0.02, u) * random.normal()
          runs.push({ setup: `k${setup}`, session: `s${p}.${s}`, pilot: `p${p}`, y, u })
        }
      }
    }
  }
  return buildLayout(runs)
}

const seeds = fc.integer({ min: 1, max: 10_000 })

describe('a start that is kept', () => {
  it('gives the model at that start, bit for bit', () => {
    const start = fitNested(community(40, 1)).theta
    const layout = community(40, 1)
    const kept = fitNested(layout, { start, keepStart: REFRESH_TOLERANCE })
    const there = evaluateAt(layout, start)
    expect(kept.keptStart).not.toBeNull()
    expect(kept.search).toEqual([])
    expect(kept.theta).toEqual(start)
    for (const part of ['beta', 'covariance', 'score', 'logLikelihood'] as const) {
      expect(kept[part], part).toEqual(there[part])
    }
    const slopes = slopesOfCovariance(there.covariance, there.sensitivity, kept.setups.length)
    expect(kept.covarianceSlope).toEqual(slopes)
    expect(fitNested(community(40, 1), { start, keepStart: REFRESH_TOLERANCE })).toEqual(kept)
  })

  it('moves no estimate by more of a standard error than it says, whatever the start', () => {
    fc.assert(
      fc.property(
        seeds,
        fc.array(fc.double({ min: 0.7, max: 1.4, noNaN: true }), { minLength: 4, maxLength: 4 }),
        (seed, factors) => {
          const layout = community(25, seed)
          const best = fitNested(layout)
          const { pilot, session, cell, run } = best.theta
          const start = {
            pilot: pilot * factors[0]!,
            session: session * factors[1]!,
            cell: cell * factors[2]!,
            run: run * factors[3]!,
          }
          const fit = fitNested(layout, { start, keepStart: REFRESH_TOLERANCE })
          expect(fit.converged).toBe(true)
          if (fit.keptStart === null) {
            expect(fit.logLikelihood).toBeCloseTo(best.logLikelihood, 6)
            return
          }
          expect(fit.keptStart.decrement).toBeLessThan(REFRESH_TOLERANCE.decrement)
          // Twice the loss of log-likelihood is λ² to first order.
          expect(2 * (best.logLikelihood - fit.logLikelihood)).toBeLessThan(
            2 * REFRESH_TOLERANCE.decrement,
          )
          const worst = worstShift(layout.setupCount, fit, best)
          expect(worst).toBeLessThan(2 * REFRESH_TOLERANCE.shift)
        },
      ),
      { numRuns: 60 },
    )
  })

  it('is not kept where the data ask for another: then the optimum is that of a fit without start', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const layout = community(25, seed)
        const best = fitNested(layout)
        const { pilot, session, cell, run } = best.theta
        const start = { pilot, session: 3 * session, cell, run }
        const fit = fitNested(layout, { start, keepStart: REFRESH_TOLERANCE })
        expect(fit.keptStart).toBeNull()
        expect(worstShift(layout.setupCount, fit, best)).toBeLessThan(1e-4)
      }),
      { numRuns: 30 },
    )
  })

  it('is gone on from alone where it is near, though a component is at zero', () => {
    const layouts = Array.from({ length: 20 }, (_, seed) => community(25, seed, 0))
    const atZero = layouts.filter((layout) => fitNested(layout).status.cell === 'notDetected')
    expect(atZero.length).toBeGreaterThan(0)
    for (const layout of atZero) {
      const best = fitNested(layout)
      const near = { ...best.theta, run: best.theta.run * 1.02 }
      const fit = fitNested(layout, { start: near, keepStart: REFRESH_TOLERANCE })
      const anew = fitNested(layout, { start: near })
      expect(fit.keptStart).toBeNull()
      expect(fit.logLikelihood).toBeCloseTo(best.logLikelihood, 8)
      expect(fit.search.length).toBeLessThan(anew.search.length)
      const far = { ...best.theta, run: best.theta.run * 3 }
      expect(fitNested(layout, { start: far, keepStart: REFRESH_TOLERANCE }).search).toEqual(
        fitNested(layout, { start: far }).search,
      )
    }
  })

  it('is asked for with a tolerance above zero', () => {
    const keepStart = { decrement: 0, shift: 0.01 }
    expect(() => fitNested(community(3, 1), { keepStart })).toThrow(OutOfRangeError)
  })
})

interface Means {
  readonly beta: Float64Array
  readonly covariance: Float64Array
}

/** Largest change of a difference of two setups, in its standard errors. */
function worstShift(K: number, fit: Means, best: Means): number {
  let worst = 0
  for (let a = 0; a < K; a++) {
    for (let b = 0; b < a; b++) {
      const difference = ({ beta }: Means) => beta[a]! - beta[b]!
      const C = best.covariance
      const variance = C[a + a * K]! + C[b + b * K]! - 2 * C[a + b * K]!
      worst = Math.max(worst, Math.abs(difference(fit) - difference(best)) / Math.sqrt(variance))
    }
  }
  return worst
}
