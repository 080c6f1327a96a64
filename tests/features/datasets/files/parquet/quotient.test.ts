import fc from 'fast-check'
import { expect, it } from 'vitest'

import { quotientOf } from '../../../../../src/features/datasets/files/parquet/quotient.ts'

const NINE_DIGITS = fc.integer({ min: 0, max: 999_999_999 })

it('is the double that the language reads from the same digits, or none', () => {
  fc.assert(
    fc.property(
      NINE_DIGITS,
      NINE_DIGITS,
      fc.integer({ min: 0, max: 22 }),
      (high, low, decimals) => {
        const value = quotientOf(high, 1e9, low, Number(`1e${decimals}`))
        const digits = `${high}${String(low).padStart(9, '0')}`
        if (!Number.isNaN(value)) expect(value).toBe(Number(`${digits}e-${decimals}`))
      },
    ),
  )
})

it('is nearly always there', () => {
  const missing = Array.from({ length: 2000 }, (_, i) =>
    quotientOf(100_000_000 + i * 449_999, 1e9, (i * 7_654_321) % 1e9, 1e17),
  ).filter(Number.isNaN)
  expect(missing.length).toBeLessThan(20)
})

// 2⁵³ + 1 lies in the middle between two doubles: 9007199254740992 and 9007199254740994.
it('is none where two doubles are equally near', () => {
  expect(quotientOf(9_007_199, 1e9, 254_740_993, 1)).toBeNaN()
})
