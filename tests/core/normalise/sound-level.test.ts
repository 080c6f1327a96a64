import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { normaliseRun } from '../../../src/core/normalise/run.ts'
import type { SoundLevelRun } from '../../../src/core/normalise/types.ts'
import { SCENARIO_A } from './scenario-a.ts'

const EAR: SoundLevelRun = {
  kind: 'soundLevel',
  levelDbA: 98,
  backgroundDbA: 70,
  position: 'pilotEar',
  power: 'full',
  instrument: 'class2',
}
const FIELD: SoundLevelRun = { ...EAR, position: 'distance', distanceM: 10, levelDbA: 85 }

const heard = (change: Partial<SoundLevelRun>, run = EAR) =>
  normaliseRun({ ...SCENARIO_A, run: { ...run, ...change } })

describe('a sound level', () => {
  it('at the ear is the level less the background, whatever the air', () => {
    expect(heard({}).normalized.value).toBe(98)
    // K1 of 8 dB, 0.749 dB: regression value of the formula.
    expect(heard({ backgroundDbA: 90 }).normalized.value).toBeCloseTo(98 - 0.749, 3)
    const cold = {
      ...SCENARIO_A.session,
      conditions: { ...SCENARIO_A.session.conditions, temperatureC: -10 },
    }
    expect(normaliseRun({ ...SCENARIO_A, session: cold, run: EAR }).normalized.value).toBe(98)
  })

  it('is evidence of where it was heard, never of the other place', () => {
    expect(heard({}).evidence!.quantity).toBe('soundAtEar')
    expect(heard({}, FIELD).evidence!.quantity).toBe('soundAtDistance')
    expect(heard({ power: 'level' }).evidence).toBeNull()
    expect(heard({ distanceM: 2.4 }, FIELD).evidence).toBeNull()
  })

  it('has its value in decibels and its evidence in nepers of pressure', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 60, max: 120, noNaN: true }),
        fc.double({ min: 2.5, max: 200, noNaN: true }),
        (levelDbA, distanceM) => {
          const { normalized, evidence } = heard({ levelDbA, distanceM, backgroundDbA: 30 }, FIELD)
          expect(evidence!.logValue).toBeCloseTo((normalized.value * Math.LN10) / 20, 12)
          expect(normalized.value).toBeCloseTo(levelDbA + 20 * Math.log10(distanceM / 20), 9)
          const effects = evidence!.systematic.map(({ effect }) => effect)
          const whole = Math.hypot(
            evidence!.ownStandardUncertainty,
            evidence!.sharedStandardUncertainty,
            ...effects,
          )
          const inNepers = (normalized.standardUncertainty * Math.LN10) / 20
          expect(Math.abs(whole / inNepers - 1)).toBeLessThan(1e-9)
        },
      ),
    )
  })

  it('trusts a phone less than a meter, and lets neither error average out over flights', () => {
    const phone = heard({ instrument: undefined })
    const meter = heard({})
    // Defaults of section j: 3 dB or 1 dB, with 1 dB for the site.
    expect(phone.normalized.standardUncertainty).toBeCloseTo(Math.hypot(3, 1), 9)
    expect(meter.normalized.standardUncertainty).toBeCloseTo(Math.hypot(1, 1), 9)
    const [effect] = phone.evidence!.systematic
    expect(effect).toMatchObject({ cause: 'sound level meter', reach: 'pilot' })
    expect(effect!.effect).toBeCloseTo((3 * Math.LN10) / 20, 9)
  })

  it('rests on the distance by 8.69 dB of its relative error', () => {
    const { budget } = heard({ uncertainty: { distanceM: 0.1 } }, FIELD).normalized
    const line = budget.find(({ source }) => source === 'distance of the microphone')!
    expect(line.standardUncertainty).toBeCloseTo((8.686 * 0.1) / 10, 3)
  })

  it('answers at the very edge of the distance rule', () => {
    const { normalized, evidence } = heard({ distanceM: 2.5 }, FIELD)
    expect(Number.isFinite(normalized.standardUncertainty)).toBe(true)
    expect(evidence!.ownStandardUncertainty).toBeGreaterThan(0)
  })

  it('is an upper bound near the background: the nearer, the wider', () => {
    const u = (backgroundDbA: number) => heard({ backgroundDbA }).normalized.standardUncertainty
    expect(u(93)).toBeGreaterThan(u(91))
    expect(u(97)).toBeGreaterThan(u(93))
    // Without the stop at 6 dB the correction of 1 dB is 6.87 dB: all of it is uncertain.
    const line = heard({ backgroundDbA: 97 }).normalized.budget[0]!
    expect(line.source).toBe('background closer than 6 dB')
    expect(line.standardUncertainty).toBeCloseTo(6.868, 3)
  })
})
