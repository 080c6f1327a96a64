import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  choleskyInPlace,
  logDeterminant,
  semidefiniteCholeskyInPlace,
} from '../../../src/core/linalg/cholesky.ts'
import {
  invertBlock,
  mirrorLowerInPlace,
  multiply,
  sandwich,
  traceOfProduct,
} from '../../../src/core/linalg/symmetric.ts'
import {
  invertFromFactor,
  solveLowerInPlace,
  solveLowerTransposedInPlace,
} from '../../../src/core/linalg/triangular.ts'

/** B·Bᵀ of an n × rank matrix B with entries in [-1, 1], plus `ridge` on the diagonal. */
const symmetric = (ridge: number, rankOf: (n: number) => number = (n) => n) =>
  fc.integer({ min: 1, max: 7 }).chain((n) =>
    fc
      .array(
        fc.integer({ min: -100, max: 100 }).map((x) => x / 100),
        {
          minLength: n * rankOf(n),
          maxLength: n * rankOf(n),
        },
      )
      .map((b) => {
        const a = new Float64Array(n * n)
        for (let i = 0; i < n; i++) {
          for (let j = 0; j < n; j++) {
            for (let k = 0; k < rankOf(n); k++) a[i + j * n]! += b[i + k * n]! * b[j + k * n]!
          }
          a[i + i * n]! += ridge
        }
        return { a, n }
      }),
  )

const positiveDefinite = symmetric(0.5)

/** L·Lᵀ of the lower triangle. */
function square(l: Float64Array, n: number): Float64Array {
  const a = new Float64Array(n * n)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      for (let k = 0; k <= Math.min(i, j); k++) a[i + j * n]! += l[i + k * n]! * l[j + k * n]!
    }
  }
  return a
}

function largestDifference(a: Float64Array, b: Float64Array): number {
  return a.reduce((largest, x, i) => Math.max(largest, Math.abs(x - b[i]!)), 0)
}

describe('choleskyInPlace', () => {
  it('factors a matrix worked by hand', () => {
    // (4 2; 2 5) = (2 0; 1 2)(2 1; 0 2), determinant 16.
    const a = Float64Array.of(4, 2, 2, 5)
    expect(choleskyInPlace(a, 2)).toBe(-1)
    expect([a[0], a[1], a[3]]).toEqual([2, 1, 2])
    expect(logDeterminant(a, 2)).toBeCloseTo(Math.log(16), 14)
  })

  it('gives a factor whose square is the matrix', () => {
    fc.assert(
      fc.property(positiveDefinite, ({ a, n }) => {
        const l = a.slice()
        expect(choleskyInPlace(l, n)).toBe(-1)
        expect(largestDifference(square(l, n), a)).toBeLessThan(1e-13)
      }),
    )
  })

  it('names the pivot that fails, also for NaN', () => {
    expect(choleskyInPlace(Float64Array.of(1, 2, 2, 1), 2)).toBe(1)
    expect(choleskyInPlace(Float64Array.of(Number.NaN), 1)).toBe(0)
    expect(choleskyInPlace(new Float64Array(0), 0)).toBe(-1)
  })
})

describe('semidefiniteCholeskyInPlace', () => {
  it('finds the rank of a matrix worked by hand', () => {
    const a = Float64Array.of(1, 2, 2, 4) // (1 2)'(1 2)
    expect(semidefiniteCholeskyInPlace(a, 2)).toBe(1)
    expect([a[0], a[1], a[3]]).toEqual([1, 2, 0])
  })

  it('factors a matrix without full rank', () => {
    const lowRank = symmetric(0, (n) => Math.ceil(n / 2))
    fc.assert(
      fc.property(lowRank, ({ a, n }) => {
        const l = a.slice()
        expect(semidefiniteCholeskyInPlace(l, n)).toBeGreaterThanOrEqual(0)
        // A pivot taken as zero leaves up to the square root of its share, 1e-5, of the row behind.
        expect(largestDifference(square(l, n), a)).toBeLessThan(1e-4)
      }),
    )
  })

  it('takes a matrix of zeros as no variance and refuses a negative one', () => {
    expect(semidefiniteCholeskyInPlace(new Float64Array(4), 2)).toBe(0)
    expect(semidefiniteCholeskyInPlace(Float64Array.of(-1), 1)).toBe(-1)
    expect(semidefiniteCholeskyInPlace(Float64Array.of(Number.NaN), 1)).toBe(-1)
  })

  it('lets rounding of the stated size pass', () => {
    expect(semidefiniteCholeskyInPlace(Float64Array.of(-1e-17), 1, 1e-16)).toBe(0)
  })
})

