import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { propagate, type UncertainInput } from '../../../src/core/uncertainty/propagate.ts'

const input = (
  value: number,
  u: number,
  bounds: { min?: number; max?: number } = {},
): UncertainInput => ({
  source: 'x',
  value,
  standardUncertainty: u,
  sharedWithinSession: false,
  ...bounds,
})

describe('propagate', () => {
  it('is exact for a linear model, sign included, in every output', () => {
    const { values, contributions } = propagate([input(1, 0.5), input(2, 0.25)], 2, (x, y) => {
      y[0] = 3 * x[0]! - 4 * x[1]!
      y[1] = x[1]!
    })
    expect([...values]).toEqual([-5, 2])
    expect([...contributions]).toEqual([1.5, 0, -1, 0.25])
  })

  it('uses a step of one standard uncertainty', () => {
    // Central difference of x³ at 1 with step 2: (27 + 1)/4 = 7, not the derivative 3.
    const { contributions } = propagate([input(1, 2)], 1, (x, y) => {
      y[0] = x[0]! ** 3
    })
    expect(contributions[0]).toBe(14)
  })

  it('becomes one-sided at a bound', () => {
    const { contributions } = propagate([input(100, 10, { max: 100 })], 1, (x, y) => {
      y[0] = x[0]! > 100 ? Number.NaN : 2 * x[0]!
    })
    expect(contributions[0]).toBeCloseTo(20, 12)
  })

  it('shortens the step where the model has no answer', () => {
    const { contributions } = propagate([input(1, 2)], 1, (x, y) => {
      y[0] = x[0]! > 0 ? 5 * x[0]! : Number.NaN
    })
    expect(contributions[0]).toBeCloseTo(10, 12)
  })

  it('gives NaN, not a number, where the model has no answer anywhere near', () => {
    const { contributions } = propagate([input(1, 2)], 1, (x, y) => {
      y[0] = x[0] === 1 ? 5 : Number.NaN
    })
    expect(contributions[0]).toBeNaN()
  })

  it('does not evaluate the model for exact inputs', () => {
    let calls = 0
    propagate([input(1, 0), input(2, 0)], 1, (_, y) => {
      calls++
      y[0] = 0
    })
    expect(calls).toBe(1)
  })

  it('does not depend on the order of the inputs', () => {
    const u = fc.double({ min: 0.001, max: 1, noNaN: true })
    fc.assert(
      fc.property(u, u, u, (a, b, c) => {
        const ahead = propagate([input(1, a), input(2, b), input(3, c)], 1, (x, y) => {
          y[0] = x[0]! * x[1]! + x[2]! ** 2
        })
        const back = propagate([input(3, c), input(2, b), input(1, a)], 1, (x, y) => {
          y[0] = x[2]! * x[1]! + x[0]! ** 2
        })
        expect([...back.contributions].reverse()).toEqual([...ahead.contributions])
      }),
    )
  })
})
