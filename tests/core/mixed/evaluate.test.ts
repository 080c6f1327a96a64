import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  COMPONENTS,
  componentArray,
  type PerComponent,
} from '../../../src/core/mixed/components.ts'
import {
  createWorkspace,
  evaluateAt,
  evaluateCriterion,
  evaluateDerivatives,
} from '../../../src/core/mixed/evaluate.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { sensitivityPass } from '../../../src/core/mixed/model/sensitivity-pass.ts'
import { expectedInformation } from '../../../src/core/mixed/search/information.ts'
import { slopesOfCovariance } from '../../../src/core/mixed/slopes.ts'
import { smallRuns } from './arbitrary-runs.ts'
import { evaluateDensely } from './dense-model.ts'

const variance = fc.double({ min: 0.001, max: 0.5, noNaN: true })
const orZero = fc.oneof(
  { weight: 1, arbitrary: fc.constant(0) },
  { weight: 3, arbitrary: variance },
)
const anyTheta = fc.record({ pilot: orZero, session: orZero, cell: orZero, run: variance })

/** Largest difference of two lists of numbers, relative to the largest of the second. */
function deviation(found: Iterable<number>, expected: readonly number[]): number {
  const scale = Math.max(...expected.map(Math.abs), 1e-300)
  return Math.max(...[...found].map((x, i) => Math.abs(x - expected[i]!))) / scale
}

const columnMajor = (matrix: readonly (readonly number[])[]) =>
  matrix[0]!.flatMap((_, j) => matrix.map((row) => row[j]!))

// Entries are sums of up to 50 terms and V is conditioned like 1e4 at worst here: 1e-9 is far above
// rounding and far below the effect of any wrong term.
const CLOSE = 1e-9

describe('an evaluation of the nested model', () => {
  it('is what plain matrix algebra gives', () => {
    fc.assert(
      fc.property(smallRuns, anyTheta, (rows, theta) => {
        const found = evaluateAt(buildLayout(rows), theta)
        const expected = evaluateDensely(rows, theta)
        expect(Math.abs(found.logLikelihood - expected.logLikelihood)).toBeLessThan(1e-8)
        expect(deviation(found.beta, expected.beta)).toBeLessThan(CLOSE)
        expect(deviation(found.covariance, columnMajor(expected.covariance))).toBeLessThan(CLOSE)
        const K = expected.setups.length
        expected.sensitivity.forEach((T, j) => {
          const block = found.sensitivity.subarray(j * K * K, (j + 1) * K * K)
          expect(deviation(block, columnMajor(T))).toBeLessThan(CLOSE)
        })
        // Score and information are differences of terms of the size Σw and Σw²: they can cancel
        // to nothing where there are as many setups as runs, so rounding is judged by that size.
        const weight = rows.length / theta.run
        COMPONENTS.forEach((_, j) => {
          expect(Math.abs(found.score[j]! - expected.score[j]!)).toBeLessThan(1e-10 * weight)
        })
        columnMajor(expected.averageInformation).forEach((value, entry) => {
          const difference = Math.abs(found.averageInformation[entry]! - value)
          expect(difference).toBeLessThan(1e-9 * Math.abs(value) + (1e-10 * weight) / theta.run)
        })
      }),
      { numRuns: 60 },
    )
  })

  it('adds a known session variance to that session only', () => {
    fc.assert(
      fc.property(smallRuns, anyTheta, (rows, theta) => {
        const known = new Map([[rows[0]!.session, 0.02]])
        const found = evaluateAt(buildLayout(rows, { knownSessionVariance: known }), theta)
        const expected = evaluateDensely(rows, theta, known)
        expect(Math.abs(found.logLikelihood - expected.logLikelihood)).toBeLessThan(1e-8)
        expect(deviation(found.covariance, columnMajor(expected.covariance))).toBeLessThan(CLOSE)
        expect(deviation(found.beta, expected.beta)).toBeLessThan(CLOSE)
      }),
      { numRuns: 40 },
    )
  })

  it('has the slope of its criterion as score', () => {
    fc.assert(
      fc.property(
        smallRuns,
        fc.record({ pilot: variance, session: variance, cell: variance, run: variance }),
        (rows, theta) => {
          const layout = buildLayout(rows)
          const { score } = evaluateAt(layout, theta)
          COMPONENTS.forEach((component, j) => {
            const h = 1e-4 * theta[component]
            const at = (step: number) =>
              evaluateAt(layout, { ...theta, [component]: theta[component] + step }).logLikelihood
            const slope = (at(h) - at(-h)) / (2 * h)
            // Truncation h² l''' and rounding 1e-13 / h of the criterion, both relative to N / θ.
            const scale = rows.length / theta[component]
            expect(Math.abs(score[j]! - slope)).toBeLessThan(1e-6 * scale)
          })
        },
      ),
      { numRuns: 40 },
    )
  })

  it('gives the expected information, whatever the data', () => {
    fc.assert(
      fc.property(smallRuns, anyTheta, (rows, theta) => {
        const layout = buildLayout(rows)
        const ws = createWorkspace(layout)
        evaluateCriterion(layout, ws, componentArray(theta))
        evaluateDerivatives(layout, ws)
        sensitivityPass(layout, ws)
        const slopes = slopesOfCovariance(ws.covariance, ws.sensitivity, layout.setupCount)
        const information = expectedInformation(layout, ws, slopes, new Uint8Array(4).fill(1))
        const expected = evaluateDensely(rows, theta).expectedInformation
        COMPONENTS.forEach((_, j) => {
          COMPONENTS.forEach((_, k) => {
            const at = j + 4 * k
            const found = information[at]!
            // Truncation of the differences is about 1e-10 of the parts that cancel. What the means of a
            // pilot's setups have in common cancels too, and takes digits as it outweighs the runs.
            const size = Math.sqrt(Math.abs(expected[j]![j]! * expected[k]![k]!))
            const common = (theta.pilot + theta.session + theta.cell) / theta.run
            const rounding = (1e-8 * (1 + common / 10) * rows.length) / theta.run ** 2
            expect(Math.abs(found - expected[j]![k]!)).toBeLessThan(1e-8 * size + rounding)
          })
        })
      }),
      { numRuns: 40 },
    )
  })

  it('answers NaN where V is not positive definite', () => {
    const rows = [1, 2, 3].map((y) => ({ y, u: 0, setup: 'a', session: 's', pilot: 'p' }))
    const theta = { pilot: 0, session: 0, cell: 0, run: -1 }
    expect(evaluateAt(buildLayout(rows), theta).logLikelihood).toBeNaN()
  })
})

