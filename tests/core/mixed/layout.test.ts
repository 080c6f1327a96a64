import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { toColumns } from '../../../src/core/mixed/design/columns.ts'
import {
  buildLayout,
  InvalidLayoutError,
  type Layout,
  type Observation,
} from '../../../src/core/mixed/layout.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { smallRuns } from './arbitrary-runs.ts'

const run = (y: number, setup: string, session: string, pilot = 'p'): Observation => ({
  y,
  u: 0.1,
  setup,
  session,
  pilot,
})

/** Rows of a layout, read back from its arrays. */
function rowsOf(layout: Layout): Observation[] {
  const rows: Observation[] = []
  for (let p = 0; p < layout.pilotCount; p++) {
    for (let s = layout.pilotStart[p]!; s < layout.pilotStart[p + 1]!; s++) {
      for (let c = layout.sessionStart[s]!; c < layout.sessionStart[s + 1]!; c++) {
        const k = layout.cellSetup[c]!
        for (let i = layout.cellStart[c]!; i < layout.cellStart[c + 1]!; i++) {
          rows.push({
            y: layout.anchor[k]! + layout.deviation[i]!,
            u: Math.sqrt(layout.knownRunVariance[i]!),
            setup: layout.setupIds[k]!,
            session: layout.sessionIds[s]!,
            pilot: layout.pilotIds[p]!,
          })
        }
      }
    }
  }
  return rows
}

describe('buildLayout', () => {
  it('keeps every run in its cell, session and pilot', () => {
    const key = (row: Observation) => `${row.pilot} ${row.session} ${row.setup}`
    const sorted = (rows: readonly Observation[]) =>
      [...rows].sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : a.y - b.y))
    fc.assert(
      fc.property(smallRuns, (rows) => {
        const found = sorted(rowsOf(buildLayout(rows)))
        sorted(rows).forEach((row, i) => {
          expect(key(found[i]!)).toBe(key(row))
          expect(found[i]!.y).toBeCloseTo(row.y, 12) // anchor + deviation rounds once
          expect(found[i]!.u).toBeCloseTo(row.u, 12)
        })
        expect(found).toHaveLength(rows.length)
      }),
    )
  })

  it('does not depend on the order of the rows, bit for bit', () => {
    fc.assert(
      fc.property(smallRuns, fc.nat(), (rows, seed) => {
        // Where a run stood among the rows is the one thing that has to follow their order.
        const { order: _, ...shuffled } = buildLayout(new Pcg32(seed).shuffle([...rows]))
        expect(buildLayout(rows)).toMatchObject(shuffled)
      }),
    )
  })

  it('sorts long cells as it sorts short ones', () => {
    const rows = Array.from({ length: 100 }, (_, i) => run((i * 37) % 50, 'a', 's'))
    const layout = buildLayout(rows)
    for (let i = 1; i < 100; i++) {
      expect(layout.deviation[i]!).toBeGreaterThanOrEqual(layout.deviation[i - 1]!)
    }
  })

  it('takes columns as it takes rows', () => {
    fc.assert(
      fc.property(smallRuns, (rows) => {
        expect(buildLayout(toColumns(rows))).toEqual(buildLayout(rows))
      }),
    )
  })

  it('leaves out ids without a run', () => {
    const columns = toColumns([run(1, 'a', 's')])
    const layout = buildLayout({ ...columns, setupIds: ['a', 'never flown'] })
    expect(layout.setupIds).toEqual(['a'])
  })

  it('counts the levels and finds the setups of each pilot', () => {
    const layout = buildLayout([
      run(3, 'b', 's2', 'q'),
      run(1, 'b', 's1'),
      run(2, 'a', 's1'),
      run(4, 'c', 's2', 'q'),
      run(5, 'c', 's2', 'q'),
    ])
    const { runCount, cellCount, sessionCount, pilotCount, setupCount } = layout
    expect([runCount, cellCount, sessionCount, pilotCount, setupCount]).toEqual([5, 4, 2, 2, 3])
    expect([...layout.pilotSetup]).toEqual([0, 1, 1, 2])
    expect([...layout.pilotSetupStart]).toEqual([0, 2, 4])
    expect([...layout.cellSlot]).toEqual([0, 1, 2, 3])
  })

  it('accepts no runs at all', () => {
    expect(buildLayout([]).runCount).toBe(0)
  })

  it('refuses values no measurement can have', () => {
    for (const y of [Number.NaN, Infinity, -Infinity]) {
      expect(() => buildLayout([{ ...run(1, 'a', 's'), y }])).toThrow(/y of run 0 must lie in/)
    }
    for (const u of [Number.NaN, -0.1, Infinity]) {
      expect(() => buildLayout([run(1, 'a', 's'), { ...run(1, 'a', 's'), u }])).toThrow(
        /u of run 1 must lie in/,
      )
    }
    const knownSessionVariance = new Map([['s', -1]])
    expect(() => buildLayout([run(1, 'a', 's')], { knownSessionVariance })).toThrow(
      'known variance of session s must lie in',
    )
  })

  it('refuses a session of two pilots and names all three', () => {
    const rows = [run(1, 'a', 's', 'Q'), run(2, 'a', 's', 'P')]
    expect(() => buildLayout(rows)).toThrow(InvalidLayoutError)
    expect(() => buildLayout(rows)).toThrow('session s has runs of two pilots, P and Q')
  })

  it('refuses columns that do not belong together', () => {
    const columns = toColumns([run(1, 'a', 's'), run(2, 'b', 's')])
    expect(() => buildLayout({ ...columns, u: new Float64Array(1) })).toThrow('the column u has 1')
    expect(() => buildLayout({ ...columns, setupIds: ['a'] })).toThrow('setup code 1')
    expect(() => buildLayout({ ...columns, setupIds: ['a', 'a'] })).toThrow('holds an id twice')
  })
})
