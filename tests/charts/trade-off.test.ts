import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { paretoFront, type TradeOffPoint, tradeOff } from '../../src/charts/trade-off.ts'
import { marksOf, numberOf, ofClass, wordsOf } from './marks.ts'

const point = (burn: number, climb: number, extra: Partial<TradeOffPoint> = {}): TradeOffPoint => ({
  name: `${burn} ${climb}`,
  burn,
  burnU: 0.1,
  climb,
  climbU: 0.2,
  isUnsafe: false,
  ...extra,
})

const draw = (points: readonly TradeOffPoint[], widthPx = 600) =>
  tradeOff(points, {
    widthPx,
    burnAxis: 'Fuel, L/h',
    climbAxis: 'Climb, m/s',
    write: (v) => v.toFixed(2),
  })

const points = fc.array(
  fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }), fc.boolean()),
  { minLength: 1, maxLength: 12 },
)

describe('the front', () => {
  it('holds exactly the flyable ones that no flyable one beats in both', () => {
    fc.assert(
      fc.property(points, (raw) => {
        const all = raw.map(([burn, climb, isUnsafe]) => point(burn, climb, { isUnsafe }))
        const front = new Set(paretoFront(all))
        all.forEach((p, index) => {
          const isBeaten = all.some(
            (q) =>
              !q.isUnsafe &&
              q.burn <= p.burn &&
              q.climb >= p.climb &&
              (q.burn !== p.burn || q.climb !== p.climb),
          )
          expect(front.has(index)).toBe(!p.isUnsafe && !isBeaten)
        })
      }),
    )
  })
})

describe('climb against fuel', () => {
  it('has better climb higher up and less fuel further left', () => {
    const [thirsty, frugal] = marksOf(draw([point(4, 3), point(2, 2)]), 'circle')
    expect(numberOf(frugal!, 'cx')).toBeLessThan(numberOf(thirsty!, 'cx'))
    expect(numberOf(thirsty!, 'cy')).toBeLessThan(numberOf(frugal!, 'cy'))
  })

  it('draws a region in proportion to the uncertainty, around its dot', () => {
    const picture = draw([point(2, 2, { burnU: 0.1 }), point(4, 3, { burnU: 0.3 })])
    const [small, large] = marksOf(picture, 'ellipse')
    // Radii are rounded to 0.1 px of about 20.
    expect(numberOf(large!, 'rx') / numberOf(small!, 'rx')).toBeCloseTo(3, 1)
    expect(numberOf(small!, 'cx')).toBe(numberOf(marksOf(picture, 'circle')[0]!, 'cx'))
  })

  it('makes the whole region visible', () => {
    const picture = draw([point(2, 2, { burnU: 0.6, climbU: 0.8 }), point(4, 3)], 320)
    for (const region of marksOf(picture, 'ellipse')) {
      expect(numberOf(region, 'cx') - numberOf(region, 'rx')).toBeGreaterThanOrEqual(0)
      expect(numberOf(region, 'cx') + numberOf(region, 'rx')).toBeLessThanOrEqual(320)
      expect(numberOf(region, 'cy') + numberOf(region, 'ry')).toBeLessThanOrEqual(picture.heightPx)
    }
  })

  it('marks what must not be flown, numbers everything and leaves the unsafe one off the line', () => {
    const picture = draw([point(2, 2), point(1, 5, { isUnsafe: true })])
    expect(ofClass(marksOf(picture, 'circle'), 'ink-dot-unsafe')).toHaveLength(1)
    expect(wordsOf(picture)).toEqual(expect.arrayContaining(['1', '2']))
    expect(picture.description).toContain('No other has the better of both than: 1.')
  })
})
