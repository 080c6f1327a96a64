import { expect, it } from 'vitest'

import {
  celsiusFromFahrenheit,
  kelvinFromCelsius,
  LITRES_PER_US_GALLON,
  MPS_PER_KNOT,
  MPS_PER_MPH,
  PA_PER_INHG,
  PA_PER_MMHG,
} from '../../src/core/units.ts'

// NIST SP 811, appendix B.8, recalled: 1 inHg (conventional) = 3386.389 Pa, 1 mmHg = 133.3224 Pa,
// 1 kn = 0.514 444 4 m/s, 1 mi/h = 0.447 04 m/s, 1 US gal = 3.785 412 L. Tolerance: last digit printed.
it('has the conversions of the tables', () => {
  expect(PA_PER_INHG).toBeCloseTo(3386.389, 3)
  expect(PA_PER_MMHG).toBeCloseTo(133.3224, 4)
  expect(MPS_PER_KNOT).toBeCloseTo(0.5144444, 7)
  expect(MPS_PER_MPH).toBeCloseTo(0.44704, 12)
  expect(LITRES_PER_US_GALLON).toBeCloseTo(3.785412, 6)
})

it('knows the fixed points of the temperature scales', () => {
  expect(kelvinFromCelsius(0)).toBe(273.15)
  expect(celsiusFromFahrenheit(32)).toBe(0)
  expect(celsiusFromFahrenheit(212)).toBeCloseTo(100, 12)
  expect(celsiusFromFahrenheit(-40)).toBeCloseTo(-40, 12)
})