// Dyestuff: O. L. Davies, P. L. Goldsmith, Statistical Methods in Research and Production, 4th ed.,
// 1972, as in lme4: six batches, five readings each (data from memory; they reproduce lme4's values).
const DYESTUFF: Readonly<Record<string, readonly number[]>> = {
  A: [1545, 1440, 1440, 1520, 1580],
  B: [1540, 1555, 1490, 1560, 1495],
  C: [1595, 1550, 1605, 1510, 1560],
  D: [1445, 1440, 1595, 1465, 1545],
  E: [1595, 1630, 1515, 1635, 1625],
  F: [1520, 1455, 1450, 1480, 1445],
}
const dyestuff: Observation[] = Object.entries(DYESTUFF).flatMap(([batch, readings]) =>
  readings.map((y) => ({ y, u: 0, setup: 'one', session: batch, pilot: 'one' })),
)

/** REML criterion −2 l_R of lme4 at relative scatter θ of the batches, σ² profiled out. */
function profiledCriterion(theta: number): number {
  const layout = buildLayout(dyestuff)
  const at = (run: number): PerComponent<number> => ({
    pilot: 0,
    session: theta ** 2 * run,
    cell: 0,
    run,
  })
  const { score } = evaluateAt(layout, at(1))
  // Scaling all variances by c changes l by ½ (r'V⁻¹r / c − (N − 1) log c): read r'V⁻¹r off the score.
  const degrees = dyestuff.length - 1
  const squares = degrees + 2 * (theta ** 2 * score[1]! + score[3]!)
  return -2 * evaluateAt(layout, at(squares / degrees)).logLikelihood
}

describe('the criterion on the Dyestuff data', () => {
  // Source: lme4, tests/testthat/test-lmer.R, REMLfun(1) and REMLfun(0), to all printed digits.
  it('has the values lme4 tests at fixed points', () => {
    expect(Math.abs(profiledCriterion(1) - 319.792389042002)).toBeLessThan(1e-9)
    expect(Math.abs(profiledCriterion(0) - 326.023232155879)).toBeLessThan(1e-9)
  })

  // Source: analysis of variance of the balanced data (closed form); criterion from lme4.
  it('has its optimum where the analysis of variance puts it', () => {
    const fit = fitNested(buildLayout(dyestuff), { fixed: { pilot: 0, cell: 0 } })
    expect(fit.beta[0]).toBeCloseTo(1527.5, 9)
    expect(Math.abs(fit.theta.run / 2451.25 - 1)).toBeLessThan(1e-6)
    expect(Math.abs(fit.theta.session / 1764.05 - 1)).toBeLessThan(1e-5)
    expect(Math.abs(-2 * fit.logLikelihood - 319.654276842342)).toBeLessThan(1e-8)
  })
})
