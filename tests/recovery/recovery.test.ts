import { beforeAll, describe, expect, it } from 'vitest'
import { STUDIED, type StudiedMetric } from './study/pairs.ts'
import { type Recovery, recover } from './study/recover.ts'
import { sourcesNamed, switches } from './world/sources.ts'

/**
 * The study of `study.ts` with fewer communities, always the same ones: a failure is a change of the
 * method or of the world, not bad luck.
 */
const COMMUNITIES = { 12: 24, 30: 12, 120: 5 } as const
type Size = keyof typeof COMMUNITIES
const SIZES = [12, 30, 120] as const satisfies readonly Size[]
const METRICS = Object.keys(STUDIED) as StudiedMetric[]
const CASES = SIZES.flatMap((size) => METRICS.map((metric) => [size, metric] as const))

const seedsUpTo = (last: number) => Array.from({ length: last }, (_, seed) => seed + 1)

/**
 * Pairs of one community share flights and errors, so only communities are independent. Over 60 to 100
 * communities of each size (values computed by the team) the coverage of one community scatters by 0.09
 * at most, small and large differences apart, and its mean squared score by 0.6 at 12 and 30 pilots and
 * 0.5 at 120. Three standard errors: 0.09·3/√n and about 0.6 for the n of this test.
 */
const COVERAGE_SD = 0.09
/** The most asked for, 0.98, cannot be told from 1 by so few; too wide intervals are found by the score below. */
const LEAST_COVERAGE = 0.93
/**
 * Mean of (error / standard error)²: 1 where spreads are told rightly. The upper bound finds intervals a
 * fifth too narrow, the lower one intervals 1.4 times too wide, which a coverage near 1 would hide.
 */
const SQUARED_SCORE = { least: 0.5, most: 1.6 } as const

/**
 * Largest error against that of raw means of the same flights [1]: what the project asks for. These
 * communities keep it; over 600 others consumption at 12 pilots stood at 0.234 ± 0.004 (regression value, METHOD.md n).
 */
const MOST_RATIO = 0.25

const found = new Map<Size, Recovery>()
const summaryOf = (size: Size, metric: StudiedMetric) => found.get(size)!.metrics[metric]

beforeAll(() => {
  for (const pilots of SIZES) {
    const seeds = seedsUpTo(COMMUNITIES[pilots])
    found.set(pilots, recover({ pilots, habits: 'season', seeds, on: switches() }))
  }
}, 600_000)

describe('in communities flown by other physics than the normalisation', () => {
  it.each(CASES)(
    'of %i pilots, intervals of %s hold small and large differences',
    (size, metric) => {
      const { coverage, coverageSmall, coverageLarge } = summaryOf(size, metric)
      const least = LEAST_COVERAGE - (3 * COVERAGE_SD) / Math.sqrt(COMMUNITIES[size])
      expect(coverage.mean).toBeGreaterThan(least)
      expect(coverageSmall.mean).toBeGreaterThan(least)
      expect(coverageLarge.mean).toBeGreaterThan(least)
    },
  )

  it.each(CASES)('of %i pilots, errors of %s are as large as told, not smaller', (size, metric) => {
    const squared = summaryOf(size, metric).rmsScore ** 2
    expect(squared).toBeGreaterThan(SQUARED_SCORE.least)
    expect(squared).toBeLessThan(SQUARED_SCORE.most)
  })

  it.each(CASES)('of %i pilots, %s comes closer to the truth than raw means do', (size, metric) => {
    expect(summaryOf(size, metric).ratio.mean).toBeLessThan(MOST_RATIO)
  })

  it.each(CASES)('of %i pilots, every fit of %s converges', (size, metric) => {
    expect(summaryOf(size, metric).unconverged).toBe(0)
  })

  it('more pilots make narrower intervals', () => {
    for (const metric of METRICS) {
      const [few, some, many] = SIZES.map((size) => summaryOf(size, metric).width)
      expect(some!).toBeLessThan(few!)
      expect(many!).toBeLessThan(some!)
    }
  })
})

describe('in a community without any error, flown by the physics of the normalisation', () => {
  // What is left: climbs integrated over height against the air in their middle, moist air well mixed,
  // and height not held, to first order: up to 0.1 % for a climb and a few tenths for a burn.
  const on = switches({
    without: sourcesNamed(['wings', 'propulsion', 'weather', 'air', 'readings']),
  })
  const { metrics } = recover({ pilots: 30, habits: 'season', seeds: seedsUpTo(3), on })

  it('the truth is found', () => {
    expect(metrics.climbRate.rmse).toBeLessThan(0.001)
    expect(metrics.fuelFlow.rmse).toBeLessThan(0.003)
  })

  it('raw means still miss it by a tenth', () => {
    expect(metrics.climbRate.rmseRaw).toBeGreaterThan(0.1)
    expect(metrics.fuelFlow.rmseRaw).toBeGreaterThan(0.1)
  })
})
