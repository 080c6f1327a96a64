import { describe, expect, it } from 'vitest'

import { designOfParts, PART_KINDS } from '../../../src/core/comparison/additive-view.ts'
import { type Attribution, attribute } from '../../../src/core/comparison/attribution.ts'
import { answerForPair, type Question } from '../../../src/core/comparison/compare.ts'
import { restoreFit, storeFit, viewOf } from '../../../src/core/comparison/stored-fit.ts'
import { studentTQuantile } from '../../../src/core/distributions/student-t.ts'
import { fitAdditive } from '../../../src/core/mixed/attribution.ts'
import { decompose } from '../../../src/core/mixed/decomposition.ts'
import { REFERENCE } from '../../../src/core/normalise/reference.ts'
import {
  type Community,
  EFFECTS,
  fitCommunity,
  flyCommunity,
  LEVELS,
  partsOf,
} from './community.ts'

const ALL = ['e1', 'e2', 'e3'].flatMap((e) =>
  ['p1', 'p2', 'p3'].flatMap((p) => ['f1', 'f2'].map((f) => `${e}-${p}-${f}`)),
)
/** Neighbours in a ring of all eighteen, two by two. */
const RING = ALL.map((setup, k) => [setup, ALL[(k + 5) % ALL.length]!])

const community = (seed: number, interaction: number, level: number = LEVELS.climb): Community => ({
  ...{ seed, setups: ALL, evenings: RING, sessions: 90, interaction, level },
})

const equipmentOf = (setup: string) =>
  ({ drive: 'twoStroke', propellerDiameterCm: setup.includes('p3') ? 130 : 125 }) as const
const candidate = (setupId: string) => ({ setupId, equipment: equipmentOf(setupId) })

function questionOn(whole: ReturnType<typeof fitCommunity>): Question {
  return { metric: 'climbRate', state: REFERENCE, fit: viewOf(whole) }
}

function attributed(question: Question, from: string, to: string): Attribution {
  const found = attribute(question, candidate(from), candidate(to))
  if (found === null || !('parts' in found)) throw new Error('refused')
  return found
}

describe('decompose', () => {
  it('is generalised least squares on the runs themselves where parts add up', () => {
    const { rows } = flyCommunity(community(2, 0))
    const whole = fitCommunity(rows)
    const { decomposition, parts } = whole.additive!
    expect(decomposition.interactionVariance).toBe(0)
    expect(decomposition.degreesOfFreedom).toBe(18 - 6)
    const direct = fitAdditive(
      whole.layout,
      parts.map((factors) => ({ factors: { ...factors } })),
      { fixed: { ...whole.fit.theta } },
    )
    const p = direct.coefficients.length
    for (let a = 0; a < p; a++) {
      const found = whole.fit.beta.reduce(
        (sum, beta, k) => sum + decomposition.weights[a + k * p]! * beta,
        0,
      )
      expect(found).toBeCloseTo(direct.coefficients[a]!, 8)
    }
  })

  it('finds the variance of setups about the sum of their parts, on average', () => {
    const runs = 60
    const found = Array.from({ length: runs }, (_, seed) => {
      const whole = fitCommunity(flyCommunity(community(seed, 0.05)).rows)
      return whole.additive!.decomposition.interactionVariance
    })
    const mean = found.reduce((sum, x) => sum + x / runs, 0)
    // About 12 degrees of freedom each: a standard deviation of 0.0025·√(2/12)·1.2, four of the mean.
    expect(Math.abs(mean - 0.0025)).toBeLessThan(
      (4 * 0.0025 * Math.sqrt(2 / 12) * 1.2) / Math.sqrt(runs),
    )
  })

  it('gives nothing where no standard error is known', () => {
    const { rows } = flyCommunity(community(1, 0))
    const whole = fitCommunity(rows.slice(0, 1).map((row) => ({ ...row, u: 0 })))
    expect(decompose(whole.fit, designOfParts([partsOf(rows[0]!.setup)]))).toBeNull()
  })
})

