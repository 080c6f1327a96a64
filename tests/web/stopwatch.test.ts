import { describe, expect, it } from 'vitest'

import {
  clockText,
  freshWatch,
  lapTimesS,
  totalS,
} from '../../src/web/pages/submit/stopwatch-times.ts'

describe('a stopwatch', () => {
  const running = { ...freshWatch('run'), startedAt: 1_000, lapsAt: [32_200, 62_000] }

  it('has laps that sum to the whole time', () => {
    const stopped = { ...running, stoppedAt: 94_400 }
    const laps = lapTimesS(stopped, 999_999)
    expect(laps).toEqual([31.2, 29.8, 32.4])
    expect(laps.reduce((sum, lap) => sum + lap, 0)).toBeCloseTo(totalS(stopped, 999_999), 9)
  })

  it('runs on while nobody looks', () => {
    expect(totalS(running, 61_000)).toBe(60)
    expect(totalS(running, 121_000)).toBe(120)
  })

  it('shows nothing before it is started', () => {
    expect(totalS(freshWatch('run'), 5_000)).toBe(0)
    expect(lapTimesS(freshWatch('run'), 5_000)).toEqual([])
  })

  it.each([
    [0, '0:00.0'],
    [9.96, '0:09.9'],
    [63.4, '1:03.4'],
    [600, '10:00.0'],
  ])('shows %f s as %s', (seconds, text) => expect(clockText(seconds)).toBe(text))
})
