import { describe, expect, it } from 'vitest'

import { contrast } from '../../../src/core/mixed/contrasts.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { changesWithout, influenceOf } from '../../../src/core/mixed/influence.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { FALSE_ALARM_RATE, findOutliers } from '../../../src/core/mixed/outliers.ts'
import { simulateRuns } from './arbitrary-runs.ts'
import { covarianceOfRuns, invert, projectDensely } from './dense-model.ts'
import { referenceFit } from './reference-fits.ts'

const campaign = (seed: number, pilots = 6) =>
  simulateRuns({
    seed,
    pilots,
    sessionsPerPilot: 3,
    setupsPerSession: 3,
    runsPerCell: 3,
    setups: 4,
    scatter: [0.03, 0.04, 0.02, 0.02],
    largestUncertainty: 0.02,
  })

/** The influences of a campaign beside what dense algebra makes of the same runs. */
function both(rows: readonly Observation[], known: ReadonlyMap<string, number>) {
  const layout = buildLayout(rows, { knownSessionVariance: known })
  const fit = fitNested(layout)
  const influence = influenceOf(layout, fit)!
  const setups = [...new Set(rows.map(({ setup }) => setup))].sort()
  const { P, Py } = projectDensely(
    covarianceOfRuns(rows, fit.theta, known),
    rows.map((row) => setups.map((setup) => (setup === row.setup ? 1 : 0))),
    rows.map(({ y }) => y),
  )
  return { layout, fit, influence, P, Py }
}

/** Sums of P and Py over the cells of one session. */
function cellsOf(
  rows: readonly Observation[],
  session: string,
  P: number[][],
  e: readonly number[],
) {
  const here = rows.flatMap((row, i) => (row.session === session ? [i] : []))
  const cells = [...new Set(here.map((i) => rows[i]!.setup))].map((setup) =>
    here.filter((i) => rows[i]!.setup === setup),
  )
  const total = (a: number[], b: number[]) =>
    a.reduce((sum, i) => sum + b.reduce((part, j) => part + P[i]![j]!, 0), 0)
  return {
    S: cells.map((a) => cells.map((b) => total(a, b))),
    r: cells.map((cell) => cell.reduce((sum, i) => sum + e[i]!, 0)),
  }
}

describe.each([1, 2, 3])('influenceOf campaign %i', (seed) => {
  const rows = campaign(seed)
  const known = new Map([[rows[0]!.session, 0.0004]])
  const { layout, fit, influence, P, Py } = both(rows, known)

  // Dense matrices of a few dozen rows lose about 1e-12 of the size of their entries.
  it('standardises runs as P from its definition does', () => {
    rows.forEach((_, i) => {
      expect(influence.runResiduals[i]!).toBeCloseTo(Py[i]! / Math.sqrt(P[i]![i]!), 9)
    })
  })

  it('gives chi-square and level shift of each session as dense algebra does', () => {
    for (const { session, chiSquare, degreesOfFreedom, levelShift } of influence.sessions) {
      const { S, r } = cellsOf(rows, session, P, Py)
      const inverse = invert(S).inverse
      const form = r.reduce(
        (sum, a, i) => sum + a * r.reduce((t, b, j) => t + inverse[i]![j]! * b, 0),
        0,
      )
      const whole = S.flat().reduce((sum, x) => sum + x, 0)
      expect(degreesOfFreedom).toBe(r.length)
      expect(chiSquare).toBeCloseTo(form, 8)
      expect(levelShift).toBeCloseTo(r.reduce((sum, x) => sum + x, 0) / Math.sqrt(whole), 8)
    }
  })

  it('gives the change of a difference that a refit without the session gives, at the same variances', () => {
    const difference = [
      { setup: 'setup 1', weight: 1 },
      { setup: 'setup 2', weight: -1 },
    ]
    const whole = contrast(fit, difference)
    const changes = changesWithout(layout, fit, influence, difference)
    influence.sessions.forEach(({ session }, s) => {
      const rest = buildLayout(
        rows.filter((row) => row.session !== session),
        { knownSessionVariance: known },
      )
      const without = contrast(fitNested(rest, { fixed: { ...fit.theta } }), difference)
      // 1e-9 of the standard error: the refit itself solves the same equations another way.
      expect(Math.abs(changes[s]! - (without.estimate - whole.estimate))).toBeLessThan(
        1e-9 * whole.standardError,
      )
    })
  })
})

