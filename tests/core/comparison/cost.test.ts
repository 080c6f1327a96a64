import { describe, expect, it } from 'vitest'

import {
  answerForPair,
  type Question,
  usableReading,
} from '../../../src/core/comparison/compare.ts'
import {
  costOfDifference,
  costRate,
  gainOf,
  type PricedPart,
  priceDifference,
} from '../../../src/core/comparison/cost.ts'
import { viewOf } from '../../../src/core/comparison/stored-fit.ts'
import { REFERENCE } from '../../../src/core/normalise/reference.ts'
import { evidenceAbout } from '../prediction/simulated-fits.ts'
import { fitCommunity, flyCommunity, LEVELS } from './community.ts'

const equipment = { drive: 'twoStroke', propellerDiameterCm: 125 } as const
const plain = { setupId: 'plain', equipment }
const tuned = { setupId: 'tuned', equipment }
const climbs: Question = {
  metric: 'climbRate',
  state: REFERENCE,
  fit: evidenceAbout(Math.log(8900)).view,
}
const burns: Question = {
  metric: 'fuelFlow',
  state: REFERENCE,
  fit: evidenceAbout(Math.log(3)).view,
}

const part = (id: string, amount?: number, currency = 'EUR', asOf = '2026-01-20'): PricedPart => ({
  id,
  price: amount === undefined ? null : { amount, currency, asOf },
})

describe('priceDifference', () => {
  it('sums over the parts that differ', () => {
    const a = [part('engine', 3000), part('carbon', 400, 'EUR', '2026-03-01'), part('light', 900)]
    const b = [part('engine', 3000), part('wood', 150, 'EUR', '2025-06-30'), part('ring', 700)]
    expect(priceDifference(a, b)).toEqual({ amount: 450, currency: 'EUR', asOf: '2025-06-30' })
    expect(priceDifference(b, a)?.amount).toBe(-450)
  })

  it('needs no price of what both have', () => {
    const a = [part('engine'), part('carbon', 400), part('ring')]
    const b = [part('engine'), part('wood', 150), part('ring')]
    expect(priceDifference(a, b)?.amount).toBe(250)
  })

  it.each([
    ['a price is missing', [part('engine', 3000), part('carbon')]],
    ['a price is in another currency', [part('engine', 3000), part('carbon', 400, 'CHF')]],
    ['nothing differs', [part('engine', 3000), part('wood', 150)]],
  ])('is not known where %s', (_why, a) => {
    expect(priceDifference(a, [part('engine', 3000), part('wood', 150)])).toBeNull()
  })
})

describe('costRate', () => {
  // 97.5 % point of Student's t with 10 degrees of freedom: 2.228139 (any table).
  it('turns the ends of the gain round', () => {
    const rate = costRate(300, { estimate: 2, standardError: 0.5, degreesOfFreedom: 10 })
    if ('noFigure' in rate) throw new Error(rate.noFigure)
    expect(rate.value).toBe(150)
    expect(rate.interval95[0]).toBeCloseTo(300 / (2 + 2.228139 * 0.5), 4)
    expect(rate.interval95[1]).toBeCloseTo(300 / (2 - 2.228139 * 0.5), 4)
  })

  it('says unbounded where the gain may be nothing, and nowhere else', () => {
    const rate = (standardError: number) =>
      costRate(300, { estimate: 2, standardError, degreesOfFreedom: 10 })
    expect(rate(2 / 2.2282)).toHaveProperty('value')
    expect(rate(2 / 2.2281)).toEqual({ noFigure: 'unbounded' })
    const worse = { estimate: -2, standardError: 0.1, degreesOfFreedom: 10 }
    expect(costRate(300, worse)).toEqual({ noFigure: 'unbounded' })
  })

  it('has no figure for what costs nothing more', () => {
    const gain = { estimate: 2, standardError: 0.5, degreesOfFreedom: 10 }
    expect(costRate(0, gain)).toEqual({ noFigure: 'costsNoMore' })
    expect(costRate(-50, gain)).toEqual({ noFigure: 'costsNoMore' })
  })
})

