import { describe, expect, it } from 'vitest'

import { type CurvePoint, curve } from '../../src/charts/curve.ts'
import { marksOf, numberOf, ofClass } from './marks.ts'

const POINTS: readonly CurvePoint[] = [
  { at: 80, estimate: 4, low: 3, high: 5 },
  { at: 120, estimate: 3, low: 2.5, high: 3.5 },
  { at: 160, estimate: 2, low: 1, high: 3 },
]

const draw = (points = POINTS, extra = {}) =>
  curve(points, {
    widthPx: 600,
    title: 'Climb over mass',
    acrossAxis: 'All-up mass, kg',
    upAxis: 'Climb, m/s',
    write: (v) => v.toFixed(1),
    ...extra,
  })

/** The corners of a path. */
function cornersOf(picture: ReturnType<typeof draw>, name: string): [number, number][] {
  const [path] = ofClass(marksOf(picture, 'path'), name)
  const corners = String(path!.attributes.d).replace(/[MZ]/g, '').split('L')
  return corners.map((corner) => corner.split(' ').map(Number) as [number, number])
}

describe('a curve', () => {
  it('goes through its estimates from left to right, higher values higher up', () => {
    const corners = cornersOf(draw(), 'ink-curve')
    expect(corners).toHaveLength(POINTS.length)
    const [first, second, third] = corners
    expect(first![0]).toBeLessThan(second![0])
    expect(first![1]).toBeLessThan(second![1])
    // Equal steps of the values are equal steps of the line; places are rounded to 0.1 px.
    expect(second![0] - first![0]).toBeCloseTo(third![0] - second![0], 0)
    expect(second![1] - first![1]).toBeCloseTo(third![1] - second![1], 0)
  })

  it('lies in its band: up along the upper ends, back along the lower ones', () => {
    const band = cornersOf(draw(), 'ink-band')
    const line = cornersOf(draw(), 'ink-curve')
    expect(band).toHaveLength(2 * POINTS.length)
    line.forEach(([x, y], index) => {
      const upper = band[index]!
      const lower = band[band.length - 1 - index]!
      expect(upper[0]).toBe(x)
      expect(lower[0]).toBe(x)
      expect(upper[1]).toBeLessThan(y)
      expect(lower[1]).toBeGreaterThan(y)
    })
  })

  it('keeps the line to compare with in sight, also where no value is near it', () => {
    const picture = draw(POINTS, { zero: 0 })
    const [zero] = ofClass(marksOf(picture, 'line'), 'ink-zero')
    expect(numberOf(zero!, 'y1')).toBeLessThanOrEqual(picture.heightPx)
    expect(numberOf(zero!, 'y1')).toBeGreaterThan(
      Math.max(...cornersOf(picture, 'ink-band').map(([, y]) => y)),
    )
  })

  it('says every figure it draws', () => {
    expect(draw().description).toBe(
      'Climb, m/s over All-up mass, kg. At 80: 4.0, 95 % interval 3.0 to 5.0. At 120: 3.0, 95 % interval 2.5 to 3.5. At 160: 2.0, 95 % interval 1.0 to 3.0.',
    )
  })
})
