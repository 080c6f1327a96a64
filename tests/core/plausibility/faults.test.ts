import { describe, expect, it } from 'vitest'

import type {
  ClimbRun,
  FlightSession,
  FuelBurnRun,
  SubmittedEntry,
} from '../../../src/core/normalise/types.ts'
import { findFaults } from '../../../src/core/plausibility/faults.ts'
import { pointerToken } from '../../../src/core/plausibility/findings.ts'

const session: FlightSession = {
  site: { elevationM: 212 },
  conditions: {
    temperatureC: 14.5,
    qnhHPa: 1018,
    relativeHumidityPct: 62,
    windMps: 1.5,
    airMotion: 'calm',
  },
  pilot: { massKg: 82 },
  wing: {
    flatAreaM2: 24,
    glideRatio: 7.2,
    glideSource: 'measured',
    trimSpeedMps: 10.5,
    trimAtAllUpMassKg: 120,
  },
}
const climb: ClimbRun = {
  kind: 'climb',
  heightGainM: 100,
  durationS: 40,
  heightSource: 'barometric',
  startHeightAboveSiteM: 150,
}
const burn: FuelBurnRun = {
  kind: 'fuelBurn',
  volumeMl: 500,
  durationS: 552,
  heightAboveSiteM: 200,
  heightChangeM: 0,
  fuelTemperatureC: 15,
}
const entry: SubmittedEntry = {
  entry: { allUpMassKg: 121 },
  equipment: { drive: 'twoStroke', propellerDiameterCm: 125 },
  runs: [climb, burn],
}

const climbing = (change: Partial<ClimbRun>) =>
  findFaults(session, [{ ...entry, runs: [{ ...climb, ...change }] }])
const burning = (change: Partial<FuelBurnRun>) =>
  findFaults(session, [{ ...entry, runs: [{ ...burn, ...change }] }])
const during = (change: Partial<FlightSession['conditions']>) =>
  findFaults({ ...session, conditions: { ...session.conditions, ...change } }, [entry])

const places = (list: readonly { pointer: string; code: string }[]) =>
  list.map(({ pointer, code }) => `${pointer} ${code}`)

describe('findFaults', () => {
  it('finds nothing in an everyday submission', () => {
    expect(findFaults(session, [entry])).toEqual({ refusals: [], warnings: [] })
  })

  it('points at each faulty field, all at once', () => {
    const { refusals } = findFaults(
      { ...session, site: { elevationM: 9000 }, pilot: { massKg: Number.NaN } },
      [entry, { ...entry, runs: [climb, { ...burn, durationS: -1 }] }],
    )
    expect(places(refusals)).toEqual([
      '/site/elevationM outOfRange',
      '/pilot/massKg outOfRange',
      '/entries/0/allUpMassKg outOfRange',
      '/entries/1/allUpMassKg outOfRange',
      '/entries/1/runs/1/durationS outOfRange',
    ])
  })

  it('warns of what is unusual and takes it', () => {
    const { refusals, warnings } = climbing({ heightGainM: 30, durationS: 15 })
    expect(refusals).toEqual([])
    expect(places(warnings)).toEqual([
      '/entries/0/runs/0/heightGainM unusual',
      '/entries/0/runs/0/durationS unusual',
    ])
  })

  it('checks mass beside the pilot, wing loading and propeller', () => {
    const at = (change: Partial<SubmittedEntry>) =>
      places(findFaults(session, [{ ...entry, ...change }]).refusals)
    expect(at({ entry: { allUpMassKg: 85 } })).toEqual(['/entries/0/allUpMassKg outOfRange'])
    expect(at({ entry: { allUpMassKg: 400 } })).toEqual([
      '/entries/0/allUpMassKg outOfRange',
      '/entries/0/allUpMassKg outOfRange',
    ])
    expect(at({ equipment: { drive: 'twoStroke', propellerDiameterCm: 1.25 } })).toEqual([
      '/entries/0/equipment/propellerDiameterCm outOfRange',
    ])
  })

  it('refuses fuel burned by an electric drive', () => {
    const equipment = { drive: 'electric', propellerDiameterCm: 125 } as const
    const { refusals } = findFaults(session, [{ ...entry, equipment }])
    expect(places(refusals)).toEqual(['/entries/0/runs/1/kind notForThisDrive'])
  })
})

