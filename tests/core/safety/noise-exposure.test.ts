import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { noiseDosePct, permissibleExposureMin } from '../../../src/core/safety/noise-exposure.ts'
import { checkValues, expectRow } from '../normalise/check-values.ts'

const level = fc.double({ min: 40, max: 137, noNaN: true })

describe('the permissible time at a noise level', () => {
  // Rows of NIOSH 98-126, table 1-1; each says whether it was seen or recalled. The table truncates.
  it.each(checkValues('niosh-').map((row) => [row.id, row] as const))('%s', (_, row) => {
    expectRow(row, [permissibleExposureMin(row.inputs.L_dBA!)])
  })

  it('halves with every 3 dB', () => {
    fc.assert(
      fc.property(level, (levelDbA) => {
        const ratio = permissibleExposureMin(levelDbA) / permissibleExposureMin(levelDbA + 3)
        expect(ratio).toBeCloseTo(2, 9) // exact but for rounding
      }),
    )
  })

  it.each([Number.NaN, 39, 141])('is refused for %d dB(A)', (levelDbA) => {
    expect(() => permissibleExposureMin(levelDbA)).toThrow(OutOfRangeError)
  })
})

describe('the daily noise dose', () => {
  it('is 100 % for the permissible time at any level', () => {
    fc.assert(
      fc.property(fc.double({ min: 81, max: 140, noNaN: true }), (levelDbA) => {
        const durationMin = permissibleExposureMin(levelDbA)
        expect(noiseDosePct([{ levelDbA, durationMin }])).toBeCloseTo(100, 9)
      }),
    )
  })

  it('adds up, in whatever parts the time is told', () => {
    const whole = noiseDosePct([{ levelDbA: 97, durationMin: 24 }])
    const halves = noiseDosePct([
      { levelDbA: 97, durationMin: 12 },
      { levelDbA: 97, durationMin: 12 },
    ])
    expect(whole).toBeCloseTo(80, 9) // 24 of 30 minutes (table 1-1)
    expect(halves).toBeCloseTo(whole, 9)
    expect(noiseDosePct([])).toBe(0)
  })

  it.each([
    { levelDbA: 150, durationMin: 1 },
    { levelDbA: 90, durationMin: -1 },
    { levelDbA: 90, durationMin: 1441 },
    { levelDbA: 90, durationMin: Number.NaN },
  ])('is refused for %j', (exposure) => {
    expect(() => noiseDosePct([exposure])).toThrow(OutOfRangeError)
  })
})
