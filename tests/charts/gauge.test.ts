import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { gauge } from '../../src/charts/gauge.ts'
import { marksOf, numberOf, ofClass } from './marks.ts'

const OPTIONS = { widthPx: 320, title: 'Climb', write: (v: number) => v.toFixed(2) }
const draw = (estimate: number, low: number, high: number) =>
  gauge({ estimate, low, high }, OPTIONS)

describe('a gauge', () => {
  it('says the value and its interval', () => {
    expect(draw(2.5, 2.1, 2.9).description).toBe('2.50, 95 % interval 2.10 to 2.90.')
  })

  it('has its hairline inside the band, and the band inside the picture', () => {
    const places = fc.tuple(
      fc.double({ min: -100, max: 500, noNaN: true }),
      fc.double({ min: 0.01, max: 50, noNaN: true }),
      fc.double({ min: 0.01, max: 50, noNaN: true }),
    )
    fc.assert(
      fc.property(places, ([estimate, below, above]) => {
        const picture = draw(estimate, estimate - below, estimate + above)
        const [band] = ofClass(marksOf(picture, 'rect'), 'ink-band')
        const [hairline] = ofClass(marksOf(picture, 'line'), 'ink-hairline')
        const left = numberOf(band!, 'x')
        const right = left + numberOf(band!, 'width')
        // Places are rounded to a tenth of a pixel.
        expect(numberOf(hairline!, 'x1')).toBeGreaterThanOrEqual(left - 0.11)
        expect(numberOf(hairline!, 'x1')).toBeLessThanOrEqual(right + 2.11)
        expect(left).toBeGreaterThanOrEqual(-0.11)
        expect(right).toBeLessThanOrEqual(OPTIONS.widthPx + 0.11)
      }),
    )
  })

  it('still shows something where the interval has no width', () => {
    const [band] = ofClass(marksOf(draw(2, 2, 2), 'rect'), 'ink-band')
    expect(numberOf(band!, 'width')).toBeGreaterThanOrEqual(2)
  })
})