describe('what follows from the fields', () => {
  it('refuses a climb too steep for its airspeed and names feet', () => {
    const { refusals } = climbing({ heightGainM: 328 })
    expect(places(refusals)).toEqual(['/entries/0/runs/0/heightGainM impossible'])
    expect(refusals[0]!.detail).toContain('heightGainM looks like feet')
  })

  it('refuses a climb rate above 6 m/s that is no steeper than possible', () => {
    const fast = { ...session, wing: { ...session.wing, trimSpeedMps: 17 } }
    const { refusals } = findFaults(fast, [{ ...entry, runs: [{ ...climb, durationS: 15 }] }])
    expect(places(refusals)).toContain('/entries/0/runs/0/heightGainM outOfRange')
  })

  it('warns of a weak climb and of one that would be none at the reference mass', () => {
    const light = { ...session, pilot: { massKg: 55 } }
    const weak = { ...climb, durationS: 250 }
    const { refusals, warnings } = findFaults(light, [
      { ...entry, entry: { allUpMassKg: 86 }, runs: [weak] },
    ])
    expect(refusals).toEqual([])
    expect(warnings.map(({ code }) => code)).toContain('noClimbAtReference')
  })

  it('refuses a fuel flow no engine has', () => {
    expect(places(burning({ volumeMl: 5000, durationS: 400 }).refusals)).toContain(
      '/entries/0/runs/0/volumeMl outOfRange',
    )
    expect(places(burning({ volumeMl: 50, durationS: 3600 }).refusals)).toContain(
      '/entries/0/runs/0/volumeMl outOfRange',
    )
  })

  it('refuses a burn that was half a glide', () => {
    const { refusals } = burning({ durationS: 300, heightChangeM: -400 })
    expect(refusals.length).toBeGreaterThan(0)
    expect(refusals.every(({ pointer }) => pointer.startsWith('/entries/0/runs/0'))).toBe(true)
  })

  it('takes a two-seater and warns of the size of the correction', () => {
    const pair = {
      ...session,
      pilot: { massKg: 90 },
      wing: {
        flatAreaM2: 40,
        glideRatio: 6.5,
        glideSource: 'measured',
        trimSpeedMps: 11,
        trimAtAllUpMassKg: 210,
      },
    } as const
    const runs = [{ ...burn, volumeMl: 1000 }]
    const { refusals, warnings } = findFaults(pair, [
      { ...entry, entry: { allUpMassKg: 210 }, runs },
    ])
    expect(refusals).toEqual([])
    expect(places(warnings)).toContain('/entries/0/runs/0 unusual')
  })
})

describe('pressures', () => {
  it('recognises a pressure at the field given as QNH', () => {
    const high = { ...session, site: { elevationM: 800 } }
    const { warnings } = findFaults(
      { ...high, conditions: { ...session.conditions, qnhHPa: 921 } },
      [entry],
    )
    expect(places(warnings)).toContain('/conditions/qnhHPa looksLikeStationPressure')
  })

  it('recognises a QNH given as pressure at the field', () => {
    const high = { ...session, site: { elevationM: 1500 } }
    const { qnhHPa: _, ...conditions } = session.conditions
    const { refusals } = findFaults(
      { ...high, conditions: { ...conditions, stationPressureHPa: 1013 } },
      [entry],
    )
    expect(places(refusals)).toEqual(['/conditions/stationPressureHPa outOfRange'])
    expect(refusals[0]!.detail).toContain('looks like a QNH')
  })

  it('recognises inches of mercury and Fahrenheit', () => {
    const { refusals } = during({ qnhHPa: 30.06, temperatureC: 58 })
    expect(refusals.map(({ detail }) => detail.split('. ')[1])).toEqual([
      'It looks like degrees Fahrenheit: that would be 14.44 °C.',
      'It looks like inches of mercury: that would be 1018 hPa.',
    ])
  })
})

describe('stated uncertainties', () => {
  const state = (uncertainty: Record<string, number>) => climbing({ uncertainty })

  it.each([
    ['zero', { durationS: 0 }],
    ['negative', { durationS: -1 }],
    ['NaN', { durationS: Number.NaN }],
    ['infinite', { durationS: Number.POSITIVE_INFINITY }],
    ['more than half of the value', { durationS: 21 }],
  ])('are refused when %s', (_, uncertainty) => {
    expect(places(state(uncertainty).refusals)).toEqual([
      '/entries/0/runs/0/uncertainty/durationS outOfRange',
    ])
  })

  it('are refused where nothing of that name was measured', () => {
    expect(places(state({ 'a/b~c': 1 }).refusals)).toEqual([
      '/entries/0/runs/0/uncertainty/a~1b~0c nothingToState',
    ])
    expect(places(state({ rpm: 10 }).refusals)).toEqual([
      '/entries/0/runs/0/uncertainty/rpm nothingToState',
    ])
    expect(places(state({ toString: 1 }).refusals)).toEqual([
      '/entries/0/runs/0/uncertainty/toString nothingToState',
    ])
  })

  it('are taken with a warning when hardly any instrument is that good', () => {
    expect(places(state({ durationS: 0.001 }).warnings)).toEqual([
      '/entries/0/runs/0/uncertainty/durationS unusual',
    ])
  })

  it('are taken when sensible', () => {
    expect(state({ durationS: 0.3, heightGainM: 2 })).toEqual({ refusals: [], warnings: [] })
  })
})

// RFC 6901, section 5: the examples of the document.
it('escapes the tokens of a pointer', () => {
  expect(pointerToken('a/b')).toBe('a~1b')
  expect(pointerToken('m~n')).toBe('m~0n')
  expect(pointerToken(' ')).toBe(' ')
})
