import { describe, expect, it } from 'vitest'
import { COMPONENTS, componentArray, perComponent } from '../../../src/core/mixed/components.ts'
import { contrast } from '../../../src/core/mixed/contrasts.ts'
import {
  createWorkspace,
  evaluateAt,
  evaluateCriterion,
  evaluateDerivatives,
} from '../../../src/core/mixed/evaluate.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { sensitivityPass } from '../../../src/core/mixed/model/sensitivity-pass.ts'
import { expectedInformation } from '../../../src/core/mixed/search/information.ts'
import { slopesOfCovariance } from '../../../src/core/mixed/slopes.ts'
import { REFERENCE_FITS, referenceFit } from './reference-fits.ts'

// Source of all values: tests/reference/inference, R 4.2.2 with lme4, lmerTest and metafor.
// Tolerances: as stated in its README; R's optimisers stop at about 1e-5 of a variance.

describe.each(REFERENCE_FITS)('the fit of %s', (name) => {
  const reference = referenceFit(name)
  const fit = fitNested(reference.layout, { fixed: reference.fixed })

  it('converges to the restricted likelihood of R', () => {
    expect(fit.converged).toBe(true)
    expect(Math.abs(fit.logLikelihood - reference.logLikelihood)).toBeLessThan(1e-6)
  })

  it('finds the variance components of R, zeros included', () => {
    for (const component of COMPONENTS) {
      const expected = reference.theta[component]
      if (expected === undefined) {
        expect(fit.status[component]).toBe('fixed')
      } else if (expected < 1e-12) {
        // lme4 reports a component at its boundary as 0 or as the rounding of 0.
        expect(fit.status[component]).toBe('notDetected')
        expect(fit.theta[component]).toBe(0)
      } else {
        expect(fit.status[component]).toBe('estimated')
        expect(Math.abs(fit.theta[component] / expected - 1)).toBeLessThan(1e-4)
      }
    }
  })

  it('gives the means and standard errors of R', () => {
    expect([...fit.setups].sort()).toEqual([...reference.setups].sort())
    reference.setups.forEach((setup, i) => {
      const mean = contrast(fit, [{ setup, weight: 1 }])
      expect(Math.abs(mean.estimate - reference.beta[i]!) / reference.se[i]!).toBeLessThan(1e-5)
      expect(Math.abs(mean.standardError / reference.se[i]! - 1)).toBeLessThan(1e-5)
    })
  })

  it("gives the contrasts of R with Satterthwaite's degrees of freedom", () => {
    expect(reference.contrasts.length).toBeGreaterThan(0)
    for (const { a, b, est, se, df } of reference.contrasts) {
      const other = b === undefined ? [] : [{ setup: b, weight: -1 }]
      const found = contrast(fit, [{ setup: a, weight: 1 }, ...other], { method: 'observed' })
      expect(Math.abs(found.estimate - est) / se).toBeLessThan(1e-5)
      expect(Math.abs(found.standardError / se - 1)).toBeLessThan(1e-5)
      expect(Math.abs(found.degreesOfFreedom / df - 1)).toBeLessThan(1e-4)
    }
  })
})

const WITH_DENSE = REFERENCE_FITS.filter((name) => referenceFit(name).dense !== null)

describe.each(WITH_DENSE)('the model of %s at the variances of R', (name) => {
  const { layout, theta, dense } = referenceFit(name)
  const at = evaluateAt(
    layout,
    perComponent((j) => theta[COMPONENTS[j]!] ?? 0),
  )
  const used = COMPONENTS.flatMap((component, j) => (theta[component] === undefined ? [] : [j]))

  it('has the criterion of dense algebra', () => {
    expect(Math.abs(at.logLikelihood - dense!.logLikelihood)).toBeLessThan(1e-9)
  })

  it('has the score of numerical differentiation', () => {
    // numDeriv differentiates a criterion of size 10 to 600 with steps of 1e-4 of theta, so its
    // error is far below 1e-4 standard errors of the score, the tolerance here.
    used.forEach((j, row) => {
      const scale = Math.sqrt(dense!.information[row]![row]!)
      expect(Math.abs(at.score[j]! - dense!.score[row]!)).toBeLessThan(1e-4 * scale)
    })
  })

  it('has the observed information of numerical differentiation', () => {
    const ws = createWorkspace(layout)
    evaluateCriterion(layout, ws, componentArray(perComponent((j) => theta[COMPONENTS[j]!] ?? 0)))
    evaluateDerivatives(layout, ws)
    const wanted = Uint8Array.from(COMPONENTS, (_, j) => (used.includes(j) ? 1 : 0))
    const average = ws.averageInformation.slice()
    sensitivityPass(layout, ws)
    const slopes = slopesOfCovariance(ws.covariance, ws.sensitivity, layout.setupCount)
    const expected = expectedInformation(layout, ws, slopes, wanted)
    const found = expected.map((value, entry) => 2 * average[entry]! - value)
    // Both sides are finite differences; ours loses about 1e-8, numDeriv about 1e-6.
    used.forEach((j, row) => {
      used.forEach((k, column) => {
        const size = Math.sqrt(
          dense!.information[row]![row]! * dense!.information[column]![column]!,
        )
        const difference = found[j + 4 * k]! - dense!.information[row]![column]!
        expect(Math.abs(difference)).toBeLessThan(1e-5 * size)
      })
    })
  })
})
