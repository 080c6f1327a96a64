import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { climbThrustN } from '../../../src/core/normalise/model/climb-thrust.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { monteCarlo } from '../../../src/core/uncertainty/monte-carlo.ts'
import type { UncertainInput } from '../../../src/core/uncertainty/propagate.ts'
import { checkValue } from '../normalise/check-values.ts'

const input = (value: number, u: number, more: Partial<UncertainInput> = {}): UncertainInput => ({
  source: '',
  value,
  standardUncertainty: u,
  sharedWithinSession: false,
  ...more,
})
const sum = (x: Float64Array, y: Float64Array) => {
  y[0] = x.reduce((total, value) => total + value, 0)
}

describe('monteCarlo', () => {
  // JCGM 101:2008, 9.2.3: the sum of four rectangular quantities of u = 1. Published (recalled): u = 2.00,
  // 95 % coverage interval ±3.88; the exact half-width is 3.879. GUM's normal interval is ±3.92. With 1e6
  // draws the ends of the interval have a standard error of about 0.004, the mean one of 0.002.
  it('gives the sum of four rectangular quantities its exact interval', () => {
    const [u, halfWidth] = checkValue('jcgm101-923').expected as readonly number[]
    const inputs = Array.from({ length: 4 }, () => input(0, 1, { distribution: 'rectangular' }))
    const { outputs } = monteCarlo(inputs, 1, sum, { draws: 1_000_000, random: new Pcg32(923) })
    const { mean, standardUncertainty, interval95 } = outputs[0]!
    expect(Math.abs(mean)).toBeLessThan(0.008)
    expect(Math.abs(standardUncertainty - u!)).toBeLessThan(0.006)
    expect(Math.abs(interval95[0] + halfWidth!)).toBeLessThan(0.016)
    expect(Math.abs(interval95[1] - halfWidth!)).toBeLessThan(0.016)
    // Not the interval of a normal distribution.
    expect(interval95[1]).toBeLessThan(3.905)
  })

  it('gives the sum of four normal quantities the interval of a normal distribution', () => {
    const inputs = Array.from({ length: 4 }, () => input(1, 1))
    const { outputs } = monteCarlo(inputs, 1, sum, { draws: 200_000, random: new Pcg32(1) })
    expect(Math.abs(outputs[0]!.interval95[1] - (4 + 2 * 1.96))).toBeLessThan(0.04)
  })

  // Worked budget 1 of METHOD.md, section j and computed by the team: mean 391.4 N,
  // sd 30.4 N, 95 % from 334 to 454 N; linear 389 N and 29.95 N.
  it('has the figures of worked budget 1', () => {
    const inputs = [input(120, 2), input(2, 0.2), input(10.5, 0.5), input(7, 0.7)]
    const { outputs, failedDraws } = monteCarlo(
      inputs,
      1,
      (x, y) => {
        y[0] = climbThrustN(x[0]!, x[1]! / x[2]!, x[3]!)
      },
      { draws: 200_000, random: new Pcg32(2) },
    )
    const { mean, standardUncertainty, interval95 } = outputs[0]!
    expect(failedDraws).toBe(0)
    // Standard error of the mean 0.07 N, of the standard deviation 0.05 N, of the ends about 0.2 N.
    expect(Math.abs(mean - 391.4)).toBeLessThan(0.3)
    expect(Math.abs(standardUncertainty - 30.42)).toBeLessThan(0.2)
    expect(Math.abs(interval95[0] - 334)).toBeLessThan(1.2)
    expect(Math.abs(interval95[1] - 454)).toBeLessThan(1.2)
  })

  it('gives the same for the same seed and something else for another', () => {
    const run = (seed: number) =>
      monteCarlo([input(0, 1)], 1, sum, { draws: 1000, random: new Pcg32(seed) })
    expect(run(7)).toEqual(run(7))
    expect(run(7).outputs[0]!.mean).not.toBe(run(8).outputs[0]!.mean)
  })

  it('keeps a bounded input inside its bounds, and exact inputs exact', () => {
    const inputs = [input(98, 15, { min: 0, max: 100 }), input(3, 0)]
    let most = 0
    monteCarlo(
      inputs,
      1,
      (x, y) => {
        most = Math.max(most, x[0]!)
        expect(x[1]).toBe(3)
        y[0] = x[0]!
      },
      { draws: 5000, random: new Pcg32(3) },
    )
    expect(most).toBeLessThanOrEqual(100)
    expect(most).toBeGreaterThan(99.5)
  })

  it('cuts a normal input off at its bounds and does not pile it up there', () => {
    // A standard normal cut off below at 0 has the mean √(2/π) and the variance 1 − 2/π.
    const { outputs } = monteCarlo([input(0, 1, { min: 0 })], 1, sum, {
      draws: 100_000,
      random: new Pcg32(4),
    })
    expect(Math.abs(outputs[0]!.mean - Math.sqrt(2 / Math.PI))).toBeLessThan(0.008)
    expect(Math.abs(outputs[0]!.standardUncertainty ** 2 - (1 - 2 / Math.PI))).toBeLessThan(0.008)
  })

  it('leaves out and counts the draws that have no answer', () => {
    const { outputs, failedDraws } = monteCarlo(
      [input(0, 1)],
      1,
      (x, y) => {
        y[0] = x[0]! > 0 ? x[0]! : Number.NaN
      },
      { draws: 10_000, random: new Pcg32(5) },
    )
    expect(Math.abs(failedDraws - 5000)).toBeLessThan(200)
    expect(outputs[0]!.interval95[0]).toBeGreaterThan(0)
  })

  it('gives NaN, not a number, where the model never has an answer', () => {
    const nowhere = monteCarlo(
      [input(0, 1)],
      1,
      (_, y) => {
        y[0] = Number.NaN
      },
      { draws: 100, random: new Pcg32(6) },
    )
    expect(nowhere.failedDraws).toBe(100)
    expect(nowhere.outputs[0]!.mean).toBeNaN()
    expect(nowhere.outputs[0]!.interval95[0]).toBeNaN()
  })

  it.each([0, 99, 1e8, Number.NaN])('refuses %d draws', (draws) => {
    const random = new Pcg32(1)
    expect(() => monteCarlo([input(0, 1)], 1, sum, { draws, random })).toThrow(OutOfRangeError)
  })
})
