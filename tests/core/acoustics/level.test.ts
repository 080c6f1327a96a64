import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { aWeightingDb } from '../../../src/core/acoustics/a-weighting.ts'
import {
  atDistanceDb,
  backgroundCorrectionDb,
  combineLevelsDb,
  fullCorrectionDb,
  NEPER_PER_DB,
  REFERENCE_SOUND_PRESSURE_PA,
} from '../../../src/core/acoustics/level.ts'
import { OutOfRangeError } from '../../../src/core/errors.ts'
import { checkValue, checkValues, expectRow } from '../normalise/check-values.ts'

const level = fc.double({ min: 20, max: 140, noNaN: true })
const distance = fc.double({ min: 2.5, max: 1000, noNaN: true })

describe('levels of several sounds', () => {
  // Published, seen: ecologycenter.us, rounded there as by a table.
  it('add as powers', () => {
    expectRow(checkValue('noise-sum'), [combineLevelsDb([85, 87, 89])])
  })

  it('do not depend on the order and are at least the loudest', () => {
    fc.assert(
      fc.property(fc.array(level, { minLength: 1, maxLength: 6 }), (levels) => {
        const sum = combineLevelsDb(levels)
        expect(sum).toBeCloseTo(combineLevelsDb([...levels].reverse()), 9)
        expect(sum).toBeGreaterThanOrEqual(Math.max(...levels) - 1e-9)
        expect(sum).toBeLessThanOrEqual(Math.max(...levels) + 10 * Math.log10(levels.length) + 1e-9)
      }),
    )
  })

  it('refuse what is no level', () => {
    expect(() => combineLevelsDb([80, Number.NaN])).toThrow(OutOfRangeError)
  })
})

describe('the background', () => {
  // Published, seen: ecologycenter.us (93 and 89 dB), ECMA TR/107 (limits of 0,46 and 1,26 dB).
  it('is taken off as the tables say', () => {
    expectRow(checkValue('noise-sub'), [93 - fullCorrectionDb(93 - 89)])
    expectRow(checkValue('K1-6dB'), [backgroundCorrectionDb(6)])
    expectRow(checkValue('K1-10dB'), [backgroundCorrectionDb(10)])
  })

  // Published, seen (specification 1, section h): 55 dB over 50 dB leave 53.3 dB.
  it('stops at 6 dB, where the tables go on', () => {
    expect(backgroundCorrectionDb(5)).toBe(backgroundCorrectionDb(6))
    expect(55 - fullCorrectionDb(5)).toBeCloseTo(53.3, 1)
    expect(fullCorrectionDb(6)).toBe(backgroundCorrectionDb(6))
    expect(fullCorrectionDb(1e-12)).toBe(20)
  })

  it('is nothing above 15 dB', () => {
    expect(backgroundCorrectionDb(15.01)).toBe(0)
    expect(backgroundCorrectionDb(15)).toBeGreaterThan(0.1)
  })

  it('comes off as it was added', () => {
    fc.assert(
      fc.property(level, fc.double({ min: 6.1, max: 14.9, noNaN: true }), (total, margin) => {
        const source = total - backgroundCorrectionDb(margin)
        expect(combineLevelsDb([source, total - margin])).toBeCloseTo(total, 9)
      }),
    )
  })

  it('must lie below the level', () => {
    expect(() => backgroundCorrectionDb(0)).toThrow(OutOfRangeError)
    expect(() => backgroundCorrectionDb(-3)).toThrow(OutOfRangeError)
    expect(() => fullCorrectionDb(Number.NaN)).toThrow(OutOfRangeError)
  })
})

describe('distance', () => {
  // The row asks for 100 dB at 1 m: formal only, nearer than the rule is good for. The rule is the same
  // ratio of 20 anywhere, so it is checked from 10 m to 200 m.
  it('takes 6 dB at each doubling', () => {
    expectRow(checkValue('spher'), [atDistanceDb(100, 10, 200)])
    expect(atDistanceDb(80, 10, 20)).toBeCloseTo(80 - 20 * Math.log10(2), 12)
  })

  it('comes back from anywhere', () => {
    fc.assert(
      fc.property(level, distance, distance, (at, from, to) => {
        expect(atDistanceDb(atDistanceDb(at, from, to), to, from)).toBeCloseTo(at, 9)
      }),
    )
  })

  it('says nothing nearer than 2.5 m', () => {
    expect(() => atDistanceDb(100, 1, 20)).toThrow(OutOfRangeError)
    expect(() => atDistanceDb(100, Number.NaN, 20)).toThrow(OutOfRangeError)
  })
})

describe('A-weighting', () => {
  // IEC 61672-1 as carried by the package python-acoustics, seen; at the exact base-10 frequencies.
  it.each(checkValues('A-'))('is that of the standard: $id', (row) => {
    expectRow(row, [aWeightingDb(row.inputs.f_exact!)])
  })

  it('refuses what is no frequency', () => {
    expect(() => aWeightingDb(0)).toThrow(OutOfRangeError)
    expect(() => aWeightingDb(Number.NaN)).toThrow(OutOfRangeError)
  })
})

// A decibel is a tenth of the decimal logarithm of a power ratio, a neper the natural one of a field ratio.
it('a level in nepers is the logarithm of the sound pressure over 20 µPa', () => {
  const pressurePa = 0.4
  const ratio = pressurePa / REFERENCE_SOUND_PRESSURE_PA
  expect(NEPER_PER_DB * 20 * Math.log10(ratio)).toBeCloseTo(Math.log(ratio), 12)
})
