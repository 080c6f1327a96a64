import { describe, expect, it } from 'vitest'

import { combine } from '../../../src/core/uncertainty/budget.ts'
import { propagate } from '../../../src/core/uncertainty/propagate.ts'
import { checkValue, expectRow } from '../normalise/check-values.ts'

describe('combine', () => {
  // JCGM 100:2008, annex H.1. Components with their degrees of freedom as carried in the check value;
  // ν_eff 16.7 is recalled from H.1.6, not seen.
  it('reproduces the effective degrees of freedom of the end gauge', () => {
    const row = checkValue('gum-h1-nu')
    const components = row.inputs.components_u_nu as unknown as [number, number][]
    const result = combine(
      components.map(([standardUncertainty, degreesOfFreedom], index) => ({
        label: `component ${index}`,
        standardUncertainty,
        degreesOfFreedom,
      })),
    )
    expectRow(row, [result.effectiveDegreesOfFreedom])
  })

  it('gives no uncertainty to an empty budget', () => {
    expect(combine([])).toEqual({
      standardUncertainty: 0,
      effectiveDegreesOfFreedom: Number.POSITIVE_INFINITY,
    })
  })

  it('leaves exact estimates unlimited', () => {
    const exact = { label: 'exact', degreesOfFreedom: Number.POSITIVE_INFINITY }
    expect(
      combine([
        { ...exact, standardUncertainty: 3 },
        { ...exact, standardUncertainty: 4 },
      ]),
    ).toEqual({ standardUncertainty: 5, effectiveDegreesOfFreedom: Number.POSITIVE_INFINITY })
  })
})

describe('the end gauge of the GUM, propagated', () => {
  // JCGM 100:2008, annex H.1, as carried in the GTC documentation (seen): l = 50 000 838 nm with
  // u = 32 nm. l = l_s + d − l_s·(δα·θ + α_s·δθ). Inputs: l_s 50 000 623 (u 25), d 215 (u 9.7, from
  // 5.8, 3.9 and 6.7), δα 0 (u 0.5774e-6), θ −0.1 (mean), α_s 11.5e-6, δθ 0 (u 0.0289).
  it('gives its length and its uncertainty', () => {
    const input = (source: string, value: number, standardUncertainty: number) => ({
      source,
      value,
      standardUncertainty,
      sharedWithinSession: false,
    })
    const { inputs } = checkValue('gum-h1')
    const { values, contributions } = propagate(
      [
        input('standard', inputs.ls!, inputs.u_ls!),
        input('difference', inputs.d!, inputs.u_d!),
        input('difference of expansion', 0, 1e-6 / Math.sqrt(3)),
        input('temperature', -0.1, 0.41),
        input('expansion', 11.5e-6, 2e-6 / Math.sqrt(3)),
        input('difference of temperature', 0, 0.05 / Math.sqrt(3)),
      ],
      1,
      (x, y) => {
        const [ls, d, deltaAlpha, theta, alpha, deltaTheta] = x as unknown as number[]
        y[0] = ls! + d! - ls! * (deltaAlpha! * theta! + alpha! * deltaTheta!)
      },
    )
    expectRow(checkValue('gum-h1'), [values[0]!, Math.hypot(...contributions)])
  })
})
