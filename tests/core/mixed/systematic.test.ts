import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { contrast } from '../../../src/core/mixed/contrasts.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { type SystematicReach, systematicTerms } from '../../../src/core/mixed/systematic.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'

/** Pilots with two sessions each; a and b in all of them, c in those of the even pilots. */
function campaign(pilots: number, seed = 3): Observation[] {
  const random = new Pcg32(seed)
  const rows: Observation[] = []
  for (let p = 0; p < pilots; p++) {
    const pilot = 0.04 * random.normal()
    for (let s = 0; s < 2; s++) {
      const day = pilot + 0.03 * random.normal()
      for (const setup of p % 2 === 0 ? ['a', 'b', 'c'] : ['a', 'b']) {
        const cell = day + 0.02 * random.normal()
        for (let i = 0; i < 2; i++) {
          rows.push({
            setup,
            session: `${p}-${s}`,
            pilot: `${p}`,
            u: 0.02,
            y: cell + 0.02 * random.normal(),
          })
        }
      }
    }
  }
  return rows
}

function termOf(rows: readonly Observation[], reach: SystematicReach, effect: readonly number[]) {
  const layout = buildLayout(rows)
  const fit = fitNested(layout)
  const [term] = systematicTerms(layout, fit, [{ cause: 'x', reach, effect }])
  const at = (a: string, b: string) =>
    term!.covariance[fit.setups.indexOf(a) + 3 * fit.setups.indexOf(b)]!
  return {
    fit,
    layout,
    at,
    difference: (a: string, b: string) => at(a, a) + at(b, b) - 2 * at(a, b),
  }
}

/** Estimates of the same model at the same variances from other values. */
function refit(
  rows: readonly Observation[],
  y: readonly number[],
  fit: ReturnType<typeof fitNested>,
) {
  const layout = buildLayout(rows.map((row, i) => ({ ...row, y: y[i]! })))
  return fitNested(layout, { fixed: { ...fit.theta } })
}

describe('systematicTerms', () => {
  const rows = campaign(8)

  it('is what the estimator makes of the effect, for an error that everybody carries', () => {
    const random = new Pcg32(11)
    const effect = rows.map(() => random.normal())
    const { fit, at } = termOf(rows, 'everyone', effect)
    const estimates = refit(rows, effect, fit)
    const of = (setup: string) => contrast(estimates, [{ setup, weight: 1 }]).estimate
    for (const a of ['a', 'b', 'c']) {
      for (const b of ['a', 'b', 'c']) expect(at(a, b)).toBeCloseTo(of(a) * of(b), 10)
    }
  })

  it('adds nothing to a difference where both setups carry the same error', () => {
    for (const reach of ['everyone', 'pilot'] as const) {
      const { difference } = termOf(
        rows,
        reach,
        rows.map(() => 0.05),
      )
      expect(Math.abs(difference('a', 'b'))).toBeLessThan(1e-16)
      expect(Math.abs(difference('a', 'c'))).toBeLessThan(1e-16)
    }
  })

  it('adds the squares of two setups that carry errors of their own', () => {
    const size: Record<string, number> = { a: 0.03, b: 0.04, c: 0 }
    const { difference } = termOf(
      rows,
      'setup',
      rows.map(({ setup }) => size[setup]!),
    )
    expect(difference('a', 'b')).toBeCloseTo(0.05 ** 2, 12)
    expect(difference('a', 'c')).toBeCloseTo(0.03 ** 2, 12)
  })

  it('adds nothing to a difference of two setups with one powerplant that carry its error alike', () => {
    const layout = buildLayout(rows)
    const fit = fitNested(layout)
    const causes = [{ cause: 'x', reach: 'powerplant', effect: rows.map(() => 0.03) } as const]
    const differences = (powerplantOf?: (setup: string) => string) => {
      const [term] = systematicTerms(layout, fit, causes, powerplantOf)
      const at = (i: number, j: number) => term!.covariance[i + 3 * j]!
      return [at(0, 0) + at(1, 1) - 2 * at(0, 1), at(0, 0) + at(2, 2) - 2 * at(0, 2)]
    }
    const [sameEngine, otherEngine] = differences((setup) => (setup === 'c' ? 'other' : 'one'))
    expect(Math.abs(sameEngine!)).toBeLessThan(1e-16)
    expect(otherEngine).toBeCloseTo(2 * 0.03 ** 2, 12)
    // Where powerplants are not known, each setup counts as having its own.
    for (const difference of differences()) expect(difference).toBeCloseTo(2 * 0.03 ** 2, 12)
  })

  it('does not shrink with more pilots for everybody’s error, and does for each pilot’s own', () => {
    const effectOn = (all: readonly Observation[]) =>
      all.map(({ setup }) => (setup === 'a' ? 0.02 : 0))
    const variance = (pilots: number, reach: SystematicReach) => {
      const all = campaign(pilots)
      return termOf(all, reach, effectOn(all)).difference('a', 'b')
    }
    expect(variance(32, 'everyone')).toBeCloseTo(variance(8, 'everyone'), 10)
    expect(variance(8, 'everyone')).toBeCloseTo(0.02 ** 2, 10)
    // Four times as many pilots, a quarter of the variance, but for the weights that REML gives.
    const ratio = variance(32, 'pilot') / variance(8, 'pilot')
    expect(ratio).toBeGreaterThan(0.2)
    expect(ratio).toBeLessThan(0.3)
  })

  it('leaves to the variances of pilots and sessions what moves all setups of a session alike', () => {
    const { at } = termOf(
      rows,
      'pilot',
      rows.map(({ pilot }) => Number(pilot) / 10),
    )
    for (const setup of ['a', 'b', 'c']) expect(Math.abs(at(setup, setup))).toBeLessThan(1e-20)
  })

  it('goes with the square of the effect, whatever its sign, for any effect', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<SystematicReach>('everyone', 'powerplant', 'setup', 'pilot'),
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
          minLength: rows.length,
          maxLength: rows.length,
        }),
        (reach, effect) => {
          const once = termOf(rows, reach, effect).at('a', 'b')
          const back = termOf(
            rows,
            reach,
            effect.map((e) => -2 * e),
          ).at('a', 'b')
          expect(back).toBeCloseTo(4 * once, 9)
        },
      ),
      { numRuns: 20 },
    )
  })

  it('gives nothing where no standard error is known', () => {
    const layout = buildLayout([{ setup: 'a', session: 's', pilot: 'p', y: 1, u: 0 }])
    const causes = [{ cause: 'x', reach: 'everyone', effect: [1] } as const]
    expect(systematicTerms(layout, fitNested(layout), causes)).toEqual([])
  })
})

describe('several causes at once', () => {
  // Found by the release's reproduce.R (metafor), which sends each cause through the estimator anew.
  it('have the same terms whatever causes come before them', () => {
    const rows = campaign(6)
    const layout = buildLayout(rows)
    const fit = fitNested(layout)
    const effect = rows.map((row, i) => (row.setup === 'a' ? 0.03 : 0.01) + 0.001 * (i % 3))
    const reaches: readonly SystematicReach[] = ['everyone', 'powerplant', 'setup', 'pilot']
    for (const first of reaches) {
      for (const reach of reaches) {
        const [alone] = systematicTerms(layout, fit, [{ cause: 'x', reach, effect }])
        const [, after] = systematicTerms(layout, fit, [
          { cause: 'w', reach: first, effect },
          { cause: 'x', reach, effect },
        ])
        expect(after!.covariance).toEqual(alone!.covariance)
      }
    }
  })
})
