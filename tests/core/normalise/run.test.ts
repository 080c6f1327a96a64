import { describe, expect, it } from 'vitest'

import { OutOfRangeError } from '../../../src/core/errors.ts'
import { normaliseRun } from '../../../src/core/normalise/run.ts'
import type { ClimbRun, FuelBurnRun, RunInput } from '../../../src/core/normalise/types.ts'
import { SCENARIO_A } from './scenario-a.ts'

const burn: FuelBurnRun = {
  kind: 'fuelBurn',
  volumeMl: 250,
  durationS: 300,
  heightAboveSiteM: 100,
  heightChangeM: 0,
  fuelTemperatureC: 15,
}

function codes(input: RunInput): string[] {
  return normaliseRun(input).warnings.map(({ pointer, code }) => `${pointer} ${code}`)
}

function withWing(wing: RunInput['session']['wing']): RunInput {
  return { ...SCENARIO_A, session: { ...SCENARIO_A.session, wing } }
}

function withRun(change: Partial<ClimbRun>): RunInput {
  return { ...SCENARIO_A, run: { ...SCENARIO_A.run, ...change } }
}

describe('gaps', () => {
  it('gives no warning where nothing had to be assumed', () => {
    expect(codes(SCENARIO_A)).toEqual([])
  })

  it('assumes glide and trim speed with a warning and a wider uncertainty', () => {
    const bare = withWing({ flatAreaM2: 26 })
    expect(codes(bare)).toEqual([
      '/wing/glideRatio glideAssumed',
      '/wing/trimSpeedMps trimSpeedAssumed',
    ])
    const { standardUncertainty } = normaliseRun(bare).normalized
    expect(standardUncertainty).toBeGreaterThan(
      normaliseRun(SCENARIO_A).normalized.standardUncertainty,
    )
  })

  it('assumes the trim speed at 5.0 kg/m², the loading of the reference wing', () => {
    const { uncertainty: _, ...wing } = SCENARIO_A.session.wing
    const { trimSpeedMps: __, trimAtAllUpMassKg: ___, ...silent } = wing
    const said = withWing({ ...wing, trimSpeedMps: 10.5, trimAtAllUpMassKg: 130 })
    expect(normaliseRun(withWing(silent)).normalized.value).toBeCloseTo(
      normaliseRun(said).normalized.value,
      12,
    )
  })

  it('reduces the glide ratio of a catalogue by 15 %', () => {
    const { uncertainty: _, ...wing } = SCENARIO_A.session.wing
    const catalogue = withWing({ ...wing, glideRatio: 8, glideSource: 'catalogue' })
    expect(codes(catalogue)).toEqual(['/wing/glideRatio glideCatalogue'])
    const measured = withWing({ ...wing, glideRatio: 6.8 })
    expect(normaliseRun(catalogue).normalized.value).toBeCloseTo(
      normaliseRun(measured).normalized.value,
      12,
    )
  })

  it('takes a trim speed without its mass at the mass as flown', () => {
    const { trimAtAllUpMassKg: _, ...wing } = SCENARIO_A.session.wing
    expect(codes(withWing(wing))).toEqual(['/wing/trimAtAllUpMassKg trimMassAssumed'])
    const said = withWing({ ...wing, trimAtAllUpMassKg: 135 })
    expect(normaliseRun(withWing(wing)).normalized.value).toBe(normaliseRun(said).normalized.value)
  })

  it('treats a glide ratio of unknown origin as estimated', () => {
    const { glideSource: _, ...wing } = SCENARIO_A.session.wing
    expect(codes(withWing(wing))).toEqual(['/wing/glideSource glideSourceAssumed'])
  })

  it('assumes pressure and humidity with a warning', () => {
    const { conditions } = SCENARIO_A.session
    const bare = {
      ...SCENARIO_A,
      session: {
        ...SCENARIO_A.session,
        conditions: { temperatureC: conditions.temperatureC, airMotion: conditions.airMotion },
      },
    }
    expect(codes(bare)).toEqual([
      '/conditions/qnhHPa pressureAssumed',
      '/conditions/relativeHumidityPct humidityAssumed',
    ])
  })

  it('takes a mass not said to be weighed as estimated', () => {
    const { massSource: _, ...entry } = SCENARIO_A.entry
    const massLine = (input: RunInput) =>
      normaliseRun(input).normalized.budget.find((line) => line.source === 'all-up mass')!
    const ratio =
      massLine({ ...SCENARIO_A, entry }).standardUncertainty /
      massLine(SCENARIO_A).standardUncertainty
    expect(ratio).toBeCloseTo(2.5, 2)
  })
})

