import { describe, expect, it } from 'vitest'

import {
  differenceRows,
  type ShownPair,
  type ShownSetup,
  valueRows,
} from '../../src/charts/setup-rows.ts'

const setup = (setupId: string, extra: Partial<ShownSetup> = {}): ShownSetup => ({
  setupId,
  name: setupId,
  value: 2,
  interval95: [1, 3],
  rank: null,
  safety: { state: 'none' },
  evidence: { interestedSessions: 0 },
  ...extra,
})

const pair = (extra: Partial<ShownPair>): ShownPair => ({
  a: 'a',
  b: 'b',
  verdict: 'aBetter',
  differencePercent: 25,
  interval95Percent: [10, 60],
  ...extra,
})

describe('rows of differences', () => {
  it('take a pair as it is given where the one compared with is b', () => {
    const [row] = differenceRows([setup('a'), setup('b')], [pair({})], 'b')
    expect(row).toMatchObject({ name: 'a', estimate: 25, low: 10, high: 60, tone: 'plain' })
  })

  it('turn a pair round where the one compared with is a: 25 % more is 20 % less', () => {
    const [row] = differenceRows([setup('a'), setup('b')], [pair({})], 'a')
    expect(row!.estimate).toBeCloseTo(-20, 9)
    expect(row!.low).toBeCloseTo(-37.5, 9)
    expect(row!.high).toBeCloseTo(-100 / 11, 9)
  })

  it('turn decibels by their sign', () => {
    const levels = {
      a: 'a',
      b: 'b',
      verdict: 'bBetter',
      differenceDb: 3,
      interval95Db: [1, 5],
    } as const
    const [row] = differenceRows([setup('a'), setup('b')], [levels], 'a')
    expect(row).toMatchObject({ estimate: -3, low: -5, high: -1 })
  })

  it('give no figure where the pair is refused, but the reason', () => {
    const refused = { a: 'a', b: 'b', verdict: 'refused', reason: 'Never flown together' } as const
    const [row] = differenceRows([setup('a'), setup('b')], [refused], 'b')
    expect(row).toMatchObject({ estimate: null, note: 'Never flown together' })
  })
})

describe('rows of values', () => {
  it('are in the reader’s unit', () => {
    expect(valueRows([setup('a')], (v) => 10 * v)[0]).toMatchObject({ estimate: 20, high: 30 })
  })

  it('say above all that a setup must not be flown', () => {
    const unsafe = setup('a', { safety: { state: 'doNotFly' }, refused: { reason: 'x' } })
    expect(valueRows([unsafe])[0]).toMatchObject({ note: 'Do not fly', tone: 'unsafe' })
  })
})