describe('attribute', () => {
  const question = questionOn(fitCommunity(flyCommunity(community(3, 0.03)).rows))

  it('adds up to the difference of the pair, whatever the equipment', () => {
    for (const [from, to] of [
      ['e1-p1-f1', 'e3-p3-f2'],
      ['e2-p2-f1', 'e2-p3-f1'],
    ] as const) {
      const { total, parts, unexplained } = attributed(question, from, to)
      const lines = [...PART_KINDS.map((kind) => parts[kind]), unexplained]
      const sum = lines.reduce((all, line) => {
        if (line.refusal !== null) throw new Error(line.refusal)
        return all + line.difference.estimate
      }, 0)
      expect(sum).toBeCloseTo(total.difference.estimate, 10)
    }
  })

  it('gives exactly nothing to parts that both have, and nothing uncertain', () => {
    const { same, parts } = attributed(question, 'e1-p1-f1', 'e2-p1-f1')
    expect(same).toEqual(['propeller', 'frame'])
    expect(parts.frame).toMatchObject({ difference: { estimate: 0, standardError: 0 } })
  })

  // Nominal 95 %; 80 communities, two lines each: a standard deviation of 1.7 % if they were
  // independent. The moment estimate of the interaction is rough with 12 degrees of freedom.
  it.each([0, 0.04])(
    'covers the true effect of a part with an interaction of %d',
    (interaction) => {
      let covered = 0
      let lines = 0
      for (let seed = 100; seed < 180; seed++) {
        const asked: Question = {
          ...questionOn(
            fitCommunity(flyCommunity(community(seed, interaction, LEVELS.fuelFlow)).rows),
          ),
          metric: 'fuelFlow',
        }
        const { parts } = attributed(asked, 'e1-p1-f1', 'e3-p2-f1')
        for (const [kind, truth] of [
          ['powerplant', EFFECTS.e3!],
          ['propeller', EFFECTS.p2!],
        ] as const) {
          const line = parts[kind]
          if (line.refusal !== null) throw new Error(line.refusal)
          const { estimate, standardError, degreesOfFreedom } = line.difference
          const reach = studentTQuantile(0.975, degreesOfFreedom) * standardError
          lines++
          if (Math.abs(estimate - truth) <= reach) covered++
        }
      }
      expect(covered / lines).toBeGreaterThan(0.88)
      expect(covered / lines).toBeLessThan(0.999)
    },
  )

  it('refuses lines of parts that always changed together, and gives their sum', () => {
    const setups = ['e1-p1-f1', 'e2-p2-f1', 'e1-p1-f2', 'e2-p2-f2']
    const evenings = setups.map((setup, k) => [setup, setups[(k + 1) % 4]!])
    const { rows } = flyCommunity({
      seed: 4,
      setups,
      evenings,
      sessions: 40,
      interaction: 0,
      level: LEVELS.climb,
    })
    const asked = questionOn(fitCommunity(rows))
    const { parts, together, total } = attributed(asked, 'e1-p1-f1', 'e2-p2-f2')
    expect(parts.powerplant).toEqual({ refusal: 'neverSeparated' })
    expect(parts.propeller).toEqual({ refusal: 'neverSeparated' })
    expect(parts.frame.refusal).toBeNull()
    expect(together!.kinds).toEqual(['powerplant', 'propeller'])
    expect(together!.line.refusal).toBeNull()
    expect(total.tier).toBe('direct')
  })

  it('says where nothing is left to see whether parts add up', () => {
    const setups = ['e1-p1-f1', 'e2-p1-f1']
    const { rows } = flyCommunity({
      seed: 5,
      setups,
      evenings: [setups],
      sessions: 12,
      interaction: 0,
      level: LEVELS.climb,
    })
    const found = attributed(questionOn(fitCommunity(rows)), 'e1-p1-f1', 'e2-p1-f1')
    expect(found.unexplained).toEqual({ refusal: 'notTestable' })
    expect(found.parts.powerplant.refusal).toBeNull()
  })
})

describe('a pair that only shared parts link', () => {
  /** e3-p3-f1 is always flown alone; its parts are known from the others. */
  const lonely = 'e3-p3-f1'
  const others = ALL.filter((setup) => setup !== lonely)
  const evenings = [
    ...others.map((setup, k) => [setup, others[(k + 5) % others.length]!]),
    [lonely],
  ]
  const { rows } = flyCommunity({
    seed: 6,
    setups: ALL,
    evenings,
    sessions: 108,
    interaction: 0.03,
    level: LEVELS.fuelFlow,
  })
  const whole = fitCommunity(rows)
  const question = { ...questionOn(whole), metric: 'fuelFlow' as const }

  it('is compared through them, in the tier additive, with the doubt whether parts add up', () => {
    const answer = answerForPair(question, candidate(lonely), candidate('e1-p1-f1'))
    if (answer.refusal !== null) throw new Error(answer.refusal.code)
    expect(answer.tier).toBe('additive')
    const { estimate, standardError, parts } = answer.difference
    expect(Math.abs(estimate - (EFFECTS.e3! + EFFECTS.p3!))).toBeLessThan(3 * standardError)
    expect(parts.map(({ cause }) => cause)).toContain(
      'setups that are more than the sum of their parts',
    )
  })

  it('gives the opposite answer the other way round', () => {
    const there = answerForPair(question, candidate(lonely), candidate('e2-p1-f2'))
    const back = answerForPair(question, candidate('e2-p1-f2'), candidate(lonely))
    if (there.refusal !== null || back.refusal !== null) throw new Error('refused')
    expect(there.difference.estimate).toBeCloseTo(-back.difference.estimate, 10)
    expect(there.difference.standardError).toBeCloseTo(back.difference.standardError, 10)
  })

  it('has an attribution whose rest cannot be known', () => {
    const found = attributed(question, 'e1-p1-f1', lonely)
    expect(found.unexplained).toEqual({ refusal: 'throughPartsOnly' })
    const sum = PART_KINDS.reduce((all, kind) => {
      const line = found.parts[kind]
      return line.refusal === null ? all + line.difference.estimate : Number.NaN
    }, 0)
    expect(sum).toBeCloseTo(found.total.difference.estimate, 10)
  })

  it('stays refused where too few setups show whether parts add up', () => {
    const few = rows.filter(({ setup }) =>
      ['e1-p1-f1', 'e1-p2-f1', 'e2-p1-f1', 'e2-p2-f1'].includes(setup),
    )
    const asked = questionOn(fitCommunity(few))
    const linked = answerForPair(asked, candidate('e1-p1-f1'), candidate('e2-p2-f1'))
    expect(linked.tier).not.toBe('additive')
  })

  it('survives storing, bit for bit', () => {
    const { layout: _, ...stored } = whole
    const { header, numbers } = storeFit(stored)
    expect(restoreFit({ header: JSON.parse(JSON.stringify(header)), numbers })).toEqual(stored)
  })
})
