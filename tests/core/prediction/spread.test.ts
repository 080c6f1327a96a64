import { describe, expect, it } from 'vitest'

import { type Scale, spreadOf, type Unknown } from '../../../src/core/prediction/spread.ts'

/** 97.5 % point of the normal distribution, and of Student's t with 5 degrees of freedom (any table). */
const NORMAL = 1.959964
const T5 = 2.570582

const spreadOfOne = (
  unknowns: readonly Unknown[],
  model: (x: Float64Array) => number,
  scale: Scale = 'difference',
) => spreadOf(unknowns, (x) => Float64Array.of(model(x)), [scale])[0]!

const a: Unknown = { source: 'a', value: 3, standardUncertainty: 0.2 }
const b: Unknown = { source: 'b', value: -1, standardUncertainty: 0.1 }

describe('spreadOf', () => {
  it('is the law of propagation for a linear model', () => {
    const spread = spreadOfOne([a, b], (x) => 5 + 2 * x[0]! - 4 * x[1]!)
    expect(spread.value).toBe(15)
    expect(spread.standardUncertainty).toBeCloseTo(Math.hypot(2 * 0.2, 4 * 0.1), 12)
    expect(spread.interval95[0]).toBeCloseTo(15 - NORMAL * Math.hypot(0.4, 0.4), 5)
    expect(spread.interval95[1]).toBeCloseTo(15 + NORMAL * Math.hypot(0.4, 0.4), 5)
  })

  it('reads the interval of a single unknown through the model, by its own t', () => {
    const unknown = { ...a, degreesOfFreedom: 5 }
    const spread = spreadOfOne([unknown], (x) => Math.exp(x[0]!), 'difference')
    expect(spread.interval95[0]).toBeCloseTo(Math.exp(3 - T5 * 0.2), 4)
    expect(spread.interval95[1]).toBeCloseTo(Math.exp(3 + T5 * 0.2), 4)
    const falling = spreadOfOne([unknown], (x) => Math.exp(-x[0]!), 'ratio')
    expect(falling.interval95[0]).toBeCloseTo(Math.exp(-3 - T5 * 0.2), 6)
    expect(falling.interval95[1]).toBeCloseTo(Math.exp(-3 + T5 * 0.2), 6)
  })

  it('is exact for a product of logarithmic errors on the scale of ratios', () => {
    const spread = spreadOfOne([a, b], (x) => Math.exp(x[0]! + x[1]!), 'ratio')
    const reach = NORMAL * Math.hypot(0.2, 0.1)
    expect(Math.log(spread.interval95[0])).toBeCloseTo(2 - reach, 5)
    expect(Math.log(spread.interval95[1])).toBeCloseTo(2 + reach, 5)
  })

  it('shares the variance out, largest first, and leaves out what does nothing', () => {
    const idle: Unknown = { source: 'idle', value: 1, standardUncertainty: 9 }
    const known: Unknown = { source: 'known', value: 1, standardUncertainty: 0 }
    const { budget } = spreadOfOne([b, idle, known, a], (x) => x[0]! + 2 * x[3]!)
    expect(budget.map(({ source }) => source)).toEqual(['a', 'b'])
    expect(budget[0]!.standardUncertainty).toBeCloseTo(0.4, 12)
    expect(budget[0]!.share).toBeCloseTo(0.16 / 0.17, 12)
    expect(budget[1]!.share).toBeCloseTo(0.01 / 0.17, 12)
  })

  it('never asks the model outside the bounds of an unknown', () => {
    const bounded: Unknown = { ...a, min: 2.9, max: 3.1 }
    const asked: number[] = []
    const spread = spreadOfOne([bounded], (x) => {
      asked.push(x[0]!)
      return x[0]!
    })
    expect(Math.min(...asked)).toBe(2.9)
    expect(Math.max(...asked)).toBe(3.1)
    expect(spread.interval95).toEqual([2.9, 3.1])
  })

  it('holds both sides where the model turns round', () => {
    const spread = spreadOfOne([{ ...a, value: 0 }], (x) => x[0]! ** 2)
    expect(spread.interval95[0]).toBe(0)
    expect(spread.interval95[1]).toBeCloseTo((NORMAL * 0.2) ** 2, 6)
  })
})
