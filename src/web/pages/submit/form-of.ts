import type { Schemas } from '../../api/client.ts'
import { randomKey } from '../../store/random-key.ts'
import { type Entered, NOTHING_ENTERED } from '../../units.ts'
import type { Doubts, EntryForm, Form, KnownSetup, RunForm, WingForm } from './form.ts'
import { doubtAt } from './run-body.ts'
import { LEGS, numbersOf, RUN_SPECS } from './run-fields.ts'

type Full = Schemas['FullSubmission']
type FullEntry = Full['entries'][number]
type FullRun = FullEntry['runs'][number]

/** What the catalogue says of the things a submission names. */
export interface Named {
  readonly setups: ReadonlyMap<string, KnownSetup>
  /** The wing of the catalogue; undefined where the wing was described. */
  readonly wing: Omit<Full['wing'], 'id'> | undefined
}

/** A stored submission as a form again, to be corrected. */
export function formOf(test: Full, named: Named): Form {
  const { conditions, site, pilot } = test
  const isStation = conditions.stationPressureHPa !== undefined
  return {
    key: randomKey(),
    revises: test.id,
    flownOn: test.flownOn,
    siteName: site.name,
    elevationM: typed(site.elevationM),
    temperatureC: typed(conditions.temperatureC),
    pressureKind: isStation ? 'stationPressureHPa' : 'qnhHPa',
    pressureHPa: typed(conditions.stationPressureHPa ?? conditions.qnhHPa),
    relativeHumidityPct: typed(conditions.relativeHumidityPct),
    windMps: typed(conditions.windMps),
    airMotion: conditions.airMotion,
    pilotMassKg: typed(pilot.massKg),
    doubts: { ...doubtsOf(site), ...doubtsOf(conditions), ...doubtsOf(pilot) },
    wing: wingOf(test.wing, named),
    interest: test.interest,
    note: test.note ?? '',
    entries: test.entries.map((entry) => entryOf(entry, named)),
  }
}

function wingOf(wing: Full['wing'], named: Named): WingForm {
  const { id } = wing
  const { flatAreaM2, glideRatio, glideSource, trimSpeedMps, trimAtAllUpMassKg } =
    named.wing ?? wing
  return {
    id: id ?? null,
    flatAreaM2: typed(flatAreaM2),
    glideRatio: typed(glideRatio),
    glideSource: glideSource ?? (id === undefined ? 'estimated' : 'catalogue'),
    trimSpeedMps: typed(trimSpeedMps),
    trimAtAllUpMassKg: typed(trimAtAllUpMassKg),
    doubts: doubtsOf(wing),
  }
}

function entryOf(entry: FullEntry, { setups }: Named): EntryForm {
  return {
    key: randomKey(),
    setup: setups.get(entry.setupId) ?? null,
    allUpMassKg: typed(entry.allUpMassKg),
    massSource: entry.massSource ?? 'estimated',
    engineHours: typed(entry.engineHours),
    doubts: doubtsOf(entry),
    runs: entry.runs.map(runOf),
  }
}

function runOf(run: FullRun): RunForm {
  const legs = run.kind === 'levelSpeed' ? run.legs.length : LEGS.least
  const numbers = numbersOf(run.kind, legs)
  const { choices } = RUN_SPECS[run.kind]
  return {
    key: randomKey(),
    kind: run.kind,
    legs,
    doubts: Object.fromEntries(numbers.map(({ at }) => [at, typed(valueAt(run, doubtAt(at)))])),
    values: Object.fromEntries(numbers.map(({ at }) => [at, typed(valueAt(run, at))])),
    choices: Object.fromEntries(
      choices.map(({ at, choices: all }) => [at, String(valueAt(run, at) ?? all[0]![0])]),
    ),
  }
}

/** The stated uncertainties of a part of a submission. */
function doubtsOf({ uncertainty }: { readonly uncertainty?: object | undefined }): Doubts {
  return Object.fromEntries(
    Object.entries(uncertainty ?? {}).map(([name, doubt]) => [name, typed(doubt)]),
  )
}

/** The value at a place such as legs/0/trackDeg. */
function valueAt(run: object, at: string): unknown {
  return at
    .split('/')
    .reduce<unknown>((value, name) => (value as Record<string, unknown> | undefined)?.[name], run)
}

function typed(value: unknown): Entered {
  if (typeof value !== 'number') return NOTHING_ENTERED
  return { text: String(value), unit: 'stored', stored: value }
}
