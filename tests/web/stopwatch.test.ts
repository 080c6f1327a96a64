import { describe, expect, it } from 'vitest'

import {
  clockText,
  freshWatch,
  lapTimesS,
  pressed,
  spokenTime,
  totalS,
  type Watch,
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

  it('counts on after a stop that was a slip, and takes a lap back', () => {
    const watch = [
      { what: 'start', at: 1_000 },
      { what: 'lap', at: 31_000 },
      { what: 'stop', at: 50_000 },
      { what: 'goOn' },
      { what: 'lap', at: 61_000 },
      { what: 'undoLap' },
      { what: 'stop', at: 601_000 },
    ].reduce<Watch>((before, press) => pressed(before, press as never), freshWatch('run'))
    expect(lapTimesS(watch, 999_999)).toEqual([30, 570])
    expect(totalS(watch, 999_999)).toBe(600)
    expect(pressed(watch, { what: 'reset' })).toEqual(freshWatch('run'))
  })

  it.each([
    [9.96, '9.9 seconds'],
    [63.4, '1 minute 3.4 seconds'],
    [754, '12 minutes 34 seconds'],
  ])('says %f s as %s', (seconds, text) => expect(spokenTime(seconds)).toBe(text))

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
