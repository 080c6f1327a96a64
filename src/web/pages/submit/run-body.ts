import type { Schemas } from '../../api/client.ts'
import { NOTHING_ENTERED } from '../../units.ts'
import type { KnownSetup, RunForm } from './form.ts'
import { type Lack, mustOf } from './lack.ts'
import { type ChoiceSpec, LEGS, type NumberSpec, numbersOf, RUN_SPECS } from './run-fields.ts'

type Run = Schemas['NewSubmission']['entries'][number]['runs'][number]

/** A run, and what turned the propeller in it; not known before a setup is chosen. */
export interface Flown {
  readonly run: RunForm
  readonly drive: KnownSetup['drive'] | undefined
}

/** Whether a field of a run is asked for, as its choices and the drive stand. */
export function isAsked(spec: NumberSpec | ChoiceSpec, { run, drive }: Flown): boolean {
  if ('isElectric' in spec && spec.isElectric === true && drive !== 'electric') return false
  return spec.onlyIf === undefined || run.choices[spec.onlyIf[0]] === spec.onlyIf[1]
}

/** The numbers of a run that are asked for. */
export function askedOf(flown: Flown): readonly NumberSpec[] {
  const { kind, legs } = flown.run
  return numbersOf(kind, legs ?? LEGS.least).filter((spec) => isAsked(spec, flown))
}

/** The part of the body that stands for a run. */
export function runOf(flown: Flown, pointer: string, lack: Lack): Run {
  const { run } = flown
  const must = mustOf(lack)
  const written: Holder = { kind: run.kind }
  for (const spec of askedOf(flown)) {
    const value = run.values[spec.at] ?? NOTHING_ENTERED
    if (spec.isOptional === true && value.text.trim() === '') continue
    put(written, spec.at, must(`${pointer}/${spec.at}`, value))
    const doubt = spec.isExact === true ? undefined : run.doubts?.[spec.at]
    if (doubt === undefined || doubt.text.trim() === '') continue
    put(written, doubtAt(spec.at), must(`${pointer}/${doubtAt(spec.at)}`, doubt))
  }
  for (const spec of RUN_SPECS[run.kind].choices) {
    const chosen = run.choices[spec.at] ?? ''
    if (spec.isNeeded === true && chosen === '') lack(`${pointer}/${spec.at}`)
    if (chosen === '' || !isAsked(spec, flown)) continue
    written[spec.at] = spec.isYesNo === true ? chosen === 'true' : chosen
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
