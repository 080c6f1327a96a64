import { describe, expect, it } from 'vitest'

import { type TradeOffFigure, type TradeOffPoint, tradeOff } from '../../src/charts/trade-off.ts'
import { marksOf, numberOf, ofClass, wordsOf } from './marks.ts'

const figure = (estimate: number, half: number): TradeOffFigure => ({
  estimate,
  low: estimate - half,
  high: estimate + half,
})

const point = (burn: number, climb: number, extra: Partial<TradeOffPoint> = {}): TradeOffPoint => ({
  name: `${burn} ${climb}`,
  burn: figure(burn, 0.2),
  climb: figure(climb, 0.4),
  isOnFront: false,
  chanceOnFront: 0.5,
  ...extra,
})

const draw = (points: readonly TradeOffPoint[], widthPx = 600) =>
  tradeOff(points, {
    widthPx,
    burnAxis: 'Fuel, L/h',
    climbAxis: 'Climb, m/s',
    write: (v) => v.toFixed(2),
  })

/** The four ends of each region: left, top, right, bottom. */
function regionsOf(picture: ReturnType<typeof draw>) {
  return ofClass(marksOf(picture, 'path'), 'ink-region').map(({ attributes }) => {
    const numbers = [...String(attributes.d).matchAll(/ 0 0 1 ([\d.]+) ([\d.]+)/g)]
    const [top, right, bottom, left] = numbers.map(([, x, y]) => [Number(x), Number(y)] as const)
    return { left: left![0], top: top![1], right: right![0], bottom: bottom![1] }
  })
}

describe('climb against fuel', () => {
  it('has better climb higher up and less fuel further left', () => {
    const [thirsty, frugal] = marksOf(draw([point(4, 3), point(2, 2)]), 'circle')
    expect(numberOf(frugal!, 'cx')).toBeLessThan(numberOf(thirsty!, 'cx'))
    expect(numberOf(thirsty!, 'cy')).toBeLessThan(numberOf(frugal!, 'cy'))
  })

  it('draws a region in proportion to the interval, around its dot', () => {
    const picture = draw([point(2, 2), point(4, 3, { burn: figure(4, 0.6) })])
    const [small, large] = regionsOf(picture)
    const cx = numberOf(marksOf(picture, 'circle')[0]!, 'cx')
    // Ends are rounded to 0.1 px of about 40.
    expect((large!.right - large!.left) / (small!.right - small!.left)).toBeCloseTo(3, 1)
    expect((small!.left + small!.right) / 2).toBeCloseTo(cx, 0)
  })

  it('reaches further to the side to which the interval does', () => {
    const picture = draw([point(2, 2, { burn: { estimate: 2, low: 1.9, high: 2.3 } }), point(4, 3)])
    const [region] = regionsOf(picture)
    const cx = numberOf(marksOf(picture, 'circle')[0]!, 'cx')
    expect((region!.right - cx) / (cx - region!.left)).toBeCloseTo(3, 1)
  })

  it('holds both truths at once: the region reaches beyond the interval of either by 2.448 to 1.960', () => {
    const points = [point(2, 2), point(4, 3)]
    const picture = draw(points)
    const [region] = regionsOf(picture)
    const [a, b] = marksOf(picture, 'circle').map((circle) => numberOf(circle, 'cx'))
    const perUnit = (b! - a!) / (4 - 2)
    // √(−2 ln 0.05) = 2.448, the 95 % point of the distance from the middle of a normal pair.
    expect((region!.right - region!.left) / (0.4 * perUnit)).toBeCloseTo(2.448 / 1.96, 1)
  })

  it('makes the whole region visible', () => {
    const wild = point(2, 2, { burn: figure(2, 1.2), climb: figure(2, 1.6) })
    const picture = draw([wild, point(4, 3)], 320)
    for (const { left, right, top, bottom } of regionsOf(picture)) {
      expect(left).toBeGreaterThanOrEqual(0)
      expect(right).toBeLessThanOrEqual(320)
      expect(top).toBeGreaterThanOrEqual(0)
      expect(bottom).toBeLessThanOrEqual(picture.heightPx)
    }
  })

  it('joins those on the front by burn, numbers everything and tells the front by form', () => {
    const picture = draw([
      point(4, 5, { isOnFront: true }),
      point(3, 1),
      point(2, 2, { isOnFront: true }),
    ])
    const circles = marksOf(picture, 'circle')
    const [front] = ofClass(marksOf(picture, 'path'), 'ink-front')
    expect(String(front!.attributes.d)).toMatch(
      new RegExp(`^M${numberOf(circles[2]!, 'cx')} .*H${numberOf(circles[0]!, 'cx')}V`),
    )
    expect(ofClass(circles, 'ink-dot')).toHaveLength(2)
    expect(ofClass(circles, 'ink-dot-quiet')).toHaveLength(1)
    expect(wordsOf(picture)).toEqual(expect.arrayContaining(['1', '2', '3']))
    expect(picture.description).toContain('No other has the better of both than: 1, 3.')
  })

  it('draws no line where nobody is on the front', () => {
    const picture = draw([point(4, 5), point(3, 1)])
    expect(ofClass(marksOf(picture, 'path'), 'ink-front')).toEqual([])
  })

  it('has every figure and the chance in its table', () => {
    const { table } = draw([point(4, 5, { chanceOnFront: 0.77 })])
    expect(table.heads).toHaveLength(4)
    expect(table.rows).toEqual([
      ['1. 4 5', '5.00 (4.60 to 5.40)', '4.00 (3.80 to 4.20)', '77 % likely'],
    ])
  })
})
