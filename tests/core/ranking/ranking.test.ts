import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { pScores } from '../../../src/core/ranking/p-score.ts'
import { drawRanks, IndefiniteCovarianceError } from '../../../src/core/ranking/rank-draws.ts'
import { rankIntervals } from '../../../src/core/ranking/rank-interval.ts'
import {
  type Better,
  type RankedQuantity,
  standardErrorsOfDifferences,
} from '../../../src/core/ranking/ranked-quantity.ts'
import { readReference } from '../mixed/reference-fits.ts'

interface NetworkEstimates {
  readonly treat: readonly string[]
  readonly est: readonly number[]
  readonly cov: readonly (readonly number[])[]
  readonly pscore_lower_better: readonly number[]
}

const independent = (
  estimates: readonly number[],
  errors: readonly number[],
  better: Better = 'higher',
): RankedQuantity => {
  const m = estimates.length
  const covariance = new Float64Array(m * m)
  errors.forEach((error, k) => {
    covariance[k + k * m] = error ** 2
  })
  return { estimates, standardErrors: standardErrorsOfDifferences(covariance, m), better }
}

const items = fc.uniqueArray(fc.double({ min: -3, max: 3, noNaN: true }), {
  minLength: 2,
  maxLength: 8,
})

describe('pScores', () => {
  // Source: metafor 3.8-1 on dat.senn2013, tests/reference/inference/senn2013_pscores.json.
  it.each(['common', 'random'] as const)('gives the scores of R for the %s model', (model) => {
    const file = readReference<Record<typeof model, NetworkEstimates>>('senn2013_pscores')[model]
    const m = file.est.length
    const standardErrors = standardErrorsOfDifferences(file.cov.flat(), m)
    const scores = pScores({ estimates: file.est, standardErrors, better: 'lower' })
    expect(m).toBe(10)
    file.pscore_lower_better.forEach((expected, k) => {
      expect(Math.abs(scores[k]! - expected)).toBeLessThan(1e-6)
    })
  })

  it('have the mean one half and turn round with the direction', () => {
    fc.assert(
      fc.property(items, (estimates) => {
        const errors = estimates.map((_, k) => 0.1 + 0.2 * k)
        const up = pScores(independent(estimates, errors))
        const down = pScores(independent(estimates, errors, 'lower'))
        const mean = up.reduce((sum, x) => sum + x, 0) / estimates.length
        expect(mean).toBeCloseTo(0.5, 12)
        up.forEach((score, k) => {
          expect(score + down[k]!).toBeCloseTo(1, 12)
        })
      }),
    )
  })

  it('count exact differences as certain and equal items as even', () => {
    expect([...pScores(independent([1, 2, 2], [0, 0, 0]))]).toEqual([0, 0.75, 0.75])
    expect([...pScores(independent([5], [1]))]).toEqual([1])
  })

  it('know nothing where the standard error is infinite', () => {
    const standardErrors = [0, Infinity, Infinity, 0]
    expect([...pScores({ estimates: [1, 9], standardErrors, better: 'higher' })]).toEqual([
      0.5, 0.5,
    ])
  })

  it('refuse a malformed quantity', () => {
    const estimates = [1, 2]
    const better = 'higher'
    expect(() => pScores({ estimates, standardErrors: [1], better })).toThrow(
      'standardErrors.length',
    )
    expect(() => pScores({ estimates, standardErrors: [0, -1, 1, 0], better })).toThrow(
      'standard error',
    )
    const notANumber = { estimates: [1, Number.NaN], standardErrors: [0, 1, 1, 0], better } as const
    expect(() => pScores(notANumber)).toThrow('estimate 1')
  })
})

