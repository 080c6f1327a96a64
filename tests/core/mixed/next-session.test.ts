import { describe, expect, it } from 'vitest'
import { studentTQuantile } from '../../../src/core/distributions/student-t.ts'
import { COMPONENTS, perComponent } from '../../../src/core/mixed/components.ts'
import { contrast } from '../../../src/core/mixed/contrasts.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout } from '../../../src/core/mixed/layout.ts'
import { nextSessionSpread } from '../../../src/core/mixed/next-session.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { simulateRuns } from './arbitrary-runs.ts'

const SCATTER = [0.02, 0.03, 0.015, 0.02] as const
const SETUP = 'setup 2'

function campaign(seed: number) {
  const runs = simulateRuns({
    seed,
    pilots: 6,
    sessionsPerPilot: 4,
    setupsPerSession: 3,
    runsPerCell: 3,
    setups: 5,
    scatter: SCATTER,
    largestUncertainty: 0.02,
  })
  const layout = buildLayout(runs)
  const fit = fitNested(layout)
  return { layout, fit, mean: contrast(fit, [{ setup: SETUP, weight: 1 }]) }
}

describe('the spread of a further session', () => {
  it('is that of the mean with the scatter of pilots, sessions and cells', () => {
    const { fit, mean } = campaign(1)
    const { pilot, session, cell } = fit.theta
    const spread = nextSessionSpread(fit, SETUP, mean.standardError)
    const expected = Math.sqrt(mean.standardError ** 2 + pilot + session + cell)
    expect(spread.standardError).toBeCloseTo(expected, 14)
  })

  it('takes up what is known of the mean from elsewhere', () => {
    const { fit, mean } = campaign(1)
    const plain = nextSessionSpread(fit, SETUP, mean.standardError)
    const more = nextSessionSpread(fit, SETUP, Math.hypot(mean.standardError, 0.05))
    expect(more.standardError).toBeCloseTo(Math.hypot(plain.standardError, 0.05), 14)
    expect(more.degreesOfFreedom).toBeGreaterThan(plain.degreesOfFreedom)
  })

  // dv/dθ_j by refitting with every component held at its estimate and one of them moved a little.
  it('has the degrees of freedom of its own derivatives', () => {
    const { layout, fit, mean } = campaign(2)
    const varianceAt = (change: readonly number[]) => {
      const fixed = perComponent((j) => fit.theta[COMPONENTS[j]!] + change[j]!)
      const held = contrast(fitNested(layout, { fixed }), [{ setup: SETUP, weight: 1 }])
      return held.standardError ** 2 + fixed.pilot + fixed.session + fixed.cell
    }
    const step = 1e-7
    const gradient = COMPONENTS.map((_, j) => {
      const only = (h: number) => COMPONENTS.map((__, i) => (i === j ? h : 0))
      return (varianceAt(only(step)) - varianceAt(only(-step))) / (2 * step)
    })
    let spread = 0
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) {
        spread += gradient[i]! * fit.inverseExpected[i + 4 * j]! * gradient[j]!
      }
    }
    const expected = (2 * varianceAt([0, 0, 0, 0]) ** 2) / spread
    const found = nextSessionSpread(fit, SETUP, mean.standardError)
    expect(found.degreesOfFreedom / expected).toBeCloseTo(1, 4)
  })

  // A proportion of 0.95 over 400 independent campaigns has the standard error 0.011; four are 0.044.
  // The interval of the mean alone would hold a further session in about half of the campaigns.
  it('holds what a new pilot shows as often as it claims', () => {
    const random = new Pcg32(20_260_517)
    const truth = 1.5 + 0.1 * 2 // what simulateRuns gives setup 2
    let held = 0
    let heldByMean = 0
    const campaigns = 400
    for (let seed = 0; seed < campaigns; seed++) {
      const { fit, mean } = campaign(1000 + seed)
      const [pilot, session, cell] = SCATTER
      const shown =
        truth + pilot * random.normal() + session * random.normal() + cell * random.normal()
      const miss = Math.abs(shown - mean.estimate)
      const spread = nextSessionSpread(fit, SETUP, mean.standardError)
      const reach = ({ standardError, degreesOfFreedom }: typeof spread) =>
        studentTQuantile(0.975, degreesOfFreedom) * standardError
      if (miss <= reach(spread)) held += 1
      if (miss <= reach(mean)) heldByMean += 1
    }
    expect(held / campaigns).toBeGreaterThan(0.95 - 0.044)
    expect(held / campaigns).toBeLessThan(0.994)
    expect(heldByMean / campaigns).toBeLessThan(0.75)
  })

  it('counts an inseparable component where the fit has put it', () => {
    const runs = simulateRuns({
      seed: 3,
      pilots: 6,
      sessionsPerPilot: 4,
      setupsPerSession: 3,
      runsPerCell: 1,
      setups: 5,
      scatter: SCATTER,
      largestUncertainty: 0.02,
    })
    const fit = fitNested(buildLayout(runs))
    expect(fit.mergedInto.cell).toBe('run')
    const { pilot, session, run } = fit.theta
    expect(nextSessionSpread(fit, SETUP, 0).standardError).toBeCloseTo(
      Math.sqrt(pilot + session + run),
      14,
    )
  })

  it('is not known where the fit knows no scatter', () => {
    const runs = [
      { setup: 'a', session: 's', pilot: 'p', y: 1, u: 0 },
      { setup: 'b', session: 's', pilot: 'p', y: 2, u: 0 },
    ]
    const fit = fitNested(buildLayout(runs))
    expect(nextSessionSpread(fit, 'a', Number.POSITIVE_INFINITY)).toEqual({
      standardError: Number.POSITIVE_INFINITY,
      degreesOfFreedom: 1,
    })
  })
})
