import { describe, expect, it } from 'vitest'

import { reportOn } from '../../../src/core/comparison/fit-report.ts'
import { gatherEvidence } from '../../../src/core/mixed/evidence.ts'
import { fitNested } from '../../../src/core/mixed/fit.ts'
import { buildLayout, type Observation } from '../../../src/core/mixed/layout.ts'
import { Pcg32 } from '../../../src/core/random/pcg32.ts'
import { notesOn } from '../../../src/features/fits/notes.ts'

const notesFor = (rows: readonly Observation[]) => {
  const layout = buildLayout(rows)
  const fit = fitNested(layout)
  const { sharedSessions } = gatherEvidence(layout)
  return notesOn(fit, reportOn({ layout, fit, sharedSessions }))
}

/** Twelve sessions of three pilots with a and b; `y` makes each result. */
function sessions(y: (setup: string, session: number, run: number) => number, runs = 2, u = 0.02) {
  return Array.from({ length: 12 }, (_, s) =>
    ['a', 'b'].flatMap((setup) =>
      Array.from({ length: runs }, (_, i) => ({
        ...{ setup, session: `s${s}`, pilot: `p${s % 3}`, u },
        y: y(setup, s, i),
      })),
    ),
  ).flat()
}

describe('notesOn', () => {
  it('says where repeats are missing and with what their scatter is counted', () => {
    const random = new Pcg32(1)
    const notes = notesFor(sessions(() => 0.05 * random.normal(), 1))
    expect(notes.join(' ')).toMatch('every setup was flown once per session')
    expect(notes.join(' ')).toMatch(/is counted with the scatter from run to run/)
  })

  it('calls a variance at zero not detected, never absent', () => {
    const random = new Pcg32(2)
    const notes = notesFor(sessions(() => 0.02 * random.normal(), 3))
    expect(notes.some((note) => /not detected\. That is not the same as none/.test(note))).toBe(
      true,
    )
  })

  it('notices cells whose runs are all one number', () => {
    const random = new Pcg32(3)
    const level = Array.from({ length: 12 }, () => 0.05 * random.normal())
    const notes = notesFor(sessions((setup, s) => level[s]! + (setup === 'a' ? 0.1 : 0)))
    expect(notes.join(' ')).toMatch('24 setups within a session with all runs the same number')
  })

  it('notices uncertainty declared larger than the scatter of repeats', () => {
    const random = new Pcg32(4)
    const notes = notesFor(sessions(() => 0.005 * random.normal(), 3, 0.05))
    expect(notes.join(' ')).toMatch('scatter less than their declared uncertainty')
  })

  it('says that one session cannot tell a setup from its day', () => {
    const rows = [1, 1.1, 0.9].map((y) => ({ setup: 'a', session: 's', pilot: 'p', y, u: 0 }))
    const notes = notesFor(rows)
    expect(notes.join(' ')).toMatch('Differences between pilots: not estimated')
  })

  it('says of data all of one pilot what cannot be told apart, and still tells days apart', () => {
    const random = new Pcg32(5)
    const day = Array.from({ length: 12 }, () => 0.08 * random.normal())
    const rows = sessions((_, s) => day[s]! + 0.03 * random.normal(), 3)
    const notes = notesFor(rows.map((row) => ({ ...row, pilot: 'p' })))
    expect(notes).toContain(
      'Differences between pilots: not estimated, since all runs are of one pilot, so what the setups do cannot be told from what this pilot does; it is taken as nothing, so intervals may be too narrow where it exists.',
    )
    expect(notes.join(' ')).not.toMatch('Differences between days')
  })

  it('says of one session that neither its pilot nor its day can be told from the setups', () => {
    const random = new Pcg32(6)
    const rows = sessions(() => 0.05 * random.normal(), 3)
    const notes = notesFor(rows.filter(({ session }) => session === 's0')).join(' ')
    expect(notes).toMatch(
      /Differences between pilots: not estimated, since all runs are of one pilot/,
    )
    expect(notes).toMatch(/Differences between days of one pilot: .* all runs are of one session/)
    expect(notes).toMatch(/What one setup does on one day .* no two sessions repeat/)
  })
})
