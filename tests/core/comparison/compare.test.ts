import { describe, expect, it } from 'vitest'

import {
  answerForPair,
  answerForSetup,
  percentOf,
  type Question,
} from '../../../src/core/comparison/compare.ts'
import { rankSetups } from '../../../src/core/comparison/rank-setups.ts'
import { readMetric } from '../../../src/core/comparison/reading.ts'
import { restoreFit, storeFit, viewOf } from '../../../src/core/comparison/stored-fit.ts'
import { contrast } from '../../../src/core/mixed/contrasts.ts'
import { gatherEvidence } from '../../../src/core/mixed/evidence.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { systematicTerms } from '../../../src/core/mixed/systematic.ts'
import { REFERENCE } from '../../../src/core/normalise/reference.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'

const equipment = { drive: 'twoStroke', propellerDiameterCm: 125 } as const
const candidate = (setupId: string) => ({ setupId, equipment })

/** ln of a quantity (with the offset of induced power in watts): four setups in a ring of sessions, e apart from them. */
function runs(offset = 8): Observation[] {
  const random = new Pcg32(7)
  const truth: Record<string, number> = { a: 0.75, b: 0.85, c: 0.95, d: 1.05, e: 1.1 }
  const pairs = [['a', 'b'], ['b', 'c'], ['c', 'd'], ['d', 'a'], ['e']]
  return Array.from({ length: 20 }, (_, session) => {
    const day = 0.03 * random.normal()
    return pairs[session % pairs.length]!.flatMap((setup) =>
      Array.from({ length: 3 }, () => ({
        setup,
        session: `s${session}`,
        pilot: `p${session % 4}`,
        u: 0.03,
        y: offset + truth[setup]! + day + 0.03 * random.normal(),
      })),
    )
  }).flat()
}

const layout = buildLayout(runs())
const fit = fitNested(layout)
/** One cause that moves only the runs of c, for everybody alike, by one per cent. */
const effect = runs().map(({ setup }) => (setup === 'c' ? 0.01 : 0))
const terms = systematicTerms(layout, fit, [{ cause: 'tape measure', reach: 'everyone', effect }])
const whole = {
  fit,
  evidence: gatherEvidence(layout),
  terms,
  interestedSessions: [0, 0, 1, 0, 0],
}
/** The same runs as litres per hour. */
const burns = viewOf({ ...whole, fit: fitNested(buildLayout(runs(0))) })
const question: Question = { metric: 'climbRate', state: REFERENCE, fit: viewOf(whole) }

describe('a stored fit', () => {
  it('comes back bit for bit, also after a trip through JSON and bytes', () => {
    const { header, numbers } = storeFit(whole)
    const bytes = new Uint8Array(numbers.buffer.slice(0))
    const back = restoreFit({
      header: JSON.parse(JSON.stringify(header)),
      numbers: new Float64Array(bytes.buffer),
    })
    expect(back).toEqual(whole)
  })
})

describe('answerForSetup', () => {
  it('reads the estimate and the ends of its interval at the conditions', () => {
    const answer = answerForSetup(question, candidate('b'))
    if (answer.refusal !== null) throw new Error('refused')
    const at = { equipment, state: REFERENCE }
    const { estimate, standardError } = question.fit.contrast([{ setup: 'b', weight: 1 }])
    const reading = readMetric('climbRate', estimate, at)
    expect(answer.value).toBe(reading.value)
    expect(answer.standardUncertainty).toBeCloseTo(
      reading.value * reading.elasticity! * standardError,
      12,
    )
    const [low, high] = answer.interval95
    expect(low).toBeLessThan(answer.value)
    // The ends are read through the prediction, so the interval leans: its ratios need not be equal.
    expect(high / answer.value).not.toBeCloseTo(answer.value / low, 6)
  })
})

describe('answerForPair', () => {
  it('agrees with the fit for a metric whose elasticity is one', () => {
    const answer = answerForPair(
      { ...question, metric: 'fuelFlow', fit: burns },
      candidate('a'),
      candidate('c'),
    )
    if (answer.refusal !== null) throw new Error('refused')
    const plain = contrast(fit, [
      { setup: 'a', weight: 1 },
      { setup: 'c', weight: -1 },
    ])
    expect(answer.difference.estimate).toBeCloseTo(plain.estimate, 12)
    // The one per cent on c stands beside the scatter, as a part of its own that no flight averages out.
    expect(answer.difference.standardError).toBeCloseTo(Math.hypot(plain.standardError, 0.01), 12)
    const ratio = (answer.difference.standardError / plain.standardError) ** 2
    expect(answer.difference.degreesOfFreedom).toBeCloseTo(plain.degreesOfFreedom * ratio ** 2, 6)
    expect(answer.difference.parts).toEqual([
      { cause: 'scatter of the flights', variance: expect.closeTo(plain.standardError ** 2, 14) },
      { cause: 'tape measure', variance: expect.closeTo(1e-4, 14) },
    ])
    expect(answer.tier).toBe('connected')
  })

  it('refuses what is not linked', () => {
    const answer = answerForPair(question, candidate('a'), candidate('e'))
    expect(answer).toMatchObject({ tier: 'betweenSessions', refusal: { code: 'notConnected' } })
  })
})

describe('percentOf', () => {
  it('turns a logarithm into percent, and its interval with it', () => {
    const { percent, interval95 } = percentOf({
      estimate: Math.log(1.2),
      standardError: 0.05,
      degreesOfFreedom: 1e9,
    })
    expect(percent).toBeCloseTo(20, 12)
    // 1.959964, the 97.5 % point of the normal distribution (any table).
    expect(interval95[0]).toBeCloseTo(100 * (1.2 * Math.exp(-1.959964 * 0.05) - 1), 4)
    expect(interval95[1]).toBeCloseTo(100 * (1.2 * Math.exp(1.959964 * 0.05) - 1), 4)
  })
})

describe('rankSetups', () => {
  const all = ['e', 'c', 'a', 'd', 'b'].map(candidate)

  it('ranks the linked four, best first, whatever order they are named in', () => {
    const ranks = rankSetups(question, all)
    expect([...ranks.keys()]).toEqual(['d', 'c', 'b', 'a'])
    expect([...ranks.values()].map(({ position }) => position)).toEqual([1, 2, 3, 4])
    const again = rankSetups(question, [...all].reverse())
    expect([...again.keys()]).toEqual([...ranks.keys()])
  })

  it('turns round where lower is better', () => {
    expect([...rankSetups({ ...question, metric: 'fuelFlow', fit: burns }, all).keys()]).toEqual([
      'a',
      'b',
      'c',
      'd',
    ])
  })

  it('ranks nothing where fewer than two can be compared', () => {
    expect(rankSetups(question, [candidate('e'), candidate('a')]).size).toBe(0)
  })

  it('gives the same answer to the same question', () => {
    expect([...rankSetups(question, all)]).toEqual([...rankSetups(question, all)])
  })
})
