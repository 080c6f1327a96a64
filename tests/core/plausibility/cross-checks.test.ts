import { describe, expect, it } from 'vitest'

import { normaliseSubmission } from '../../../src/core/normalise/submission.ts'
import type {
  ClimbRun,
  Equipment,
  Run,
  SoundLevelRun,
  StaticPullRun,
} from '../../../src/core/normalise/types.ts'
import { findFaults } from '../../../src/core/plausibility/faults.ts'
import { SCENARIO_A } from '../normalise/scenario-a.ts'

const { entry, equipment } = SCENARIO_A
const session = {
  ...SCENARIO_A.session,
  conditions: { ...SCENARIO_A.session.conditions, airMotion: 'calm', windMps: 1 },
} as const
const climb: ClimbRun = { ...SCENARIO_A.run, rpm: 8700 }
const pull: StaticPullRun = { kind: 'staticPull', thrustN: 600, rpm: 8300, headwindMps: 0 }
const sound: SoundLevelRun = {
  kind: 'soundLevel',
  levelDbA: 85,
  backgroundDbA: 45,
  position: 'distance',
  distanceM: 10,
  directionDeg: 90,
  power: 'full',
  instrument: 'class2',
}

const faults = (runs: readonly Run[], parts: Partial<Equipment> = {}, windMps = 1) =>
  findFaults({ ...session, conditions: { ...session.conditions, windMps } }, [
    { entry, equipment: { ...equipment, ...parts }, runs },
  ])
const places = (list: readonly { pointer: string; code: string }[]) =>
  list.map(({ pointer, code }) => `${pointer.replace('/entries/0/runs/', '')} ${code}`)

describe('runs of one entry', () => {
  it('raise no doubt when they agree', () => {
    expect(faults([climb, pull, sound])).toEqual({ refusals: [], warnings: [] })
  })

  // Limits of section k: T_climb/T_static soft 0.55 to 0.95, hard 1.2, both at ISA sea level. The climb
  // has 475.7 N there, the pull about 1.135 times its reading.
  it.each([
    [330, '1/thrustN outOfRange', ''],
    [420, '', '1/thrustN unusual'],
    [500, '', ''],
    [700, '', ''],
    [820, '', '1/thrustN unusual'],
  ])('hold the climb against a pull of %d N', (thrustN, refused, doubted) => {
    const { refusals, warnings } = faults([climb, { ...pull, thrustN }])
    expect(places(refusals)).toEqual(refused === '' ? [] : [refused])
    const doubts = places(warnings).filter((place) => place.includes('thrustN'))
    expect(doubts).toEqual(doubted === '' ? [] : [doubted])
  })

  // Soft 0.95 to 1.12.
  it.each([
    [7800, '1/rpm unusual'],
    [7900, ''],
    [9290, ''],
    [9400, '1/rpm unusual'],
  ])('hold %d 1/min in the climb against 8300 on the ground', (rpm, doubted) => {
    const { warnings } = faults([{ ...climb, rpm }, pull])
    expect(places(warnings)).toEqual(doubted === '' ? [] : [doubted])
  })

  it('take the mean of several climbs and pulls', () => {
    const { warnings } = faults([
      { ...climb, rpm: 7700 },
      { ...climb, rpm: 8500 },
      pull,
      { ...pull, rpm: undefined },
    ])
    expect(warnings).toEqual([])
  })

  it('are doubted when barometer and satellite do not agree', () => {
    const gnss = { ...climb, heightSource: 'gnss', uncertainty: undefined } as const
    const doubts = (gains: readonly number[]) => {
      const runs = [climb, climb, climb, ...gains.map((heightGainM) => ({ ...gnss, heightGainM }))]
      const { warnings } = normaliseSubmission(session, [{ entry, equipment, runs }])
      return warnings.filter(({ code }) => code === 'heightSourcesDisagree')
    }
    // 100 m by barometer are 105.5 m in this warm air.
    expect(doubts([105, 106, 105])).toEqual([])
    const [doubt, ...others] = doubts([145, 146, 145])
    expect(others).toEqual([])
    expect(doubt!.pointer).toBe('/entries/0/runs/0/heightSource')
    expect(doubt!.detail).toMatch(/^By satellite the climbs show \d+ % more power/)
  })
})