describe('rankIntervals', () => {
  it('is the whole range where nothing is known and the rank where all is', () => {
    expect(rankIntervals(independent([1, 2, 3], [1e9, 1e9, 1e9]))).toEqual(
      Array(3).fill({ lowest: 1, highest: 3 }),
    )
    expect(rankIntervals(independent([1, 2, 3], [0, 0, 0]))).toEqual([
      { lowest: 3, highest: 3 },
      { lowest: 2, highest: 2 },
      { lowest: 1, highest: 1 },
    ])
  })

  it("steps down by Holm's rule over the one-sided hypotheses", () => {
    // Item 0 against two others: one-sided p-values for z = 2.3 and 2.0 are 0.0107 and 0.0228. With
    // α = 0.05 the first must pass 0.05 / 4 = 0.0125, the second 0.05 / 3 = 0.0167: only one is shown.
    // (Tail probabilities: any table of the normal distribution.)
    const unit = { standardErrors: [0, 1, 1, 1, 0, 1, 1, 1, 0], better: 'higher' } as const
    expect(rankIntervals({ estimates: [0, -2.3, -2], ...unit })[0]).toEqual({
      lowest: 1,
      highest: 2,
    })
    // z = 2.3 and 2.2, p = 0.0139: now both pass; the second would fail at 0.0125.
    expect(rankIntervals({ estimates: [0, -2.3, -2.2], ...unit })[0]).toEqual({
      lowest: 1,
      highest: 1,
    })
    // z = 2.2 twice: the first fails at 0.0125, so nothing is shown.
    expect(rankIntervals({ estimates: [0, -2.2, -2.2], ...unit })[0]).toEqual({
      lowest: 1,
      highest: 3,
    })
  })

  it('widens when the errors have few degrees of freedom', () => {
    const quantity = independent([0, 3], [0.7, 0.7])
    expect(rankIntervals(quantity)[0]).toEqual({ lowest: 2, highest: 2 })
    const few = { ...quantity, degreesOfFreedom: [2, 2, 2, 2] }
    expect(rankIntervals(few)[0]).toEqual({ lowest: 1, highest: 2 })
  })

  it('always holds the observed rank and never narrows with confidence', () => {
    fc.assert(
      fc.property(items, fc.constantFrom<Better>('higher', 'lower'), (estimates, better) => {
        const quantity = independent(
          estimates,
          estimates.map(() => 0.4),
          better,
        )
        const wide = rankIntervals(quantity, 0.99)
        rankIntervals(quantity, 0.8).forEach(({ lowest, highest }, k) => {
          const ahead = estimates.filter((x) =>
            better === 'higher' ? x > estimates[k]! : x < estimates[k]!,
          )
          expect(lowest).toBeLessThanOrEqual(1 + ahead.length)
          expect(highest).toBeGreaterThanOrEqual(1 + ahead.length)
          expect(wide[k]!.lowest).toBeLessThanOrEqual(lowest)
          expect(wide[k]!.highest).toBeGreaterThanOrEqual(highest)
        })
      }),
    )
  })

  it('holds the true rank in simulated estimates at least as often as it claims', () => {
    const random = new Pcg32(11)
    const truth = [0, 0.5, 1, 1.5, 4]
    const draws = 400
    const missed = truth.map(() => 0)
    for (let draw = 0; draw < draws; draw++) {
      const estimates = truth.map((mean) => mean + 0.5 * random.normal())
      rankIntervals(
        independent(
          estimates,
          truth.map(() => 0.5),
        ),
        0.9,
      ).forEach((interval, k) => {
        const rank = truth.length - k
        if (rank < interval.lowest || rank > interval.highest) missed[k]!++
      })
    }
    // 10 % of 400 is 40 with standard error 6; the method is conservative, so 40 + 4 · 6 is ample.
    for (const count of missed) expect(count).toBeLessThan(64)
  })

  it('refuses a level that is no confidence', () => {
    expect(() => rankIntervals(independent([1, 2], [1, 1]), 1)).toThrow('level')
  })
})

describe('drawRanks', () => {
  const joint = (estimates: number[], covariance: number[], better: Better = 'higher') => ({
    estimates,
    covariance,
    better,
  })

  it('gives two items the probability of the normal distribution', () => {
    // Difference 1 with variance 1 + 1 − 2 · 0.5 = 1: Φ(1) = 0.8413. Standard error of 20000 draws
    // 0.0026, four of them 0.0103.
    const found = drawRanks(joint([1, 0], [1, 0.5, 0.5, 1]), new Pcg32(5), 20_000)
    expect(Math.abs(found.probabilityBest[0]! - 0.8413)).toBeLessThan(0.0103)
    expect([...found.medianRank]).toEqual([1, 2])
  })

  it('is repeatable from its seed', () => {
    const once = drawRanks(joint([1, 0], [1, 0, 0, 1]), new Pcg32(6), 500)
    expect(drawRanks(joint([1, 0], [1, 0, 0, 1]), new Pcg32(6), 500)).toEqual(once)
  })

  it('sums to one over items and over ranks', () => {
    const found = drawRanks(joint([1, 0, 0.5], [1, 0, 0, 0, 1, 0, 0, 0, 1]), new Pcg32(7), 300)
    expect(found.probabilityBest.reduce((sum, x) => sum + x, 0)).toBeCloseTo(1, 12)
    for (let k = 0; k < 3; k++) {
      const overRanks = [0, 1, 2].reduce((sum, r) => sum + found.probabilityOfRank[k + 3 * r]!, 0)
      expect(overRanks).toBeCloseTo(1, 12)
      expect(found.probabilityOfRank[k]!).toBeCloseTo(found.probabilityBest[k]!, 12)
    }
  })

  it('ignores what all items share and takes a covariance without full rank', () => {
    // Perfectly correlated: the order of the estimates is certain.
    const same = drawRanks(joint([1, 2, 3], new Array(9).fill(1e6)), new Pcg32(8), 50)
    expect([...same.medianRank]).toEqual([3, 2, 1])
    expect([...same.probabilityBest]).toEqual([0, 0, expect.closeTo(1, 12)])
    const lower = drawRanks(joint([1, 2, 3], new Array(9).fill(1e6), 'lower'), new Pcg32(8), 50)
    expect([...lower.medianRank]).toEqual([1, 2, 3])
  })

  it('shares the first place between ties', () => {
    const found = drawRanks(joint([2, 2, 1], new Array(9).fill(0)), new Pcg32(9), 10)
    expect(found.probabilityBest[0]!).toBeCloseTo(0.5, 12)
    expect(found.probabilityBest[1]!).toBeCloseTo(0.5, 12)
    expect([...found.medianRank]).toEqual([1, 1, 3])
  })

  it('ranks a single item first', () => {
    const found = drawRanks(joint([4], [1]), new Pcg32(10), 5)
    expect([...found.medianRank]).toEqual([1])
    expect(found.probabilityBest[0]!).toBeCloseTo(1, 12)
  })

  it('refuses what is no covariance', () => {
    const random = new Pcg32(1)
    expect(() => drawRanks(joint([1, 2], [1, 2, 2, 1]), random, 5)).toThrow(
      IndefiniteCovarianceError,
    )
    expect(() => drawRanks(joint([1, 2], [1]), random, 5)).toThrow('covariance.length')
    expect(() => drawRanks(joint([1], [1]), random, 0)).toThrow('draws')
    expect(() => drawRanks(joint([Number.NaN], [1]), random, 1)).toThrow('estimate or covariance')
  })
})
