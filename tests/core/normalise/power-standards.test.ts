import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { P0, RHO0, T0 } from '../../../src/core/atmosphere/constants.ts'
import { standardPressurePa } from '../../../src/core/atmosphere/pressure.ts'
import { OutOfRangeError } from '../../../src/core/errors.ts'
import {
  fullThrottlePowerRatio,
  pistonPowerRatio,
  powerRatioUncertainty,
} from '../../../src/core/normalise/model/full-throttle-power.ts'
import {
  iso1585Factor,
  saeJ1349Factor,
  standardPowerRatio,
} from '../../../src/core/normalise/model/power-standards.ts'
import { celsiusFromFahrenheit, kelvinFromCelsius, PA_PER_INHG } from '../../../src/core/units.ts'
import { checkValue, expectRow } from './check-values.ts'

const heightM = fc.double({ min: 0, max: 3000, noNaN: true })
const celsius = fc.double({ min: -15, max: 38, noNaN: true })
const dryPa = fc.double({ min: 70_000, max: 105_000, noNaN: true })

describe('the standards', () => {
  // Published worked example, seen: wahiduddin.net, 85 °F, 24.71 inHg, vapour 0.121 inHg.
  it('SAE J1349 gives the published factor', () => {
    const kelvin = kelvinFromCelsius(celsiusFromFahrenheit(85))
    expectRow(checkValue('j1349-85F'), [saeJ1349Factor((24.71 - 0.121) * PA_PER_INHG, kelvin)])
  })

  // ISO 1585 from memory; 95 kPa and 303 K are a regression value of the specification.
  it('ISO 1585 gives the value of the specification', () => {
    expect(iso1585Factor(95_000, 303)).toBeCloseTo(1.0613, 4)
  })

  // Definition: 25 °C and 990 hPa dry are their reference.
  it('are 1 at their own reference', () => {
    expect(saeJ1349Factor(99_000, kelvinFromCelsius(25))).toBeCloseTo(1, 12)
    // 298 K stands in the standard, not 298.15 K.
    expect(iso1585Factor(99_000, 298)).toBe(1)
  })

  it('are 1 at sea level when re-based, and fall with pressure and heat', () => {
    for (const rule of ['saeJ1349', 'iso1585'] as const) {
      expect(standardPowerRatio(rule, P0, T0)).toBe(1)
      fc.assert(
        fc.property(dryPa, celsius, (pressure, t) => {
          const kelvin = kelvinFromCelsius(t)
          const here = standardPowerRatio(rule, pressure, kelvin)
          expect(standardPowerRatio(rule, pressure - 500, kelvin)).toBeLessThan(here)
          expect(standardPowerRatio(rule, pressure, kelvin + 1)).toBeLessThan(here)
        }),
      )
    }
  })

  // Specification 1, section d.5: the spread of the rules in scenario A, regression values.
  it('differ in scenario A as the specification says', () => {
    // p_mid 93 637.46 Pa; vapour pressure at 50 % and 24.35 °C, 1523 Pa, to the digits that matter.
    const dry = 93_637.46 - 1523
    const kelvin = 297.5
    expect(pistonPowerRatio(dry, kelvin)).toBeCloseTo(0.893, 3)
    // The specification prints 0.878; with its own formula we find 0.8773.
    expect(standardPowerRatio('saeJ1349', dry, kelvin)).toBeCloseTo(0.8773, 4)
    expect(standardPowerRatio('iso1585', dry, kelvin)).toBeCloseTo(0.875, 3)
  })

  it('refuse what is no air', () => {
    expect(() => saeJ1349Factor(Number.NaN, 290)).toThrow(OutOfRangeError)
    expect(() => iso1585Factor(95_000, 500)).toThrow(OutOfRangeError)
  })
})

describe('the uncertainty of the default rule', () => {
  /** Distance of the farther rule from the default, and the standard uncertainty carried for it. */
  function spread(pressurePa: number, kelvin: number) {
    const phi = pistonPowerRatio(pressurePa, kelvin)
    const distances = (['saeJ1349', 'iso1585'] as const).map((rule) =>
      Math.abs(standardPowerRatio(rule, pressurePa, kelvin) - phi),
    )
    return { phi, worst: Math.max(...distances), u: powerRatioUncertainty('twoStroke', phi, 1) }
  }

  // The range the core is made for: fields up to 3000 m, −15 to 38 °C, any pressure of the day.
  it('covers the other rules at k = 2 wherever the ratio is 1.5 % or more from 1', () => {
    fc.assert(
      fc.property(
        heightM,
        celsius,
        fc.double({ min: 0.97, max: 1.03, noNaN: true }),
        (h, t, day) => {
          const { phi, worst, u } = spread(day * standardPressurePa(h), kelvinFromCelsius(t))
          fc.pre(Math.abs(phi - 1) >= 0.015)
          expect(worst).toBeLessThan(2 * u)
        },
      ),
      { numRuns: 1000 },
    )
  })

  // Where cold and thin air just balance, |1 − φ| is no measure of the spread: the rules differ by some
  // tenths of a per cent there and the uncertainty says nearly nothing.
  it('does not cover them near 1, where they differ by less than 0.6 %', () => {
    let uncovered = 0
    fc.assert(
      fc.property(
        heightM,
        celsius,
        fc.double({ min: 0.97, max: 1.03, noNaN: true }),
        (h, t, day) => {
          const { phi, worst, u } = spread(day * standardPressurePa(h), kelvinFromCelsius(t))
          fc.pre(Math.abs(phi - 1) < 0.015)
          if (worst > 2 * u) uncovered += 1
          expect(worst).toBeLessThan(0.006)
        },
      ),
      { numRuns: 1000 },
    )
    expect(uncovered).toBeGreaterThan(0)
  })
})

describe('an electric drive', () => {
  const air = (sigma: number) => ({
    dryPressurePa: P0,
    temperatureK: T0,
    densityKgPerM3: RHO0 * sigma,
  })

  // Specification 1, section d.5: static thrust goes as σ^⅓ (power limited) to σ (speed limited),
  // rectangular: exponent 0.67, u 0.19.
  it('lies halfway between its two limits, and its uncertainty is that of the range', () => {
    const sigma = 0.85
    const phi = fullThrottlePowerRatio('electric', air(sigma))
    const exponent = (1 / 3) * 1 + ((2 / 3) * Math.log(phi)) / Math.log(sigma)
    expect(exponent).toBeCloseTo(2 / 3, 12)
    const u = powerRatioUncertainty('electric', phi, sigma) / phi
    expect(((2 / 3) * u) / Math.abs(Math.log(sigma))).toBeCloseTo(2 / 3 / Math.sqrt(12), 12)
    expect(2 / 3 / Math.sqrt(12)).toBeCloseTo(0.19, 2)
  })

  it('is at its rated power at sea level', () => {
    expect(fullThrottlePowerRatio('electric', air(1))).toBe(1)
    expect(powerRatioUncertainty('electric', 1, 1)).toBe(0)
  })
})
