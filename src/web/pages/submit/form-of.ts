import { get, type Schemas } from '../../api/client.ts'
import { randomKey } from '../../store/random-key.ts'
import { type Entered, NOTHING_ENTERED } from '../../units.ts'
import { doubtAt } from './body.ts'
import { knownSetup } from './entry-card.tsx'
import type { EntryForm, Form, KnownSetup, RunForm, WingForm } from './form.ts'
import { LEGS, numbersOf, RUN_SPECS } from './run-fields.ts'

type Full = Schemas['FullSubmission']
type FullEntry = Full['entries'][number]
type FullRun = FullEntry['runs'][number]

/** What a run holds beside its readings: worked out, never typed. */
const RESULTS = new Set(['kind', 'normalized', 'derived', 'warnings', 'crossCheck', 'cautions'])

/** The names of what was given and the form has no field for; correcting by the form would lose it. */
export function withoutField(test: Full): string[] {
  const hasOthers = (part: Stated, known: readonly string[]) =>
    Object.keys(part.uncertainty ?? {}).some((name) => !known.includes(name))
  const isLost =
    [test.site, test.conditions, test.pilot].some((part) => hasOthers(part, [])) ||
    hasOthers(test.wing, ['glideRatio']) ||
    test.entries.some((entry) => hasOthers(entry, ['allUpMassKg']))
  const inRuns = test.entries.flatMap(({ runs }) => runs.flatMap(unknownIn))
  return [...new Set([...(isLost ? ['uncertainty'] : []), ...inRuns])]
}

interface Stated {
  readonly uncertainty?: object | undefined
}

function unknownIn(run: FullRun): string[] {
  const numbers = numbersOf(run.kind, legsOf(run))
  const choices = RUN_SPECS[run.kind].choices.map(({ at }) => at)
  const known = new Set([...numbers.map(({ at }) => at.split('/')[0]!), ...choices, 'uncertainty'])
  const unknown = Object.keys(run).filter((name) => !RESULTS.has(name) && !known.has(name))
  const asked = new Set(numbers.filter(({ hasDoubt }) => hasDoubt).map(({ at }) => doubtAt(at)))
  const isLost = doubtsIn(run).some((at) => !asked.has(at))
  return isLost ? [...unknown, 'uncertainty'] : unknown
}

/** The places of all uncertainties of a run, those of its legs included. */
function doubtsIn(run: FullRun): string[] {
  const parts: readonly (readonly [string, Stated])[] = [
    ['', run],
    ...(run.kind === 'levelSpeed'
      ? run.legs.map((leg, index) => [`legs/${index}/`, leg] as const)
      : []),
  ]
  return parts.flatMap(([head, part]) =>
    Object.keys(part.uncertainty ?? {}).map((name) => `${head}uncertainty/${name}`),
  )
}

function legsOf(run: FullRun): number {
  return run.kind === 'levelSpeed' ? run.legs.length : LEGS.least
}

/** A stored submission as a form again, to be corrected. */
export async function formOf(test: Full): Promise<Form> {
  const entries = await Promise.all(test.entries.map(entryOf))
  const { conditions, site } = test
  return {
    revises: test.id,
    flownOn: test.flownOn,
    siteName: site.name,
    elevationM: typed(site.elevationM),
    temperatureC: typed(conditions.temperatureC),
    pressureKind: conditions.stationPressureHPa === undefined ? 'qnhHPa' : 'stationPressureHPa',
    pressureHPa: typed(conditions.stationPressureHPa ?? conditions.qnhHPa),
    relativeHumidityPct: typed(conditions.relativeHumidityPct),
    windMps: typed(conditions.windMps),
    airMotion: conditions.airMotion,
    pilotMassKg: typed(test.pilot.massKg),
    wing: await wingOf(test.wing),
    interest: test.interest,
    note: test.note ?? '',
    entries,
  }
}

async function wingOf(wing: Full['wing']): Promise<WingForm> {
  const { id } = wing
  if (id === undefined) return described(wing, null)
  const { body } = await get('/v1/components/{id}', { path: { id } })
  if (body.kind !== 'wing') return described({}, null)
  return described({ ...body, glideSource: 'catalogue' }, id)
}

function described(wing: Omit<Full['wing'], 'id'>, id: string | null): WingForm {
  return {
    id,
    flatAreaM2: typed(wing.flatAreaM2),
    glideRatio: typed(wing.glideRatio),
    glideSource: wing.glideSource ?? 'estimated',
    trimSpeedMps: typed(wing.trimSpeedMps),
    trimAtAllUpMassKg: typed(wing.trimAtAllUpMassKg),
    glideDoubt: typed(wing.uncertainty?.glideRatio),
  }
}

async function entryOf(entry: FullEntry): Promise<EntryForm> {
  const { body } = await get('/v1/setups/{id}', { path: { id: entry.setupId } })
  const setup: KnownSetup = knownSetup(body)
  return {
    key: randomKey(),
    setup,
    allUpMassKg: typed(entry.allUpMassKg),
    massSource: entry.massSource ?? 'estimated',
    engineHours: typed(entry.engineHours),
    massDoubt: typed(entry.uncertainty?.allUpMassKg),
    runs: entry.runs.map(runOf),
  }
}

function runOf(run: FullRun): RunForm {
  const legs = legsOf(run)
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
