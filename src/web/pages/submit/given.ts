import type { Schemas } from '../../api/client.ts'
import { bodyOf } from './body.ts'
import type { Form } from './form.ts'

type Full = Schemas['FullSubmission']
type FullRun = Full['entries'][number]['runs'][number]

/** Places of what was given and the form would not send again; correcting by the form would lose it. */
export function lostBy(form: Form, test: Full): string[] {
  const kept = valuesIn(bodyOf(form).body)
  return [...valuesIn(givenIn(test)).keys()].filter((place) => !kept.has(place))
}

/** What the pilot gave, without what the service worked out or added. */
export function givenIn(test: Full): object {
  const { flownOn, site, conditions, pilot, wing, interest, note } = test
  const entries = test.entries.map((entry) => ({ ...entry, runs: entry.runs.map(readingsOf) }))
  return { flownOn, site, conditions, pilot, wing, interest, note, entries }
}

/** What a run holds beside its readings: worked out, never typed. */
const RESULTS = new Set(['normalized', 'derived', 'warnings', 'crossCheck', 'cautions'])

function readingsOf(run: FullRun): object {
  return Object.fromEntries(Object.entries(run).filter(([name]) => !RESULTS.has(name)))
}

/** All values in an object, at any depth, by their pointer. */
export function valuesIn(value: unknown, place = ''): Map<string, string | number | boolean> {
  if (value === undefined || value === null) return new Map()
  if (typeof value !== 'object') return new Map([[place, value as string]])
  return new Map(
    Object.entries(value).flatMap(([name, inner]) => [...valuesIn(inner, `${place}/${name}`)]),
  )
}
