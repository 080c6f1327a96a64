import type { Schemas } from '../../api/client.ts'
import type { Reading } from '../../settings.ts'
import { type Dimension, spanOf } from '../../units.ts'
import { givenIn, valuesIn } from '../submit/given.ts'
import { numbersOf, RUN_SPECS, type RunKind } from '../submit/run-fields.ts'

type Full = Schemas['FullSubmission']
type Value = string | number | boolean

/** One value that differs between two revisions; undefined where it is not given. */
export interface Change extends Words {
  readonly place: string
  readonly before: Value | undefined
  readonly after: Value | undefined
}

interface Words {
  readonly label: string
  readonly dimension?: Dimension
  readonly sign?: string
  readonly isSpan?: boolean
}

const SESSION: Readonly<Record<string, Words>> = {
  '/flownOn': { label: 'Day' },
  '/note': { label: 'Note' },
  '/interest': { label: 'Interest' },
  '/site/name': { label: 'Field' },
  '/site/elevationM': { label: 'Elevation of the field', dimension: 'height' },
  '/conditions/temperatureC': { label: 'Air temperature', dimension: 'temperature' },
  '/conditions/qnhHPa': { label: 'QNH', dimension: 'pressure' },
  '/conditions/stationPressureHPa': { label: 'Pressure at the field', dimension: 'pressure' },
  '/conditions/relativeHumidityPct': { label: 'Humidity', sign: '%' },
  '/conditions/windMps': { label: 'Wind', dimension: 'speed' },
  '/conditions/airMotion': { label: 'Air' },
  '/pilot/massKg': { label: 'Pilot with clothing', dimension: 'mass' },
  '/wing/id': { label: 'Wing of the catalogue' },
  '/wing/flatAreaM2': { label: 'Flat area of the wing', dimension: 'area' },
  '/wing/glideRatio': { label: 'Glide ratio' },
  '/wing/glideSource': { label: 'The glide ratio is' },
  '/wing/trimSpeedMps': { label: 'Airspeed at trim', dimension: 'speed' },
  '/wing/trimAtAllUpMassKg': { label: 'All-up mass at that speed', dimension: 'mass' },
}

const ENTRY: Readonly<Record<string, Words>> = {
  setupId: { label: 'setup' },
  allUpMassKg: { label: 'all-up mass', dimension: 'mass' },
  massSource: { label: 'how the mass is known' },
  engineHours: { label: 'engine hours', sign: 'h' },
}

/** What a revision changed of what was given before it, place by place. */
export function changesBetween(older: Full, newer: Full): Change[] {
  const before = valuesIn(givenIn(older))
  const after = valuesIn(givenIn(newer))
  const places = [...new Set([...before.keys(), ...after.keys()])]
  return places
    .filter((place) => before.get(place) !== after.get(place) && !place.endsWith('/kind'))
    .map((place) => ({
      place,
      ...wordsOf(place, [newer, older]),
      before: before.get(place),
      after: after.get(place),
    }))
}

/** A value in the reader's units. */
export function written(words: Words, value: Value | undefined, reading: Reading): string {
  if (value === undefined) return 'not given'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'string') return value
  const { dimension, sign = '', isSpan } = words
  if (dimension === undefined) return `${value} ${sign}`.trim()
  const unit = isSpan === true ? spanOf(reading.unit(dimension)) : reading.unit(dimension)
  return `${Number(unit.toReader(value).toFixed(unit.decimals + 2))} ${unit.sign}`
}

function wordsOf(place: string, revisions: readonly Full[]): Words {
  if (place.includes('/uncertainty/')) {
    const words = wordsOf(place.replace('/uncertainty/', '/'), revisions)
    return { ...words, label: `± ${words.label}`, isSpan: true }
  }
  const [, entry, run, at] = /^\/entries\/(\d+)\/(?:runs\/(\d+)\/)?(.+)$/.exec(place) ?? []
  if (at === undefined) return SESSION[place] ?? { label: place }
  const setup = `Setup ${Number(entry) + 1}`
  if (run === undefined) {
    const words = ENTRY[at] ?? { label: at }
    return { ...words, label: `${setup}, ${words.label}` }
  }
  const runs = revisions.map((one) => one.entries[Number(entry)]?.runs[Number(run)])
  const kind = runs.find((one) => one !== undefined)!.kind
  const words = fieldOf(kind, at)
  const name = `${RUN_SPECS[kind].label.toLowerCase()} ${Number(run) + 1}`
  return { ...words, label: `${setup}, ${name}: ${words.label}` }
}

/** The interface takes up to twelve legs; those of any number of them are named alike. */
function fieldOf(kind: RunKind, at: string): Words {
  const specs = [...numbersOf(kind, 12), ...RUN_SPECS[kind].choices]
  const found = specs.find((spec) => spec.at === at)
  if (found === undefined) return { label: at }
  const { label, dimension, sign } = found as Words
  return {
    label,
    ...(dimension === undefined ? {} : { dimension }),
    ...(sign === undefined ? {} : { sign }),
  }
}