describe('influenceOf', () => {
  it('says where a session is the sole evidence for a setup, and gives no influence number there', () => {
    const rows = campaign(4)
    const only: Observation = { ...rows[0]!, setup: 'only once' }
    const layout = buildLayout([...rows, only])
    const fit = fitNested(layout)
    const influence = influenceOf(layout, fit)!
    const sole = influence.sessions.filter(({ soleEvidence }) => soleEvidence)
    expect(sole.map(({ session }) => session)).toEqual([only.session])
    expect(sole[0]!.degreesOfFreedom).toBe(sole[0]!.cells - 1)
    const weights = [{ setup: 'setup 1', weight: 1 }]
    const changes = changesWithout(layout, fit, influence, weights)
    expect([...changes].filter(Number.isNaN)).toHaveLength(1)
    expect(Number.isNaN(influence.runResiduals[rows.length]!)).toBe(true)
  })

  it('gives nothing where no standard error is known', () => {
    const layout = buildLayout([{ setup: 'a', session: 's', pilot: 'p', y: 1, u: 0 }])
    expect(influenceOf(layout, fitNested(layout))).toBeNull()
  })

  it('handles a published design with one cell per session and known uncertainties', () => {
    const { layout, fixed } = referenceFit('senn2013_arm')
    const fit = fitNested(layout, { fixed })
    const influence = influenceOf(layout, fit)!
    expect(influence.sessions).toHaveLength(layout.sessionCount)
    for (const { soleEvidence, chiSquare } of influence.sessions) {
      expect(soleEvidence || chiSquare >= 0).toBe(true)
    }
  })
})

describe('findOutliers', () => {
  // The rate of campaigns with any alarm must not exceed 5 %: of 400, 20 are expected and the
  // standard deviation is 4.4, so 38 is four of them above. Far fewer would mean a blunt test: the
  // estimated variances absorb some of an outlier in such small campaigns, hence no more than a few.
  it('rarely raises an alarm on clean evidence', () => {
    let sessionAlarms = 0
    let runAlarms = 0
    for (let seed = 0; seed < 400; seed++) {
      const layout = buildLayout(campaign(1000 + seed, 8))
      const { sessions, runs } = findOutliers(influenceOf(layout, fitNested(layout))!)
      if (sessions.length > 0) sessionAlarms++
      if (runs.length > 0) runAlarms++
    }
    const most =
      400 * FALSE_ALARM_RATE + 4 * Math.sqrt(400 * FALSE_ALARM_RATE * (1 - FALSE_ALARM_RATE))
    expect(sessionAlarms).toBeLessThanOrEqual(most)
    expect(runAlarms).toBeLessThanOrEqual(most)
    expect(sessionAlarms + runAlarms).toBeGreaterThan(0)
  })

  it('finds one run that is far off, and the session it spoils', () => {
    const rows = campaign(5, 10)
    const index = 20
    const spoilt = rows.map((row, i) => (i === index ? { ...row, y: row.y + 0.5 } : row))
    const layout = buildLayout(spoilt)
    const { sessions, runs } = findOutliers(influenceOf(layout, fitNested(layout))!)
    expect(runs[0]!.run).toBe(index)
    expect(runs[0]!.residual).toBeGreaterThan(0)
    expect(sessions.map(({ session }) => session)).toContain(rows[index]!.session)
  })

  it('finds a setup that was off for one session, though its runs agree', () => {
    const rows = campaign(6, 10)
    const { session, setup } = rows[12]!
    const spoilt = rows.map((row) =>
      row.session === session && row.setup === setup ? { ...row, y: row.y - 0.3 } : row,
    )
    const layout = buildLayout(spoilt)
    const { sessions } = findOutliers(influenceOf(layout, fitNested(layout))!)
    expect(sessions[0]!.session).toBe(session)
  })
})
