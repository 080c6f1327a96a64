import { describe, expect, it } from 'vitest'
import {
  contrast,
  prepareContrasts,
  quadraticForm,
  satterthwaite,
  UnknownSetupError,
} from '../../../src/core/mixed/contrasts.ts'
import { evaluateAt } from '../../../src/core/mixed/evaluate.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { referenceFit } from './reference-fits.ts'

const { layout } = referenceFit('sim_metafor_known_u')
const fit = fitNested(layout)
const pair = (a: string, b: string) => [
  { setup: a, weight: 1 },
  { setup: b, weight: -1 },
]

describe('contrast', () => {
  it('changes its sign and nothing else when turned round', () => {
    const forth = contrast(fit, pair('k001', 'k002'))
    const back = contrast(fit, pair('k002', 'k001'))
    expect(back.estimate).toBeCloseTo(-forth.estimate, 14)
    expect(back.standardError).toBeCloseTo(forth.standardError, 14)
    expect(back.degreesOfFreedom / forth.degreesOfFreedom).toBeCloseTo(1, 10)
  })

  it('keeps its degrees of freedom when all weights are scaled', () => {
    const one = contrast(fit, pair('k001', 'k002'))
    const three = contrast(
      fit,
      pair('k001', 'k002').map((w) => ({ ...w, weight: 3 * w.weight })),
    )
    expect(three.standardError / one.standardError).toBeCloseTo(3, 12)
    expect(three.degreesOfFreedom / one.degreesOfFreedom).toBeCloseTo(1, 10)
  })

  it('adds the weights of a setup named twice', () => {
    const twice = [
      ...pair('k001', 'k002'),
      { setup: 'k001', weight: 1 },
      { setup: 'k003', weight: -1 },
    ]
    const once = [
      { setup: 'k001', weight: 2 },
      { setup: 'k002', weight: -1 },
      { setup: 'k003', weight: -1 },
    ]
    expect(contrast(fit, twice)).toEqual(contrast(fit, once))
  })

  it('has no error where all weights cancel', () => {
    const nothing = contrast(fit, pair('k001', 'k001'))
    expect(nothing.estimate).toBe(0)
    expect(nothing.standardError).toBe(0)
  })

  it('counts the components at zero in its cautious degrees of freedom', () => {
    const boundary = referenceFit('sim_boundary_u0')
    const atZero = fitNested(boundary.layout, { fixed: boundary.fixed })
    const keep = contrast(atZero, pair('k001', 'k002'))
    const observed = contrast(atZero, pair('k001', 'k002'), { method: 'observed' })
    expect(keep.standardError).toBe(observed.standardError)
    expect(keep.degreesOfFreedom).toBeLessThan(observed.degreesOfFreedom)
  })

  it('refuses a setup the fit does not hold and a weight that is no number', () => {
    expect(() => contrast(fit, [{ setup: 'none', weight: 1 }])).toThrow(UnknownSetupError)
    expect(() => contrast(fit, [{ setup: 'k001', weight: Number.NaN }])).toThrow('weight of k001')
  })
})

describe('prepareContrasts', () => {
  it('has the degrees of freedom that follow from T_j, for one setup, for two and for uneven weights', () => {
    const { layout, fixed } = referenceFit('sim_lme4_u0')
    const fit = fitNested(layout, { fixed })
    const prepared = prepareContrasts(fit)
    const { sensitivity } = evaluateAt(layout, fit.theta)
    const [a, b, c] = fit.setups as [string, string, string]
    const cases = [
      [{ setup: a, weight: 1 }],
      [
        { setup: a, weight: 1.7 },
        { setup: b, weight: -1.4 },
      ],
      [
        { setup: a, weight: 1 },
        { setup: b, weight: -0.5 },
        { setup: c, weight: -0.5 },
      ],
    ]
    const K = fit.setups.length
    for (const weights of cases) {
      const l = new Float64Array(K)
      for (const { setup, weight } of weights) l[fit.setups.indexOf(setup)] = weight
      const solved = l.map((_, i) =>
        l.reduce((sum, x, k) => sum + fit.covariance[i + k * K]! * x, 0),
      )
      const variance = l.reduce((sum, x, k) => sum + x * solved[k]!, 0)
      const gradient = Float64Array.from({ length: 4 }, (_, j) =>
        quadraticForm(sensitivity.subarray(j * K * K, (j + 1) * K * K), solved),
      )
      const found = prepared(weights)
      expect(found.standardError / Math.sqrt(variance)).toBeCloseTo(1, 12)
      const expected = satterthwaite(variance, gradient, fit.inverseExpected)
      expect(found.degreesOfFreedom / expected).toBeCloseTo(1, 9)
    }
    expect(() => prepared([{ setup: 'nobody', weight: 1 }])).toThrow(UnknownSetupError)
  })
})
