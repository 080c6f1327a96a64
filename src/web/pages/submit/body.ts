import type { Schemas } from '../../api/client.ts'
import type { Entered } from '../../units.ts'
import type { EntryForm, Form, RunForm } from './form.ts'
import { type NumberSpec, RUN_SPECS } from './run-fields.ts'

type Body = Schemas['NewSubmission']
type Run = Body['entries'][number]['runs'][number]

/** The body of a form, as far as it is filled in, and the pointers of what is still needed. */
export interface Written {
  readonly body: Body
  readonly needed: readonly string[]
}

/** Writes the body the interface takes. Names are those of the form; only texts become numbers. */
export function bodyOf(form: Form): Written {
  const needed: string[] = []
  const must = (pointer: string, value: Entered): number => {
    if (value.stored === null) needed.push(pointer)
    return value.stored ?? Number.NaN
  }
  const entries = form.entries.map((entry, index) => entryOf(entry, `/entries/${index}`, must))
  if (form.siteName.trim() === '') needed.push('/site/name')
  if (entries.length === 0) needed.push('/entries')
  form.entries.forEach(({ setup, runs }, index) => {
    if (setup === null) needed.push(`/entries/${index}/setupId`)
    if (runs.length === 0) needed.push(`/entries/${index}/runs`)
  })
  const body: Body = {
    flownOn: form.flownOn,
    site: { name: form.siteName.trim(), elevationM: must('/site/elevationM', form.elevationM) },
    conditions: {
      temperatureC: must('/conditions/temperatureC', form.temperatureC),
      ...given(form.pressureKind, form.pressureHPa),
      ...given('relativeHumidityPct', form.relativeHumidityPct),
      ...given('windMps', form.windMps),
      airMotion: form.airMotion,
    },
    pilot: { massKg: must('/pilot/massKg', form.pilotMassKg) },
    wing: wingOf(form, must),
    interest: form.interest,
    ...(form.note.trim() === '' ? {} : { note: form.note.trim() }),
    entries,
  }
  return { body, needed }
}

type Must = (pointer: string, value: Entered) => number

function wingOf({ wing }: Form, must: Must): Body['wing'] {
  if (wing.id !== null) return { id: wing.id }
  const hasGlide = wing.glideRatio.stored !== null
  return {
    flatAreaM2: must('/wing/flatAreaM2', wing.flatAreaM2),
    ...given('glideRatio', wing.glideRatio),
    ...(hasGlide ? { glideSource: wing.glideSource } : {}),
    ...given('trimSpeedMps', wing.trimSpeedMps),
    ...given('trimAtAllUpMassKg', wing.trimAtAllUpMassKg),
  }
}

function entryOf(entry: EntryForm, pointer: string, must: Must): Body['entries'][number] {
  return {
    setupId: entry.setup?.id ?? '',
    allUpMassKg: must(`${pointer}/allUpMassKg`, entry.allUpMassKg),
    massSource: entry.massSource,
    ...given('engineHours', entry.engineHours),
    runs: entry.runs.map((run, index) => runOf(run, `${pointer}/runs/${index}`, must)),
  }
}

/** Whether a field of a run is asked for, as its choices stand. */
export function isAsked({ onlyIf }: NumberSpec, run: RunForm): boolean {
  return onlyIf === undefined || run.choices[onlyIf[0]] === onlyIf[1]
}

function runOf(run: RunForm, pointer: string, must: Must): Run {
  const { numbers, choices } = RUN_SPECS[run.kind]
  const written: Record<string, unknown> = { kind: run.kind }
  for (const spec of numbers) {
    const value = run.values[spec.at]
    if (value === undefined || !isAsked(spec, run)) continue
    if (spec.isOptional !== true) put(written, spec.at, must(`${pointer}/${spec.at}`, value))
    else if (value.stored !== null) put(written, spec.at, value.stored)
  }
  for (const { at, isYesNo } of choices) {
    written[at] = isYesNo === true ? run.choices[at] === 'true' : run.choices[at]
  }
  return written as Run
}

/** Puts a value at its place, such as legs/0/trackDeg. */
function put(target: Record<string, unknown>, at: string, value: number): void {
  const [list, index, field] = at.split('/')
  if (index === undefined || field === undefined) {
    target[at] = value
    return
  }
  const items = [...((target[list!] as Record<string, unknown>[] | undefined) ?? [])]
  items[Number(index)] = { ...items[Number(index)], [field]: value }
  target[list!] = items
}

function given(name: string, { stored }: Entered): Record<string, number> {
  return stored === null ? {} : { [name]: stored }
}
