import { expect, it } from 'vitest'

import { rangeOf } from '../../../../src/features/datasets/files/byte-range.ts'

// RFC 9110, 14.1.2: the examples for a representation of 10 000 bytes.
it.each([
  ['bytes=0-499', { first: 0, last: 499 }],
  ['bytes=500-999', { first: 500, last: 999 }],
  ['bytes=-500', { first: 9500, last: 9999 }],
  ['bytes=9500-', { first: 9500, last: 9999 }],
  ['bytes=0-99999', { first: 0, last: 9999 }],
  ['bytes=-99999', { first: 0, last: 9999 }],
  ['bytes=10000-', 'unsatisfiable'],
  ['bytes=-0', 'unsatisfiable'],
  ['bytes=5-2', null],
  ['bytes=-', null],
  ['bytes=0-1,5-6', null],
  ['lines=1-2', null],
  [undefined, null],
])('%s', (header, range) => {
  expect(rangeOf(header, 10_000)).toEqual(range)
})
