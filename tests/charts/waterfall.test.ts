import { describe, expect, it } from 'vitest'

import { type Step, waterfall } from '../../src/charts/waterfall.ts'
import { marksOf, numberOf, ofClass, wordsOf } from './marks.ts'

const percents = (before: number, change: number) =>
  100 * ((1 + before / 100) * (1 + change / 100) - 1)

const step = (label: string, change: number | null, half = 2): Step => ({
  label,
  detail: 'A → B',
  change,
  low: change === null ? null : change - half,
  high: change === null ? null : change + half,
})

const draw = (steps: readonly Step[], total: Step, then = percents, widthPx = 600) =>
  waterfall(steps, {
    widthPx,
    title: 'Change in climb rate',
    axis: 'Change, %',
    write: (v) => v.toFixed(1),
    then,
    total,
  })

const dots = (picture: ReturnType<typeof draw>) =>
  ofClass(marksOf(picture, 'circle'), 'ink-dot').map((dot) => numberOf(dot, 'cx'))

describe('a waterfall', () => {
  it('ends where the whole ends: 10 % and then 20 % are 32 %', () => {
    // 1.1 · 1.2 = 1.32
    const picture = draw([step('Engine', 10), step('Propeller', 20)], step('Altogether', 32))
    const [, last, whole] = dots(picture)
    expect(last).toBeCloseTo(whole!, 1)
  })

  it('adds decibels', () => {
    const add = (before: number, change: number) => before + change
    const picture = draw([step('Engine', 3), step('Frame', -1)], step('Altogether', 2), add)
    const [, last, whole] = dots(picture)
    expect(last).toBeCloseTo(whole!, 1)
  })

  it('begins each step where the one before ended', () => {
    const picture = draw([step('Engine', 10), step('Propeller', 20)], step('Altogether', 32))
    const [engine, propeller] = ofClass(marksOf(picture, 'rect'), 'ink-band')
    const end = numberOf(engine!, 'x') + numberOf(engine!, 'width')
    expect(numberOf(propeller!, 'x')).toBeCloseTo(end, 0)
  })

  it('goes on from where it was after a step without a figure, and says why it has none', () => {
    const unknown: Step = { ...step('Propeller', null), detail: 'never flown apart' }
    const picture = draw([step('Engine', 10), unknown, step('Frame', 5)], step('Altogether', 15.5))
    // A dot for each figure: engine, frame, whole; 1.1 · 1.05 = 1.155.
    expect(dots(picture)).toHaveLength(3)
    expect(dots(picture)[1]).toBeCloseTo(dots(picture)[2]!, 1)
    expect(picture.description).toContain('Propeller: no figure (never flown apart).')
    expect(wordsOf(picture)).toContain('–')
  })

  it('says every figure it draws', () => {
    const picture = draw([step('Engine', 10)], step('Altogether', 10))
    expect(picture.description).toContain('Engine (A → B): 10.0, 95 % interval 8.0 to 12.0.')
  })

  it.each([280, 360, 1280])('keeps bars and lines inside a width of %i px', (widthPx) => {
    const picture = draw([step('Engine', 40, 30)], step('Altogether', 40, 60), percents, widthPx)
    for (const bar of ofClass(marksOf(picture, 'line'), 'ink-bar')) {
      expect(numberOf(bar, 'x1')).toBeGreaterThanOrEqual(0)
      expect(numberOf(bar, 'x2')).toBeLessThanOrEqual(widthPx)
    }
  })
})
