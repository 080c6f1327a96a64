import { describe, expect, it } from 'vitest'

import { bodyOf } from '../../src/web/pages/submit/body.ts'
import { blankEntry, blankForm } from '../../src/web/pages/submit/form.ts'
import { doubtAt } from '../../src/web/pages/submit/run-body.ts'
import { entered, NOTHING_ENTERED, UNITS } from '../../src/web/units.ts'
import { formWith, n, SETUP } from './a-form.ts'

const climb = { heightGainM: n(100), durationS: n(41.8), startHeightAboveSiteM: n(100) }

describe('the body of a form', () => {
  it('needs nothing more once the needed fields are filled in, and leaves open ones out', () => {
    const { body, needed } = bodyOf(formWith('climb', { values: climb }))
    expect(needed).toEqual([])
    expect(body.site).toEqual({ name: 'Larkfield', elevationM: 212 })
    expect(body.conditions).toEqual({ temperatureC: 14.5, airMotion: 'calm' })
    expect(body).not.toHaveProperty('note')
    expect(body.entries[0]!.runs[0]).toEqual({
      kind: 'climb',
      heightGainM: 100,
      durationS: 41.8,
      startHeightAboveSiteM: 100,
      heightSource: 'barometric',
    })
  })

  it('names every field that is still needed', () => {
    const blank = { ...blankForm('2026-05-10', null), entries: [blankEntry(null, undefined)] }
    expect(new Set(bodyOf(blank).needed)).toEqual(
      new Set([
        '/site/name',
        '/site/elevationM',
        '/conditions/temperatureC',
        '/pilot/massKg',
        '/wing/flatAreaM2',
        '/entries/0/setupId',
        '/entries/0/allUpMassKg',
        '/entries/0/runs',
      ]),
    )
  })

  it('does not take a text that is no number for nothing entered', () => {
    const typo = entered('4l.8', UNITS.mass[0])
    const { needed } = bodyOf(formWith('climb', { values: { ...climb, durationS: typo } }))
    expect(needed).toEqual(['/entries/0/runs/0/durationS'])
  })

  it('sends a wing of the catalogue by its id alone', () => {
    const form = formWith('climb', { values: climb })
    const wing = { ...form.wing, id: SETUP.id, glideRatio: n(8), doubts: { glideRatio: n(0.5) } }
    expect(bodyOf({ ...form, wing }).body.wing).toEqual({ id: SETUP.id })
  })

  it('says where a glide ratio comes from only where there is one, and so with its doubt', () => {
    const form = formWith('climb', { values: climb })
    const wing = { ...form.wing, doubts: { glideRatio: n(0.4) } }
    expect(bodyOf({ ...form, wing }).body.wing).toEqual({ flatAreaM2: 25 })
    expect(bodyOf({ ...form, wing: { ...wing, glideRatio: n(7) } }).body.wing).toEqual({
      flatAreaM2: 25,
      glideRatio: 7,
      glideSource: 'estimated',
      uncertainty: { glideRatio: 0.4 },
    })
  })

  it('asks for a distance only where the level was read at one', () => {
    const values = { levelDbA: n(96), distanceM: n(20) }
    const choices = { position: 'pilotEar', power: 'full', instrument: 'phone' }
    const ear = bodyOf(formWith('soundLevel', { values, choices }))
    expect(ear.body.entries[0]!.runs[0]).not.toHaveProperty('distanceM')
    const away = { ...choices, position: 'distance' }
    const { needed } = bodyOf(
      formWith('soundLevel', { values: { levelDbA: n(96) }, choices: away }),
    )
    expect(needed).toEqual(['/entries/0/runs/0/distanceM'])
  })

  it('takes no answer for granted where the propeller may have touched', () => {
    const { needed } = bodyOf(formWith('tipClearance', { values: { staticClearanceMm: n(12) } }))
    expect(needed).toEqual(['/entries/0/runs/0/contactSeen'])
  })

  it('sends what a battery says of electric drives only, as the service demands', () => {
    const values = { ...climb, batteryStartV: n(50), batteryEndV: n(49) }
    const form = formWith('climb', { values })
    expect(bodyOf(form).body.entries[0]!.runs[0]).not.toHaveProperty('batteryStartV')
    const [entry] = form.entries
    const electric = { ...entry!, setup: { ...SETUP, drive: 'electric' as const } }
    expect(bodyOf({ ...form, entries: [electric] }).body.entries[0]!.runs[0]).toMatchObject({
      batteryStartV: 50,
      batteryEndV: 49,
    })
  })

  it('does not send letters in the place of an optional number as nothing entered', () => {
    const typo = entered('1o18', UNITS.pressure[0])
    const form = { ...formWith('climb', { values: climb }), pressureHPa: typo }
    expect(bodyOf(form).needed).toEqual(['/conditions/qnhHPa'])
    const doubts = { elevationM: typo }
    expect(bodyOf({ ...formWith('climb', { values: climb }), doubts }).needed).toEqual([
      '/site/uncertainty/elevationM',
    ])
  })

  it('sends yes and no as such', () => {
    const values = { staticClearanceMm: n(12) }
    const seen = formWith('tipClearance', { values, choices: { contactSeen: 'true' } })
    expect(bodyOf(seen).body.entries[0]!.runs[0]).toMatchObject({ contactSeen: true })
  })

  it('puts stated uncertainties beside their readings', () => {
    const doubts = { durationS: n(0.4), heightGainM: NOTHING_ENTERED }
    const form = formWith('climb', { values: climb, doubts })
    const [entry] = form.entries
    const { body } = bodyOf({ ...form, entries: [{ ...entry!, doubts: { allUpMassKg: n(1.5) } }] })
    expect(body.entries[0]!.runs[0]!.uncertainty).toEqual({ durationS: 0.4 })
    expect(body.entries[0]!.uncertainty).toEqual({ allUpMassKg: 1.5 })
  })

  it('states none for a reading that was left open: the service would refuse it', () => {
    const doubts = { loadedClearanceMm: n(1) }
    const values = { staticClearanceMm: n(12) }
    const { body } = bodyOf(formWith('tipClearance', { values, doubts }))
    expect(body.entries[0]!.runs[0]).not.toHaveProperty('uncertainty')
  })

  it.each([3, 5, 12])('sends %i legs, each with its own uncertainty', (legs) => {
    const numbers = Array.from({ length: legs }, (_, i) => i)
    const values = Object.fromEntries(
      numbers.flatMap((i) => [
        [`legs/${i}/trackDeg`, n(i * 30)],
        [`legs/${i}/groundSpeedMps`, n(10 + i)],
      ]),
    )
    const doubts = { [`legs/${legs - 1}/groundSpeedMps`]: n(0.3) }
    const { body, needed } = bodyOf(formWith('levelSpeed', { values, legs, doubts }))
    expect(needed).toEqual([])
    const run = body.entries[0]!.runs[0] as { legs: unknown[] }
    expect(run.legs).toHaveLength(legs)
    expect(run.legs.at(-1)).toEqual({
      trackDeg: (legs - 1) * 30,
      groundSpeedMps: 10 + legs - 1,
      uncertainty: { groundSpeedMps: 0.3 },
    })
  })

  it('needs every leg that was asked for', () => {
    const { needed } = bodyOf(formWith('levelSpeed', { legs: 4 }))
    expect(needed.filter((pointer) => pointer.includes('/legs/3/'))).toHaveLength(2)
  })
})

describe('the place of an uncertainty', () => {
  it('is beside its reading', () => {
    expect(doubtAt('durationS')).toBe('uncertainty/durationS')
    expect(doubtAt('legs/2/trackDeg')).toBe('legs/2/uncertainty/trackDeg')
  })
})