describe('height sources', () => {
  it('correct a barometric gain, half correct an unknown one, and leave the rest', () => {
    const rate = (heightSource: ClimbRun['heightSource']) =>
      normaliseRun(withRun({ heightSource })).normalized.inducedPowerW!
    expect(rate('gnss')).toBe(rate('barometricTemperatureCompensated'))
    expect(rate('barometric')).toBeGreaterThan(rate('unknown'))
    expect(rate('unknown')).toBeGreaterThan(rate('gnss'))
  })

  it('warn of an unknown source, at the run it stands in', () => {
    const input = { ...withRun({ heightSource: 'unknown' }), at: { entryIndex: 2, runIndex: 1 } }
    expect(codes(input)).toEqual(['/entries/2/runs/1/heightSource heightSourceUnknown'])
    const sources = normaliseRun(input).normalized.budget.map((line) => line.source)
    expect(sources).toContain('kind of height reading')
  })
})

describe('stated uncertainties', () => {
  it('take the place of the defaults', () => {
    const line = (u: number) =>
      normaliseRun(withRun({ uncertainty: { heightGainM: u } })).normalized.budget.find(
        ({ source }) => source === 'height gain',
      )!.standardUncertainty
    expect(line(2) / line(1)).toBeCloseTo(2, 3)
  })
})

describe('drives', () => {
  const electric: RunInput = {
    ...SCENARIO_A,
    equipment: { ...SCENARIO_A.equipment, drive: 'electric' },
  }

  it('take an electric drive for halfway between its limits, with a wider uncertainty and a warning', () => {
    const piston = normaliseRun(SCENARIO_A).normalized
    const result = normaliseRun(electric).normalized
    // φ of the piston engine is 0.8932719, that of the electric drive √(1.090085/1.225).
    const ratio = 0.8932719 / Math.sqrt(1.090085 / 1.225)
    expect(result.inducedPowerW! / piston.inducedPowerW!).toBeCloseTo(ratio, 5)
    const share = (budget: typeof piston.budget) =>
      budget.find(({ source }) => source === 'full-throttle power in this air')!.share
    expect(share(result.budget)).toBeGreaterThan(share(piston.budget))
    expect(codes(electric)).toEqual(['/entries/0/runs/0 electricPowerAssumed'])
  })

  it('burn no fuel when electric', () => {
    expect(() => normaliseRun({ ...electric, run: burn })).toThrow(OutOfRangeError)
  })
})

describe('a fuel burn', () => {
  // Worked budget 3 of the specification: 250 mL in 300 s in calm air has 4.2 % without glide ratio,
  // mass and speed. Its lines: volume 1 %, time 0.7 %, fuel temperature 0.6 %, height 0.7 %, speed
  // holding 2 %, air 3.3 %. Computed by the team, not evidence; tolerance: its digits.
  it('has the lines of worked budget 3', () => {
    const still: RunInput = {
      ...SCENARIO_A,
      session: {
        ...SCENARIO_A.session,
        conditions: { ...SCENARIO_A.session.conditions, airMotion: 'calm' },
        wing: {
          flatAreaM2: 24,
          glideRatio: 7,
          glideSource: 'measured',
          trimSpeedMps: 10.5,
          trimAtAllUpMassKg: 120,
        },
      },
      run: burn,
    }
    const { normalized } = normaliseRun(still)
    const percent = (source: string) =>
      (100 * (normalized.budget.find((line) => line.source === source)?.standardUncertainty ?? 0)) /
      normalized.value
    expect(percent('fuel volume')).toBeCloseTo(1, 1)
    expect(percent('burn time and instant of starvation')).toBeCloseTo(0.7, 1)
    expect(percent('fuel temperature')).toBeCloseTo(0.6, 1)
    expect(percent('height not held')).toBeCloseTo(0.6, 1)
    expect(percent('speed and bank held by hand')).toBeCloseTo(2, 2)
    // G/V·0.05 at the airspeed of this air and mass, 11.7 m/s instead of 10.5 m/s.
    expect(percent('vertical air motion of the session')).toBeCloseTo(3, 0)
    expect(normalized.budget.map((line) => line.source)).not.toContain(
      'vertical air motion in this run',
    )
  })

  it('uses less at the reference when it was flown heavier', () => {
    const { value } = normaliseRun({ ...SCENARIO_A, run: burn }).normalized
    // 250 mL in 300 s are 3.0 L/h at 135 kg with a wing not unlike the reference wing.
    expect(value).toBeLessThan(3)
    expect(value).toBeGreaterThan(2.2)
  })

  it('refuses a descent as steep as the glide, which needs no engine', () => {
    expect(() => normaliseRun({ ...SCENARIO_A, run: { ...burn, heightChangeM: -600 } })).toThrow(
      OutOfRangeError,
    )
  })
})
