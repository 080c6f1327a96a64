import { describe, expect, it } from 'vitest'

import { type ForestRow, forest } from '../../src/charts/forest.ts'
import type { Mark, Picture } from '../../src/charts/picture.ts'
import { svgText } from '../../src/charts/svg-text.ts'

const ROWS: readonly ForestRow[] = [
  { name: 'A-1 + P + F', estimate: 2, low: 1.5, high: 2.5 },
  { name: 'B-2 + P + F', estimate: 3, low: 2.8, high: 3.2, note: 'Do not fly', tone: 'unsafe' },
  { name: 'C-3 + P + F', estimate: null, low: null, high: null, note: 'Too few flights' },
]

const draw = (rows: readonly ForestRow[], widthPx = 720, extra = {}): Picture =>
  forest(rows, { widthPx, title: 'Climb', axis: 'm/s', write: (v) => v.toFixed(1), ...extra })

function all(marks: readonly (Mark | string)[], tag: string): Mark[] {
  return marks.flatMap((mark) =>
    typeof mark === 'string'
      ? []
      : [...(mark.tag === tag ? [mark] : []), ...all(mark.children, tag)],
  )
}

const bars = (picture: Picture) =>
  all(picture.marks, 'line').filter(({ attributes }) => /^ink-bar/.test(String(attributes.class)))

describe('a forest', () => {
  it('draws each interval on one scale: equal values at equal places', () => {
    const picture = draw([
      { name: 'A', estimate: 2, low: 1, high: 3 },
      { name: 'B', estimate: 3, low: 2, high: 4 },
    ])
    const [first, second] = bars(picture).map(({ attributes }) => attributes)
    const perUnit = (Number(first!.x2) - Number(first!.x1)) / 2
    expect(Number(second!.x1) - Number(first!.x1)).toBeCloseTo(perUnit, 0)
    expect(Number(second!.x2) - Number(first!.x2)).toBeCloseTo(perUnit, 0)
  })

  it('draws no figure where none is given, and says why in words', () => {
    const picture = draw(ROWS)
    expect(bars(picture)).toHaveLength(2)
    expect(picture.description).toContain('C-3 + P + F: no figure (Too few flights).')
  })

  it('says every figure it draws', () => {
    expect(draw(ROWS).description).toContain('A-1 + P + F: 2.0, 95 % interval 1.5 to 2.5.')
  })

  it('marks what must not be flown by form and words, not by colour alone', () => {
    const svg = svgText(draw(ROWS))
    expect(svg).toContain('>Do not fly</text>')
    expect(svg).toContain('stroke-dasharray="2 3"')
  })

  it.each([320, 360, 720, 1600])('keeps everything inside a width of %i px', (widthPx) => {
    const long =
      'Brackwater and Daughters B-185 special + Some Rather Long Propeller 140 cm + Frame'
    const picture = draw([...ROWS, { name: long, estimate: 2.2, low: 2, high: 2.4 }], widthPx)
    for (const { attributes } of bars(picture)) {
      expect(Number(attributes.x1)).toBeGreaterThanOrEqual(0)
      expect(Number(attributes.x2)).toBeLessThanOrEqual(widthPx)
    }
  })

  it('keeps the propeller and the frame in sight beside a note', () => {
    const texts = all(draw(ROWS).marks, 'text').map(({ children }) => children[0])
    expect(texts).toEqual(expect.arrayContaining(['B-2', 'P + F', 'Do not fly', 'Too few flights']))
  })

  it('puts ranks on whole positions', () => {
    const rows = [{ name: 'A', estimate: 1, low: 1, high: 2 }]
    const picture = draw(rows, 720, { positions: 3 })
    const numbers = all(picture.marks, 'text').map(({ children }) => children[0])
    expect(numbers).toEqual(expect.arrayContaining(['1', '2', '3']))
  })

  it('draws an empty ruler for no rows', () => {
    expect(bars(draw([]))).toEqual([])
  })
})

describe('the text of a picture', () => {
  it('escapes what a name may hold', () => {
    const svg = svgText(draw([{ name: 'A <b>&"\u0007', estimate: 1, low: 0, high: 2 }]))
    expect(svg).toContain('A &lt;b&gt;&amp;&quot;')
    expect(svg).not.toContain('<b>')
    expect(svg).not.toContain('\u0007')
  })

  it('needs no style sheet: every class was inked', () => {
    expect(svgText(draw(ROWS))).not.toContain('class=')
  })

  it('is the same for the same rows', () => {
    expect(svgText(draw(ROWS))).toBe(svgText(draw(ROWS)))
  })
})
