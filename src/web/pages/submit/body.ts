import type { Schemas } from '../../api/client.ts'
import { type Entered, NOTHING_ENTERED } from '../../units.ts'
import type { EntryForm, Form, RunForm } from './form.ts'
import { LEGS, type NumberSpec, numbersOf, RUN_SPECS } from './run-fields.ts'

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
    ...uncertainty({ glideRatio: hasGlide ? wing.glideDoubt : undefined }),
  }
}

function entryOf(entry: EntryForm, pointer: string, must: Must): Body['entries'][number] {
  return {
    setupId: entry.setup?.id ?? '',
    allUpMassKg: must(`${pointer}/allUpMassKg`, entry.allUpMassKg),
    massSource: entry.massSource,
    ...given('engineHours', entry.engineHours),
    ...uncertainty({ allUpMassKg: entry.massDoubt }),
    runs: entry.runs.map((run, index) => runOf(run, `${pointer}/runs/${index}`, must)),
  }
}

/** Whether a field of a run is asked for, as its choices stand. */
export function isAsked({ onlyIf }: NumberSpec, run: RunForm): boolean {
  return onlyIf === undefined || run.choices[onlyIf[0]] === onlyIf[1]
}

function runOf(run: RunForm, pointer: string, must: Must): Run {
  const { choices } = RUN_SPECS[run.kind]
  const written: Record<string, unknown> = { kind: run.kind }
  for (const spec of numbersOf(run.kind, run.legs ?? LEGS.least)) {
    const value = run.values[spec.at] ?? NOTHING_ENTERED
    if (!isAsked(spec, run)) continue
    if (spec.isOptional === true && value.stored === null) continue
    put(written, spec.at, must(`${pointer}/${spec.at}`, value))
    const doubt = spec.hasDoubt === true ? run.doubts?.[spec.at]?.stored : null
    if (doubt != null) put(written, doubtAt(spec.at), doubt)
  }
  for (const { at, isYesNo } of choices) {
    written[at] = isYesNo === true ? run.choices[at] === 'true' : run.choices[at]
  }
  return written as Run
}

/** Where the uncertainty of a reading stands: beside it, under its name. */
export function doubtAt(at: string): string {
  const cut = at.lastIndexOf('/') + 1
  return `${at.slice(0, cut)}uncertainty/${at.slice(cut)}`
}

type Holder = Record<string, unknown>

/** Puts a value at its place, such as legs/0/trackDeg: before a number there is a list. */
function put(target: Holder, at: string, value: number): void {
  const names = at.split('/')
  const last = names.pop()!
  let holder = target
  names.forEach((name, depth) => {
    const isList = /^\d+$/.test(names[depth + 1] ?? last)
    holder[name] ??= isList ? [] : {}
    holder = holder[name] as Holder
  })
  holder[last] = value
}

/** The stated ones of some uncertainties; nothing where none is. */
function uncertainty(doubts: Readonly<Record<string, Entered | undefined>>) {
  const stated = Object.entries(doubts).flatMap(([name, doubt]) =>
    doubt?.stored == null ? [] : [[name, doubt.stored] as const],
  )
  return stated.length === 0 ? {} : { uncertainty: Object.fromEntries(stated) }
}

function given(name: string, { stored }: Entered): Record<string, number> {
  return stored === null ? {} : { [name]: stored }
}
