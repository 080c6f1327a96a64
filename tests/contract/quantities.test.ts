import { describe, expect, it } from 'vitest'

import { quantity, queryQuantity } from '../../src/contract/quantities.ts'

function refusalOf(result: { error?: { issues: { message: string }[] } | undefined }): string {
  return result.error?.issues.map((issue) => issue.message).join(' | ') ?? 'accepted'
}

describe('quantity', () => {
  it('accepts both ends of its range', () => {
    expect(quantity('cm', 60, 200).parse(60)).toBe(60)
    expect(quantity('cm', 60, 200).parse(200)).toBe(200)
  })

  it('names the range and the unit when it refuses', () => {
    expect(refusalOf(quantity('cm', 60, 200).safeParse(5000))).toBe(
      'Must be a number from 60 to 200 cm',
    )
    expect(refusalOf(quantity('1', 1, 6).safeParse('two'))).toBe('Must be a number from 1 to 6')
  })

  it.each([
    ['cm', 60, 200, 1.25, 'read as m it is 125 cm'],
    ['cm', 60, 200, 1250, 'read as mm it is 125 cm'],
    ['hPa', 870, 1085, 101_300, 'read as Pa it is 1013 hPa'],
    ['hPa', 870, 1085, 29.92, 'read as inHg it is 1013 hPa'],
    ['m/s', 5, 25, 38, 'read as km/h it is 10.56 m/s'],
    ['°C', -40, 55, 288.15, 'read as K it is 15 °C'],
    ['°C', -40, 55, 77, 'read as °F it is 25 °C'],
    ['m²', 8, 50, 258, 'read as ft² it is 23.97 m²'],
    ['m', -430, 5500, 7000, 'read as ft it is 2134 m'],
    ['L', 0.5, 60, 12_000, 'read as mL it is 12 L'],
  ] as const)(
    'takes %s from %d to %d, given %d, for a unit mistake',
    (unit, min, max, value, hint) => {
      expect(refusalOf(quantity(unit, min, max).safeParse(value))).toContain(hint)
    },
  )
})

describe('queryQuantity', () => {
  it('reads the text of a query', () => {
    expect(queryQuantity('m', -430, 5500).parse('-12.5')).toBe(-12.5)
    expect(queryQuantity('m', -430, 5500).parse('1e3')).toBe(1000)
  })

  it.each(['', ' ', 'NaN', 'Infinity', '0x10', '12m', '1,5'])(
    'does not read %j as a number',
    (text) => {
      expect(refusalOf(queryQuantity('m', -430, 5500).safeParse(text))).toBe('Must be a number')
    },
  )

  it('does not choose between two values', () => {
    expect(refusalOf(queryQuantity('m', -430, 5500).safeParse(['1', '2']))).toBe('Give one number')
  })

  it('refuses what overflows', () => {
    expect(refusalOf(queryQuantity('m', -430, 5500).safeParse('1e999'))).toContain('-430 to 5500 m')
  })
})
