import { expect } from 'vitest'

import { COMPONENTS, type Component } from '../../src/core/mixed/components.ts'
import { contrast } from '../../src/core/mixed/contrasts.ts'
import { fitNested } from '../../src/core/mixed/fit.ts'
import type { NestedFit } from '../../src/core/mixed/fit-result.ts'
import { layoutOf, type RefereedRun, type Verdict } from './referee.ts'

/** Fits the model with these components; the others are held at zero. */
export function fitWith(runs: readonly RefereedRun[], components: readonly Component[]): NestedFit {
  const left = COMPONENTS.filter((component) => !components.includes(component))
  return fitNested(layoutOf(runs), { fixed: Object.fromEntries(left.map((c) => [c, 0])) })
}

/** Share of the total variance up to which R's "zero" may differ from zero: where its search stops. */
const ZERO_SHARE = 1e-6

/**
 * The fit is what R found. Tolerances: those of tests/reference/inference; R's optimisers stop at about
 * 1e-5 of a variance, and the criterion is flat there.
 */
export function expectAgreement(fit: NestedFit, verdict: Verdict): void {
  expect(fit.converged).toBe(true)
  expect(Math.abs(fit.logLikelihood - verdict.logLikelihood)).toBeLessThan(1e-6)
  expectVariances(fit, verdict)
  expect(verdict.means.map(({ a }) => a).sort()).toEqual([...fit.setups].sort())
  expect(verdict.differences).toHaveLength(fit.setups.length - 1)
  for (const { a, b, ...found } of [...verdict.means, ...verdict.differences]) {
    const weights = [{ setup: a, weight: 1 }, ...(b === '' ? [] : [{ setup: b, weight: -1 }])]
    const ours = contrast(fit, weights, { method: 'observed' })
    const apart = Math.abs(ours.estimate - found.estimate) / found.standardError
    expect(apart, `${a} ${b}`).toBeLessThan(1e-5)
    expect(Math.abs(ours.standardError / found.standardError - 1), `${a} ${b}`).toBeLessThan(1e-5)
    if (found.degreesOfFreedom === null) continue
    const degrees = Math.abs(ours.degreesOfFreedom / found.degreesOfFreedom - 1)
    expect(degrees, `${a} ${b}`).toBeLessThan(1e-4)
  }
}

function expectVariances(fit: NestedFit, { theta }: Verdict): void {
  const total = Object.values(theta).reduce((sum, variance) => sum + variance, 0)
  expect(Object.keys(theta).length).toBeGreaterThan(1)
  for (const component of COMPONENTS) {
    const found = theta[component]
    if (found === undefined) expect(fit.status[component]).toBe('fixed')
    else if (fit.theta[component] === 0) expect(found).toBeLessThan(ZERO_SHARE * total)
    else {
      const apart = Math.abs(fit.theta[component] / found - 1)
      expect(apart, component).toBeLessThan(1e-4)
    }
  }
}
