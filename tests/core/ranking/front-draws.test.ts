import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { drawFront, frontOf } from '../../../src/core/ranking/front-draws.ts'

const points = fc.array(fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 })), {
  minLength: 1,
  maxLength: 12,
})

const diagonal = (variances: readonly number[]) => {
  const m = variances.length
  const c = new Float64Array(m * m)
  for (const [k, v] of variances.entries()) c[k * (m + 1)] = v
  return c
}

describe('frontOf', () => {
  it('is what its definition says, ties included', () => {
    fc.assert(
      fc.property(points, (all) => {
        const [x, y] = [all.map((p) => p[0]), all.map((p) => p[1])]
        const expected = all.flatMap(([a, b], k) =>
          all.some(([c, d]) => c >= a && d >= b && (c > a || d > b)) ? [] : [k],
        )
        expect(frontOf(x, y).sort((p, q) => p - q)).toEqual(expected)
      }),
    )
  })
})

describe('drawFront', () => {
  it('is certain without uncertainty', () => {
    const { probabilityOnFront } = drawFront(
      { estimates: [3, 2, 1], covariance: diagonal([0, 0, 0]), better: 'higher' },
      { estimates: [3, 1, 2], covariance: diagonal([0, 0, 0]), better: 'lower' },
      { random: new Pcg32(1), draws: 10 },
    )
    // Fast and thirsty, middling and thrifty; the third is slower and thirstier than the second.
    expect([...probabilityOnFront].map((p) => Math.round(1e9 * p) / 1e9)).toEqual([1, 1, 0])
  })

  it('gives two equal items three quarters each: beaten in both only one time in four', () => {
    const joint = (better: 'higher' | 'lower') => ({
      ...{ estimates: [0, 0], covariance: diagonal([1, 1]), better },
    })
    const draws = 40_000
    const { probabilityOnFront } = drawFront(joint('higher'), joint('lower'), {
      ...{ random: new Pcg32(2), draws },
    })
    for (const p of probabilityOnFront) {
      expect(Math.abs(p - 0.75)).toBeLessThan((4 * 0.5) / Math.sqrt(draws))
    }
  })

  it('does not see what all items share', () => {
    const estimates = [0.1, 0.2, 0.15]
    const plain = diagonal([0.01, 0.02, 0.01])
    const shared = plain.map((v) => v + 4)
    const other = {
      estimates: [1, 2, 3],
      covariance: diagonal([1, 1, 1]),
      better: 'lower' as const,
    }
    const draw = (covariance: Float64Array) =>
      drawFront({ estimates, covariance, better: 'higher' }, other, {
        ...{ random: new Pcg32(3), draws: 500 },
      }).probabilityOnFront
    draw(shared).forEach((p, k) => {
      expect(p).toBeCloseTo(draw(plain)[k]!, 2)
    })
  })

  it('refuses sizes that do not match and draws that are no number of draws', () => {
    const one = { estimates: [1], covariance: diagonal([1]), better: 'higher' as const }
    const two = { estimates: [1, 2], covariance: diagonal([1, 1]), better: 'higher' as const }
    const random = new Pcg32(4)
    expect(() => drawFront(one, two, { random, draws: 10 })).toThrow(OutOfRangeError)
    expect(() => drawFront(one, one, { random, draws: 0 })).toThrow(OutOfRangeError)
  })
})
