import { describe, expect, it } from 'vitest'

import type { Schemas } from '../../src/web/api/client.ts'
import { changesBetween, written } from '../../src/web/pages/mine/changes.ts'
import { bodyOf } from '../../src/web/pages/submit/body.ts'
import { formOf } from '../../src/web/pages/submit/form-of.ts'
import { givenIn, lostBy } from '../../src/web/pages/submit/given.ts'
import { type Dimension, UNITS } from '../../src/web/units.ts'
import { SETUP } from './a-form.ts'

type Full = Schemas['FullSubmission']

const GIVEN = {
  flownOn: '2026-05-10',
  site: { name: 'Larkfield', elevationM: 212, uncertainty: { elevationM: 3 } },
  conditions: {
    temperatureC: 14.5,
    stationPressureHPa: 991,
    relativeHumidityPct: 60,
    airMotion: 'light',
    uncertainty: { temperatureC: 0.5, stationPressureHPa: 1 },
  },
  pilot: { massKg: 82, uncertainty: { massKg: 0.5 } },
  wing: {
    flatAreaM2: 25,
    glideRatio: 7.2,
    glideSource: 'measured',
    uncertainty: { glideRatio: 1 },
  },
  interest: 'none',
  entries: [
    {
      setupId: SETUP.id,
      allUpMassKg: 121,
      massSource: 'weighed',
      uncertainty: { allUpMassKg: 1 },
      runs: [
        {
          kind: 'levelSpeed',
          legs: [0, 90, 180, 270].map((trackDeg) => ({
            trackDeg,
            groundSpeedMps: 10,
            uncertainty: { trackDeg: 3 },
          })),
          atTrim: false,
        },
        {
          kind: 'soundLevel',
          levelDbA: 70,
          position: 'distance',
          distanceM: 50,
          directionDeg: 90,
          surface: 'grass',
          power: 'full',
          instrument: 'class2',
          uncertainty: { levelDbA: 1, distanceM: 2 },
        },
      ],
    },
  ],
}

/** As the service answers it: with more than was given. */
function stored(given: object): Full {
  const full = structuredClone({ ...GIVEN, ...given }) as unknown as Full
  for (const run of full.entries.flatMap(({ runs }) => runs)) {
    Object.assign(run, { normalized: { value: 1 }, warnings: [] })
  }
  return { ...full, id: 'a', revision: 1, warnings: [], cautions: [] } as Full
}

const named = { setups: new Map([[SETUP.id, SETUP]]), wing: undefined }
const formed = (test: Full) => formOf(test, named)

describe('a stored submission', () => {
  it('goes through the form and comes out as it was given', () => {
    const test = stored({})
    expect(bodyOf(formed(test))).toEqual({ body: GIVEN, needed: [] })
    expect(lostBy(formed(test), test)).toEqual([])
  })

  it('is not corrected by the form where that would lose something', () => {
    const [entry] = GIVEN.entries
    const ear = { kind: 'soundLevel', levelDbA: 96, position: 'pilotEar', power: 'full' }
    const runs = [{ ...ear, surface: 'grass' }]
    const test = stored({ entries: [{ ...entry!, runs }] })
    expect(lostBy(formed(test), test)).toEqual(['/entries/0/runs/0/surface'])
  })
})

describe('the changes of a revision', () => {
  const reading = {
    unit: (dimension: Dimension) => UNITS[dimension].at(-1)!,
  } as Parameters<typeof written>[2]

  it('are named in the words of the form and written in the units of the reader', () => {
    const before = stored({})
    const after = structuredClone(before)
    Object.assign(after.entries[0]!, { allUpMassKg: 118.5, uncertainty: { allUpMassKg: 0.5 } })
    Object.assign(after.conditions, { temperatureC: 15, uncertainty: { temperatureC: 1 } })
    Object.assign(after.entries[0]!.runs[0]!, { atTrim: true })
    const changes = changesBetween(before, after)
    const lines = changes.map(
      (change) =>
        `${change.label}: ${written(change, change.before, reading)} → ${written(change, change.after, reading)}`,
    )
    expect(lines).toEqual([
      'Air temperature: 58.1 °F → 59 °F',
      '± Air temperature: 0.9 °F → 1.8 °F',
      '± Pressure at the field: 0.0295 inHg → not given',
      'Setup 1, all-up mass: 266.76 lb → 261.25 lb',
      '± Setup 1, all-up mass: 2.2 lb → 1.1 lb',
      'Setup 1, level speed on three or more headings 1: Flown: no → yes',
    ])
  })

  it('are none where only the results were worked out anew', () => {
    const after = stored({})
    Object.assign(after.entries[0]!.runs[0]!, { normalized: { value: 2 } })
    expect(changesBetween(stored({}), after)).toEqual([])
    expect(givenIn(after)).toEqual({ ...GIVEN, note: undefined })
  })
})
