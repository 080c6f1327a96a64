import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { normaliseSubmission } from '../../../src/core/normalise/submission.ts'
import type {
  FlightSession,
  SubmittedEntry,
  TipClearanceRun,
} from '../../../src/core/normalise/types.ts'

const SESSION: FlightSession = {
  site: { elevationM: 100 },
  conditions: { temperatureC: 15, airMotion: 'calm' },
  pilot: { massKg: 82 },
  wing: { flatAreaM2: 24 },
}

function submit(run: Omit<TipClearanceRun, 'kind'>) {
  const entry: SubmittedEntry = {
    entry: { allUpMassKg: 120 },
    equipment: { drive: 'twoStroke', propellerDiameterCm: 125 },
    runs: [{ kind: 'tipClearance', ...run }],
  }
  return normaliseSubmission(SESSION, [entry])
}

const AT = '/entries/0/runs/0'

describe('a tip clearance', () => {
  it('is the one under load, with what it says of movement, and no evidence', () => {
    // By hand: moved by 28 − 12 = 16 mm; advised 10 mm + 16/2 mm.
    const { outcomes } = submit({
      staticClearanceMm: 28,
      loadedClearanceMm: 12,
      contactSeen: false,
    })
    expect(outcomes![0]![0]).toMatchObject({
      normalized: {
        metric: 'tipClearance',
        value: 12,
        unit: 'mm',
        standardUncertainty: 2,
        underLoad: true,
        contactSeen: false,
        movementMm: 16,
        advisedLoadedClearanceMm: 18,
      },
      evidence: null,
    })
  })

  it('is the one at rest where no other was measured', () => {
    const { outcomes } = submit({ staticClearanceMm: 28, contactSeen: false })
    const { normalized, warnings } = outcomes![0]![0]!
    expect(normalized).toMatchObject({ value: 28, underLoad: false })
    expect(normalized).not.toHaveProperty('movementMm')
    expect(warnings.map(({ code }) => code)).toEqual(['loadedClearanceMissing'])
  })

  it('takes a stated uncertainty, that of the clearance it gives', () => {
    const { outcomes } = submit({
      staticClearanceMm: 28,
      loadedClearanceMm: 22,
      contactSeen: false,
      loadN: 110,
      uncertainty: { loadedClearanceMm: 0.5, staticClearanceMm: 1 },
    })
    const { normalized, warnings } = outcomes![0]![0]!
    expect(normalized.standardUncertainty).toBe(0.5)
    expect(normalized.budget).toMatchObject([{ standardUncertainty: 0.5, share: 1 }])
    expect(warnings).toEqual([])
  })

  it.each<[what: string, run: Omit<TipClearanceRun, 'kind'>, pointer: string, code: string]>([
    [
      'a touch',
      { staticClearanceMm: 40, loadedClearanceMm: 30, loadN: 110, contactSeen: true },
      'contactSeen',
      'doNotFly',
    ],
    [
      'nothing left under load',
      { staticClearanceMm: 40, loadedClearanceMm: 0, loadN: 110, contactSeen: false },
      'loadedClearanceMm',
      'doNotFly',
    ],
    [
      'too little left under load',
      { staticClearanceMm: 28, loadedClearanceMm: 12, loadN: 110, contactSeen: false },
      'loadedClearanceMm',
      'clearanceTooSmall',
    ],
    [
      'a tip that moved away',
      { staticClearanceMm: 28, loadedClearanceMm: 31, loadN: 110, contactSeen: false },
      'loadedClearanceMm',
      'movedAway',
    ],
    [
      'a load that is not told',
      { staticClearanceMm: 40, loadedClearanceMm: 30, contactSeen: false },
      'loadN',
      'loadAssumed',
    ],
    [
      'a very wide gap',
      { staticClearanceMm: 160, loadedClearanceMm: 140, loadN: 110, contactSeen: false },
      'staticClearanceMm',
      'unusual',
    ],
  ])('warns of %s', (_, run, field, code) => {
    const { outcomes, refusals } = submit(run)
    expect(refusals).toEqual([])
    const found = outcomes![0]![0]!.warnings.map(({ pointer, code: of }) => [pointer, of])
    expect(found).toEqual([[`${AT}/${field}`, code]])
  })

  it.each<[what: string, run: Omit<TipClearanceRun, 'kind'>, pointer: string]>([
    ['a negative gap', { staticClearanceMm: -1, contactSeen: false }, 'staticClearanceMm'],
    ['half a metre and more', { staticClearanceMm: 501, contactSeen: false }, 'staticClearanceMm'],
    [
      'a gap that is no number',
      { staticClearanceMm: Number.NaN, contactSeen: true },
      'staticClearanceMm',
    ],
    [
      'a negative gap under load',
      { staticClearanceMm: 30, loadedClearanceMm: -2, contactSeen: false },
      'loadedClearanceMm',
    ],
    ['a load without its gap', { staticClearanceMm: 30, loadN: 100, contactSeen: false }, 'loadN'],
    [
      'a load of tons',
      { staticClearanceMm: 30, loadedClearanceMm: 20, loadN: 9000, contactSeen: false },
      'loadN',
    ],
    [
      'an uncertainty wider than the gap',
      { staticClearanceMm: 30, contactSeen: false, uncertainty: { staticClearanceMm: 40 } },
      'uncertainty/staticClearanceMm',
    ],
  ])('is refused for %s', (_, run, field) => {
    const { outcomes, refusals } = submit(run)
    expect(outcomes).toBeNull()
    expect(refusals.map(({ pointer }) => pointer)).toEqual([`${AT}/${field}`])
  })

  it('never throws, whatever the numbers', () => {
    const any = fc.oneof(fc.double(), fc.constant(undefined))
    fc.assert(
      fc.property(fc.double(), any, any, fc.boolean(), (rest, load, pull, contactSeen) => {
        const { outcomes, refusals } = submit({
          staticClearanceMm: rest,
          loadedClearanceMm: load,
          loadN: pull,
          contactSeen,
        })
        expect((outcomes === null) === refusals.length > 0).toBe(true)
      }),
    )
  })
})
