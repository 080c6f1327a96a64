import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import {
  type Dimension,
  entered,
  enteredFrom,
  readNumber,
  spanOf,
  textIn,
  UNITS,
  unitOf,
  writeNumber,
} from '../../src/web/units.ts'

const DIMENSIONS = Object.keys(UNITS) as Dimension[]

describe('a unit', () => {
  it.each(
    DIMENSIONS.flatMap((dimension) => UNITS[dimension].map((unit) => [dimension, unit] as const)),
  )('of %s goes there and back: $1.id', (_dimension, unit) => {
    fc.assert(
      fc.property(fc.double({ min: -1e5, max: 1e5, noNaN: true }), (value) => {
        expect(unit.toReader(unit.toStored(value))).toBeCloseTo(value, 6)
      }),
    )
  })

  // Definitions: pound, foot and mile of 5280 feet of 1959; nautical mile of 1929; gallon of 231 cubic
  // inches, 128 fluid ounces each; kilogram-force by the standard acceleration of free fall.
  it.each([
    ['mass', 'lb', 0.45359237],
    ['height', 'ft', 0.3048],
    ['climbRate', 'ft/min', 0.00508],
    ['force', 'kgf', 9.80665],
    ['fuelVolume', 'fl oz', 29.5735295625],
    ['fuelFlow', 'gal/h', 3.785411784],
    ['tank', 'gal', 3.785411784],
    ['distance', 'mi', 1.609344],
    ['distance', 'NM', 1.852],
  ] as const)('of %s named %s is %f of the stored one', (dimension, id, factor) => {
    expect(unitOf(dimension, id).toStored(1)).toBeCloseTo(factor, 9)
  })

  it('of a difference has no zero point: 9 °F more are 5 °C more', () => {
    const span = spanOf(unitOf('temperature', '°F'))
    expect(span.toStored(9)).toBeCloseTo(5, 12)
    expect(span.toReader(5)).toBeCloseTo(9, 12)
    expect(spanOf(unitOf('mass', 'lb')).toStored(2)).toBeCloseTo(0.90718474, 9)
  })

  it('reads 59 °F as 15 °C', () => {
    expect(unitOf('temperature', '°F').toStored(59)).toBeCloseTo(15, 12)
  })
})

describe('a field', () => {
  it('shows what was typed in the unit it was typed in, whatever was shown between', () => {
    const pounds = unitOf('mass', 'lb')
    const kilograms = unitOf('mass', 'kg')
    const value = entered('180.5', pounds)
    expect(textIn(value, kilograms)).toBe('81.873')
    expect(textIn(value, pounds)).toBe('180.5')
  })

  it('shows a stored value in the reader’s unit', () => {
    expect(textIn(enteredFrom(212, unitOf('height', 'm')), unitOf('height', 'ft'))).toBe('695.54')
  })
})

describe('a number', () => {
  it.each([
    ['41,8', 41.8],
    [' 41.8 ', 41.8],
    ['-3', -3],
    ['−3', -3],
    ['.5', 0.5],
    ['5.', 5],
  ])('may be written %j', (text, value) => expect(readNumber(text)).toBe(value))

  it.each(['', 'x', '1e5', '1.2.3', '12 kg', '--1'])('is not %j', (text) =>
    expect(readNumber(text)).toBeNull(),
  )

  it('is written with a true minus, and none before zero', () => {
    expect(writeNumber(-1.26, 1)).toBe('−1.3')
    expect(writeNumber(-0.01, 1)).toBe('0.0')
  })
})