describe('gainOf', () => {
  it('is the difference of the readings, whichever direction is better', () => {
    const readingOf = (question: Question, candidate: typeof plain) => {
      const reading = usableReading(question, candidate)
      if ('refusal' in reading) throw new Error('refused')
      return reading.value
    }
    expect(gainOf(climbs, tuned, plain)?.estimate).toBeCloseTo(
      readingOf(climbs, tuned) - readingOf(climbs, plain),
      12,
    )
    expect(gainOf(burns, plain, tuned)?.estimate).toBeCloseTo(
      readingOf(burns, tuned) - readingOf(burns, plain),
      12,
    )
  })

  it('has the standard error of both readings with their covariance', () => {
    // The flow is the exponential of the estimate at the reference state, so its slope is itself.
    const [a, b] = ['plain', 'tuned'].map((id) => Math.exp(burns.fit.logQuantityOf(id)!))
    const cov = (x: string, y: string) => burns.fit.covarianceOf(x, y)
    const variance =
      a! ** 2 * cov('plain', 'plain') -
      2 * a! * b! * cov('plain', 'tuned') +
      b! ** 2 * cov('tuned', 'tuned')
    expect(gainOf(burns, plain, tuned)?.standardError).toBeCloseTo(Math.sqrt(variance), 12)
  })

  // At the reference state a flow is the exponential of its estimate: with half the difference d on
  // either side of the middle m, D = e^m·(e^(d/2) − e^(−d/2)) and u(D) = u(d)·(e^(m+d/2) + e^(m−d/2))/2.
  it('is that of the comparison through shared parts, where only those link the two', () => {
    const all = ['e1', 'e2', 'e3'].flatMap((e) =>
      ['p1', 'p2', 'p3'].flatMap((p) => ['f1', 'f2'].map((f) => `${e}-${p}-${f}`)),
    )
    const [lonely, others] = [all.at(-2)!, all.filter((id) => id !== all.at(-2))]
    const evenings = [...others.map((id, k) => [id, others[(k + 5) % 17]!]), [lonely]]
    const { rows } = flyCommunity({
      ...{ seed: 6, setups: all, evenings, sessions: 108, interaction: 0.03 },
      level: LEVELS.fuelFlow,
    })
    const question = { ...burns, fit: viewOf(fitCommunity(rows)) }
    const [dear, cheap] = [others[0]!, lonely].map((setupId) => ({ setupId, equipment }))
    const answer = answerForPair(question, dear!, cheap!)
    if (answer.refusal !== null) throw new Error(answer.refusal.code)
    expect(answer.tier).toBe('additive')
    const d = -answer.difference.estimate // burning less is better
    const logs = [dear!, cheap!].map(({ setupId }) => question.fit.logQuantityOf(setupId)!)
    const middle = (logs[0]! + logs[1]!) / 2
    const [more, less] = [Math.exp(middle + d / 2), Math.exp(middle - d / 2)]
    const gain = gainOf(question, dear!, cheap!)!
    expect(gain.estimate).toBeCloseTo(more - less, 10)
    expect(gain.standardError).toBeCloseTo(
      (answer.difference.standardError * (more + less)) / 2,
      10,
    )
  })

  it('is none where one of the two does not climb', () => {
    const heavy = { ...climbs, state: { ...REFERENCE, allUpMassKg: 320 } }
    expect(gainOf(heavy, tuned, plain)).toBeNull()
  })
})

describe('costOfDifference', () => {
  const pair = { better: tuned, worse: plain, extraPrice: 450 }

  it('prices a climb by tenths of a metre per second and by newtons, whichever is asked', () => {
    const cost = costOfDifference(climbs, pair, null)
    const climb = gainOf(climbs, tuned, plain)!
    const thrust = gainOf({ ...climbs, metric: 'climbThrust' }, tuned, plain)!
    expect(cost.perTenthMps).toMatchObject({ value: 45 / climb.estimate })
    expect(cost.perNewton).toMatchObject({ value: 450 / thrust.estimate })
    expect(costOfDifference({ ...climbs, metric: 'climbThrust' }, pair, null)).toEqual(cost)
    expect(cost).not.toHaveProperty('paybackH')
  })

  it('counts the hours until fuel has paid, at a price of fuel', () => {
    const saving = { better: plain, worse: tuned, extraPrice: 450 }
    const { paybackH } = costOfDifference(burns, saving, 1.9)
    const saved = gainOf(burns, plain, tuned)!.estimate
    expect(paybackH).toMatchObject({ value: 450 / 1.9 / saved })
    expect(costOfDifference(burns, saving, null)).toEqual({})
  })
})
