import { describe, expect, it } from 'vitest'

import { curve } from '../../src/charts/curve.ts'
import { type ForestRow, forest } from '../../src/charts/forest.ts'
import { gauge } from '../../src/charts/gauge.ts'
import type { Picture } from '../../src/charts/picture.ts'
import { waterfall } from '../../src/charts/waterfall.ts'
import { marksOf, ofClass, wordsOf } from './marks.ts'

const write = (value: number) => value.toFixed(1)

const ROWS: readonly ForestRow[] = [
  { name: 'A-1 + P + F', estimate: 2.1, low: 1.5, high: 2.6 },
  { name: 'B-2 + P + F', estimate: null, low: null, high: null, note: 'Too few flights' },
  { name: 'C-3 + P + F', estimate: 3.3, low: 3.3, high: 3.3, note: 'stands out', tone: 'odd' },
]

const asForest = (extra = {}) =>
  forest(ROWS, { widthPx: 700, title: 'Climb', axis: 'Climb, m/s', write, ...extra })

describe('the table of a picture', () => {
  it('of a forest has each row with its interval, and why there is none', () => {
    expect(asForest().table).toEqual({
      heads: ['Setup', 'Climb, m/s', '95 % interval', 'Remark'],
      rows: [
        ['A-1 + P + F', '2.1', '1.5 to 2.6', ''],
        ['B-2 + P + F', '–', '–', 'Too few flights'],
        ['C-3 + P + F', '3.3', '3.3', 'stands out'],
      ],
    })
  })

  it('says what the rows are about', () => {
    expect(asForest({ rowsAre: 'Session' }).table.heads[0]).toBe('Session')
  })

  it('of a curve has each place', () => {
    const points = [
      { at: 80, estimate: 3, low: 2.5, high: 3.5 },
      { at: 120, estimate: 2, low: 1.5, high: 2.5 },
    ]
    const { table } = curve(points, {
      widthPx: 400,
      title: 'Climb over mass',
      acrossAxis: 'Mass, kg',
      upAxis: 'Climb, m/s',
      write,
    })
    expect(table).toEqual({
      heads: ['Mass, kg', 'Climb, m/s', '95 % interval'],
      rows: [
        ['80', '3.0', '2.5 to 3.5'],
        ['120', '2.0', '1.5 to 2.5'],
      ],
    })
  })

  it('of a waterfall has each step, and the whole last', () => {
    const step = { label: 'Engine', detail: 'A → B', change: 5, low: 1, high: 9 }
    const then = (before: number, change: number) => before + change
    const { table } = waterfall([step], {
      widthPx: 400,
      title: 'Change',
      axis: 'Change, %',
      write,
      then,
      total: { label: 'Altogether', detail: 'all parts', change: null, low: null, high: null },
    })
    expect(table.rows).toEqual([
      ['Engine', '5.0', '1.0 to 9.0', 'A → B'],
      ['Altogether', '–', '–', 'all parts'],
    ])
  })

  it('of a gauge has its one value', () => {
    const { table } = gauge(
      { estimate: 2, low: 1, high: 3 },
      { widthPx: 300, title: 'Climb', write },
    )
    expect(table.rows).toEqual([['2.0', '1.0 to 3.0']])
  })
})

describe('a forest for paper', () => {
  const rowsOf = (picture: Picture) => ofClass(marksOf(picture, 'text'), 'ink-strong').length

  it('is lower, and has the same rows and remarks', () => {
    const [roomy, dense] = [asForest(), asForest({ isDense: true })]
    expect(dense.heightPx).toBeLessThan(0.75 * roomy.heightPx)
    expect(rowsOf(dense)).toBe(rowsOf(roomy))
    const remarks = marksOf(dense, 'tspan').map(({ children }) => children[0])
    expect(remarks).toEqual(['Too few flights', 'stands out'])
    expect(dense.description).toBe(roomy.description)
  })

  it('stays roomy where it is too narrow to be low', () => {
    const narrow = { widthPx: 340 }
    expect(wordsOf(asForest({ ...narrow, isDense: true }))).toEqual(wordsOf(asForest(narrow)))
  })

  it('shows the whole of a long axis where the picture is wide enough for it', () => {
    const axis = `Difference from ${'a rather long name '.repeat(4)}, %`
    expect(wordsOf(asForest({ axis }))).toContain(axis)
    const [long] = marksOf(asForest({ axis }), 'text').filter(
      ({ children }) => children[0] === axis,
    )
    expect(long!.attributes.x).toBe(0)
  })

  it('tells what stands out by form and words', () => {
    expect(ofClass(marksOf(asForest(), 'circle'), 'ink-dot-odd')).toHaveLength(1)
    expect(ofClass(marksOf(asForest(), 'text'), 'ink-odd')).toHaveLength(1)
  })
})