describe('a propeller', () => {
  const geared = { reductionRatio: 2.8 }

  // Limits of section k: propeller 300 to 5000 1/min (soft 1200 to 3600), tips Mach 0.95 (soft 0.70),
  // CT 0.005 to 0.35 (soft 0.03 to 0.20).
  it.each([
    [8300, [], []],
    [16000, ['0/rpm outOfRange'], []],
    [11000, [], ['0/rpm unusual', '0/rpm unusual']], // 3929 1/min and Mach 0.74
    [2500, ['0/rpm outOfRange'], []],
  ])('turned by an engine at %d 1/min', (rpm, refused, doubted) => {
    const { refusals, warnings } = faults([{ ...pull, rpm }], geared)
    expect(places(refusals).slice(0, 1)).toEqual(refused)
    if (refused.length === 0) expect(places(warnings)).toEqual(doubted)
  })

  // FM soft 0.35 to 0.80, above 1 impossible: 600 N need 9.0 kW of an ideal propeller here.
  it.each([
    [15, [], []],
    [10.5, [], ['0/thrustN unusual']],
    [9, ['0/thrustN outOfRange'], []],
    [40, [], ['/entries/0/equipment/ratedPowerKw unusual', '0/thrustN unusual']],
  ])('on %d kW', (ratedPowerKw, refused, doubted) => {
    const { refusals, warnings } = faults([{ ...pull, rpm: undefined }], { ratedPowerKw })
    expect(places(refusals)).toEqual(refused)
    expect(places(warnings)).toEqual(doubted)
  })

  it('is not held against anything where the reduction is not known', () => {
    expect(faults([{ ...pull, rpm: 16000 }]).refusals).toEqual([])
  })

  it('turned by a motor may turn as slowly as a propeller does', () => {
    const electric = { drive: 'electric' as const, reductionRatio: 1 }
    expect(places(faults([{ ...pull, rpm: 2300 }], electric).warnings)).toEqual([])
    expect(places(faults([{ ...pull, rpm: 2300 }]).warnings)).toEqual(['0/rpm unusual'])
  })
})

describe('a sound level', () => {
  it.each<[what: string, change: Partial<SoundLevelRun>, refused: string, doubted: string]>([
    ['below its background', { backgroundDbA: 86 }, '0/backgroundDbA outOfRange', ''],
    ['as loud as its background', { backgroundDbA: 85 }, '0/backgroundDbA outOfRange', ''],
    ['close to its background', { backgroundDbA: 79.5 }, '', '0/backgroundDbA upperBound'],
    ['near the propeller', { distanceM: 2.4 }, '', '0/distanceM tooNear'],
    ['on the propeller', { distanceM: 0.05 }, '0/distanceM outOfRange', ''],
    ['far away', { distanceM: 150 }, '', '0/distanceM unusual'],
    ['without its distance', { distanceM: undefined }, '0/distanceM distanceMissing', ''],
    ['at the ear, with a distance', { position: 'pilotEar' }, '0/distanceM notAtTheEar', ''],
  ])('%s', (_, change, refused, doubted) => {
    const { refusals, warnings } = faults([{ ...sound, ...change }])
    expect(places(refusals)).toEqual(refused === '' ? [] : [refused])
    if (refused === '') expect(places(warnings)).toEqual([doubted])
  })

  it('at a distance in more than 3 m/s of wind hears the wind', () => {
    const places3 = places(faults([sound], {}, 4).warnings)
    expect(places3).toEqual(['/conditions/windMps windyMicrophone'])
    expect(
      places(faults([{ ...sound, position: 'pilotEar', distanceM: undefined }], {}, 4).warnings),
    ).toEqual([])
  })
})

describe('a battery', () => {
  const electric = { drive: 'electric' as const }

  // Section d.5: runs compare only within ±5 % of the pack voltage.
  it('may fall by 5 % and no further', () => {
    const fall = (batteryEndV: number) =>
      places(faults([{ ...climb, batteryStartV: 54, batteryEndV }], electric).warnings)
    expect(fall(51.4)).toEqual([])
    expect(fall(51.2)).toEqual(['0/batteryEndV batteryVoltageChanged'])
  })

  it('is nothing a piston drive has', () => {
    const { refusals } = faults([
      { ...climb, batteryStartV: 54 },
      { ...pull, batteryEndV: 52 },
    ])
    expect(places(refusals)).toEqual([
      '0/batteryStartV notForThisDrive',
      '1/batteryEndV notForThisDrive',
    ])
  })
})
