import type { Schemas } from '../../api/client.ts'
import type { EntryForm, Form } from './form.ts'
import { type Lack, mayOf, measured, mustOf } from './lack.ts'
import { runOf } from './run-body.ts'

type Body = Schemas['NewSubmission']

/** The body of a form, as far as it is filled in, and the pointers of what is still needed. */
export interface Written {
  readonly body: Body
  readonly needed: readonly string[]
}

/** Writes the body the interface takes. Names are those of the form; only texts become numbers. */
export function bodyOf(form: Form): Written {
  const needed: string[] = []
  const lack: Lack = (pointer) => needed.push(pointer)
  const must = mustOf(lack)
  const entries = form.entries.map((entry, index) => entryOf(entry, `/entries/${index}`, lack))
  if (form.flownOn === '') lack('/flownOn')
  if (form.siteName.trim() === '') lack('/site/name')
  if (entries.length === 0) lack('/entries')
  form.entries.forEach(({ setup, runs }, index) => {
    if (setup === null) lack(`/entries/${index}/setupId`)
    if (runs.length === 0) lack(`/entries/${index}/runs`)
  })
  const body: Body = {
    flownOn: form.flownOn,
    site: measured(
      { name: form.siteName.trim(), elevationM: must('/site/elevationM', form.elevationM) },
      form.doubts,
      { head: '/site', lack },
    ),
    conditions: airOf(form, lack),
    pilot: measured({ massKg: must('/pilot/massKg', form.pilotMassKg) }, form.doubts, {
      head: '/pilot',
      lack,
    }),
    wing: wingOf(form, lack),
    interest: form.interest,
    ...(form.note.trim() === '' ? {} : { note: form.note.trim() }),
    entries,
  }
  return { body, needed }
}

function airOf(form: Form, lack: Lack): Body['conditions'] {
  const may = mayOf(lack, '/conditions')
  const air: Body['conditions'] = {
    temperatureC: mustOf(lack)('/conditions/temperatureC', form.temperatureC),
    ...may(form.pressureKind, form.pressureHPa),
    ...may('relativeHumidityPct', form.relativeHumidityPct),
    ...may('windMps', form.windMps),
    airMotion: form.airMotion,
  }
  return measured(air, form.doubts, { head: '/conditions', lack })
}

function wingOf({ wing }: Form, lack: Lack): Body['wing'] {
  if (wing.id !== null) return { id: wing.id }
  const may = mayOf(lack, '/wing')
  const hasGlide = wing.glideRatio.stored !== null
  const described = {
    flatAreaM2: mustOf(lack)('/wing/flatAreaM2', wing.flatAreaM2),
    ...may('glideRatio', wing.glideRatio),
    ...(hasGlide ? { glideSource: wing.glideSource } : {}),
    ...may('trimSpeedMps', wing.trimSpeedMps),
    ...may('trimAtAllUpMassKg', wing.trimAtAllUpMassKg),
  }
  return measured(described, wing.doubts, { head: '/wing', lack })
}

function entryOf(entry: EntryForm, pointer: string, lack: Lack): Body['entries'][number] {
  const drive = entry.setup?.drive
  const written = {
    setupId: entry.setup?.id ?? '',
    allUpMassKg: mustOf(lack)(`${pointer}/allUpMassKg`, entry.allUpMassKg),
    massSource: entry.massSource,
    ...mayOf(lack, pointer)('engineHours', entry.engineHours),
    runs: entry.runs.map((run, index) => runOf({ run, drive }, `${pointer}/runs/${index}`, lack)),
  }
  return measured(written, entry.doubts, { head: pointer, lack })
}
