import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { outputCovariance } from '../../../src/core/uncertainty/covariance.ts'
import { propagate } from '../../../src/core/uncertainty/propagate.ts'
import { correlationOf, evaluateReadings } from '../../../src/core/uncertainty/readings.ts'
import { checkValue, expectRow } from '../normalise/check-values.ts'

const readingsOf = (id: string) => {
  const { V, I, phi } = checkValue(id).inputs as unknown as Record<'V' | 'I' | 'phi', number[]>
  return evaluateReadings([V, I, phi])
}

// JCGM 100:2008, annex H.2: resistance and reactance from five simultaneous readings. Means, u and r
// of the inputs are as published (seen in GTC's example); the five readings and the outputs are
// recalled. u(X) computes to 0.2956 where the GUM prints 0.295.
describe('simultaneous resistance and reactance of the GUM', () => {
  it('has the means, uncertainties and correlations of its readings', () => {
    const { means, standardUncertainties: u, correlation: r } = readingsOf('gum-h2-inputs')
    expectRow(checkValue('gum-h2-inputs'), [
      ...means,
      ...u,
      r[0 * 3 + 1]!,
      r[0 * 3 + 2]!,
      r[1 * 3 + 2]!,
    ])
  })

  it('has their resistance, reactance and impedance with correlations', () => {
    const { means, standardUncertainties, correlation } = readingsOf('gum-h2')
    const inputs = [...means].map((value, i) => ({
      source: ['V', 'I', 'φ'][i]!,
      value,
      standardUncertainty: standardUncertainties[i]!,
      sharedWithinSession: false,
    }))
    const propagation = propagate(inputs, 3, (x, y) => {
      const [volts, amperes, phase] = x as unknown as [number, number, number]
      y[0] = (volts / amperes) * Math.cos(phase)
      y[1] = (volts / amperes) * Math.sin(phase)
      y[2] = volts / amperes
    })
    const covariance = outputCovariance(propagation, 3, correlation)
    const r = correlationOf(covariance, 3)
    const u = [0, 1, 2].map((k) => Math.sqrt(covariance[k * 3 + k]!))
    expectRow(checkValue('gum-h2'), [...propagation.values, ...u, r[1]!, r[2]!, r[5]!])
  })

  it('would be less than half as certain of its resistance without the correlations', () => {
    const { means, standardUncertainties } = readingsOf('gum-h2')
    const inputs = [...means].map((value, i) => ({
      source: '',
      value,
      standardUncertainty: standardUncertainties[i]!,
      sharedWithinSession: false,
    }))
    const propagation = propagate(inputs, 1, (x, y) => {
      y[0] = (x[0]! / x[1]!) * Math.cos(x[2]!)
    })
    // 0.195 Ω against 0.071 Ω.
    expect(Math.sqrt(outputCovariance(propagation, 1)[0]!)).toBeGreaterThan(2 * 0.071)
  })
})

describe('outputCovariance', () => {
  it('is the sum of squares for independent inputs', () => {
    const propagation = { values: new Float64Array(1), contributions: Float64Array.of(3, -4) }
    expect(outputCovariance(propagation, 1)[0]).toBe(25)
    expect(outputCovariance(propagation, 1, Float64Array.of(1, 0, 0, 1))[0]).toBe(25)
  })

  it('adds fully correlated inputs before squaring them', () => {
    const propagation = { values: new Float64Array(1), contributions: Float64Array.of(3, -4) }
    expect(outputCovariance(propagation, 1, Float64Array.of(1, 1, 1, 1))[0]).toBe(1)
  })

  it('refuses correlations of other inputs', () => {
    const propagation = { values: new Float64Array(1), contributions: Float64Array.of(3, -4) }
    expect(() => outputCovariance(propagation, 1, Float64Array.of(1))).toThrow(OutOfRangeError)
  })
})

describe('evaluateReadings', () => {
  it.each([
    ['one reading', [[1]]],
    [
      'series of unequal length',
      [
        [1, 2],
        [1, 2, 3],
      ],
    ],
  ])('refuses %s', (_, series) => {
    expect(() => evaluateReadings(series)).toThrow(OutOfRangeError)
  })

  it('finds readings that never change uncorrelated and exact', () => {
    const { standardUncertainties, correlation } = evaluateReadings([
      [1, 1, 1],
      [1, 2, 3],
    ])
    expect(standardUncertainties[0]).toBe(0)
    expect([...correlation]).toEqual([1, 0, 0, 1])
  })
})
