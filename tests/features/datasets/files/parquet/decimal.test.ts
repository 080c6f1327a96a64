import fc from 'fast-check'
import { expect, it } from 'vitest'

import { decimalOf } from '../../../../../src/features/datasets/files/parquet/decimal.ts'

const read = (text: string) => {
  const bytes = Buffer.from(`,${text},`)
  return decimalOf(bytes, 1, bytes.length - 1)
}

it('reads every double as it was written', () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
      expect(read(Object.is(value, -0) ? '-0' : String(value))).toBe(value)
    }),
  )
})

it('rounds decimals as the language itself does', () => {
  const digits = fc.stringMatching(/^-?[0-9]{1,20}(\.[0-9]{1,25})?$/)
  fc.assert(
    fc.property(digits, (text) => {
      expect(read(text)).toBe(Number(text))
    }),
  )
})

it.each(['0', '-0', '1e3', '2.5E-7', '0.1', '9007199254740993', '0.30000000000000004'])(
  'reads %s',
  (text) => {
    expect(read(text)).toBe(Number(text))
  },
)