describe('triangular solves', () => {
  it('solve the system they were factored from', () => {
    fc.assert(
      fc.property(positiveDefinite, ({ a, n }) => {
        const l = a.slice()
        choleskyInPlace(l, n)
        const x = Float64Array.from({ length: n }, (_, i) => i - 1.5)
        const b = Float64Array.from({ length: n }, (_, i) =>
          x.reduce((sum, value, j) => sum + a[i + j * n]! * value, 0),
        )
        solveLowerInPlace(l, n, b)
        solveLowerTransposedInPlace(l, n, b)
        expect(largestDifference(b, x)).toBeLessThan(1e-11)
      }),
    )
  })

  it('give the inverse, exactly symmetric', () => {
    fc.assert(
      fc.property(positiveDefinite, ({ a, n }) => {
        const l = a.slice()
        choleskyInPlace(l, n)
        const inverse = new Float64Array(n * n)
        invertFromFactor(l, n, inverse)
        const product = multiply(a, inverse, n)
        for (let i = 0; i < n; i++) {
          for (let j = 0; j < n; j++) {
            expect(product[i + j * n]!).toBeCloseTo(i === j ? 1 : 0, 11)
            expect(inverse[i + j * n]).toBe(inverse[j + i * n])
          }
        }
      }),
    )
  })
})

describe('symmetric matrices', () => {
  it('are mirrored from their lower triangle', () => {
    const a = Float64Array.of(9, 1, 2, 0, 3)
    mirrorLowerInPlace(a, 2, 1)
    expect([...a]).toEqual([9, 1, 2, 2, 3])
  })

  it('have the trace of their product', () => {
    fc.assert(
      fc.property(positiveDefinite, ({ a, n }) => {
        const product = multiply(a, a, n)
        let trace = 0
        for (let i = 0; i < n; i++) trace += product[i + i * n]!
        expect(traceOfProduct(a, a, n)).toBeCloseTo(trace, 10)
      }),
    )
  })

  it('stand around another one as the products say, exactly symmetric', () => {
    fc.assert(
      fc.property(positiveDefinite, ({ a, n }) => {
        const middle = a.map((x, i) => x * 3 + (i % (n + 1) === 0 ? 1 : 0))
        const expected = multiply(multiply(a, middle, n), a, n)
        const into = new Float64Array(n * n).fill(Number.NaN)
        expect(sandwich(a, middle, n, into)).toBe(into)
        for (let i = 0; i < n; i++) {
          for (let j = 0; j < n; j++) {
            expect(into[i + j * n]).toBeCloseTo(expected[i + j * n]!, 9)
            expect(into[i + j * n]).toBe(into[j + i * n])
          }
        }
      }),
    )
  })

  it('are inverted on a block, however different the scales, and zero elsewhere', () => {
    const a = Float64Array.of(4e20, 7, 0, 7, 9, 0, 0, 0, 1e-20)
    const inverse = invertBlock(a, 3, [0, 2])!
    expect(inverse[0]! / 2.5e-21).toBeCloseTo(1, 14)
    expect(inverse[8]! / 1e20).toBeCloseTo(1, 14)
    expect([...inverse.subarray(1, 8)]).toEqual(Array(7).fill(0))
    expect(invertBlock(Float64Array.of(1, 2, 2, 1), 2, [0, 1])).toBeNull()
    expect(invertBlock(Float64Array.of(-1), 1, [0])).toBeNull()
  })
})
