import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { normaliseSubmission } from '../../../src/core/normalise/submission.ts'
import type { RunOutcome } from '../../../src/core/normalise/types.ts'
import { everyday, hardEntry, hardFlight, hardSession } from './arbitraries.ts'

/** Every number of an outcome, however deep. */
function numbersOf(value: unknown): number[] {
  if (typeof value === 'number') return [value]
  if (value === null || typeof value !== 'object') return []
  return Object.values(value).flatMap(numbersOf)
}

function expectSound(outcome: RunOutcome): void {
  const { normalized, evidence } = outcome
  expect(numbersOf(outcome).every(Number.isFinite)).toBe(true)
  expect(normalized.standardUncertainty).toBeGreaterThan(0)
  if (evidence === null) return
  expect(evidence.ownStandardUncertainty).toBeGreaterThan(0)
  expect(evidence.sharedStandardUncertainty).toBeGreaterThanOrEqual(0)
}

describe('normaliseSubmission', () => {
  it('never throws and never gives NaN for anything the hard limits let pass', () => {
    let normalised = 0
    fc.assert(
      fc.property(hardFlight, ({ session, entry }) => {
        const { outcomes, refusals } = normaliseSubmission(session, [entry])
        expect(outcomes === null).toBe(refusals.length > 0)
        outcomes?.flat().forEach(expectSound)
        normalised += outcomes?.flat().length ?? 0
      }),
      { numRuns: 3000 },
    )
    // Enough of them are taken for the property to say something.
    expect(normalised).toBeGreaterThan(1000)
  })

  it('never throws for fields within their limits that do not go together', () => {
    fc.assert(
      fc.property(hardSession, fc.array(hardEntry, { maxLength: 3 }), (session, entries) => {
        const { outcomes, refusals } = normaliseSubmission(session, entries)
        expect(outcomes === null).toBe(refusals.length > 0)
      }),
      { numRuns: 1000 },
    )
  })

  it('gives sound results in everyday flying, with the widest uncertainties that may be stated', () => {
    let normalised = 0
    fc.assert(
      fc.property(everyday, ({ session, entry, equipment, climb, burn }) => {
        const wide = (fields: object, names: readonly string[]) =>
          Object.fromEntries(
            names.map((name) => [name, Math.abs((fields as Record<string, number>)[name]!) / 2]),
          )
        const stated = {
          ...session,
          conditions: {
            ...session.conditions,
            uncertainty: { temperatureC: 15, qnhHPa: 50, relativeHumidityPct: 50 },
          },
          wing: {
            ...session.wing,
            uncertainty: wide(session.wing, [
              'glideRatio',
              'trimSpeedMps',
              'trimAtAllUpMassKg',
              'flatAreaM2',
            ]),
          },
        }
        const runs = [
          { ...climb, uncertainty: wide(climb, ['heightGainM', 'durationS']) },
          {
            ...burn,
            uncertainty: { ...wide(burn, ['volumeMl', 'durationS']), heightChangeM: 100 },
          },
        ]
        const massive = { ...entry, uncertainty: wide(entry, ['allUpMassKg']) }
        const { outcomes } = normaliseSubmission(stated, [{ entry: massive, equipment, runs }])
        outcomes?.flat().forEach(expectSound)
        if (outcomes !== null) normalised++
      }),
      { numRuns: 500 },
    )
    expect(normalised).toBeGreaterThan(400)
  })

  it('never throws for any numbers at all', () => {
    const anything = fc.double()
    fc.assert(
      fc.property(
        fc.array(anything, { minLength: 16, maxLength: 16 }),
        fc.dictionary(fc.string(), anything),
        (n, uncertainty) => {
          const result = normaliseSubmission(
            {
              site: { elevationM: n[0]!, uncertainty },
              conditions: {
                temperatureC: n[1]!,
                qnhHPa: n[2],
                relativeHumidityPct: n[3],
                windMps: n[4],
                airMotion: 'light',
              },
              pilot: { massKg: n[5]! },
              wing: {
                flatAreaM2: n[6]!,
                glideRatio: n[7],
                trimSpeedMps: n[8],
                trimAtAllUpMassKg: n[9],
              },
            },
            [
              {
                entry: { allUpMassKg: n[10]! },
                equipment: { drive: 'twoStroke', propellerDiameterCm: n[11]! },
                runs: [
                  {
                    kind: 'climb',
                    heightGainM: n[12]!,
                    durationS: n[13]!,
                    heightSource: 'unknown',
                    startHeightAboveSiteM: n[14]!,
                    rpm: n[15],
                    uncertainty,
                  },
                ],
              },
            ],
          )
          expect(result.outcomes === null).toBe(result.refusals.length > 0)
          const pointers = [...result.refusals, ...result.warnings].map(({ pointer }) => pointer)
          expect(pointers.every((pointer) => pointer.startsWith('/'))).toBe(true)
        },
      ),
      { numRuns: 1000 },
    )
  })
})
