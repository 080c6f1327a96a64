import type { Schemas } from '../../api/client.ts'
import { randomKey } from '../../store/random-key.ts'
import { type Entered, NOTHING_ENTERED } from '../../units.ts'
import { isSharedByRuns, LEGS, RUN_SPECS, type RunKind } from './run-fields.ts'

type Body = Schemas['NewSubmission']
type FieldError = NonNullable<Schemas['Problem']['errors']>[number]

export interface Safety {
  readonly state: Schemas['Setup']['safety']['state']
  readonly advisories: readonly string[]
}

/** What the page knows of a setup without asking again: enough to work out a run offline. */
export interface KnownSetup {
  readonly id: string
  readonly name: string
  readonly drive: 'twoStroke' | 'fourStroke' | 'electric'
  readonly propellerDiameterCm: number
  /** What spoke against flying it when it was chosen. */
  readonly safety: Safety
}

export interface RunForm {
  readonly key: string
  readonly kind: RunKind
  readonly values: Readonly<Record<string, Entered>>
  readonly choices: Readonly<Record<string, string>>
  /** Of a level speed; drafts of earlier days have none. */
  readonly legs?: number
  readonly doubts?: Doubts
}

/** Stated standard uncertainties, by the name of their reading. */
export type Doubts = Readonly<Record<string, Entered>>

export interface EntryForm {
  readonly key: string
  readonly setup: KnownSetup | null
  readonly allUpMassKg: Entered
  readonly massSource: 'weighed' | 'estimated'
  readonly engineHours: Entered
  readonly doubts?: Doubts
  readonly runs: readonly RunForm[]
}

export interface WingForm {
  /** A wing of the catalogue whose figures stand below untouched. */
  readonly id: string | null
  readonly flatAreaM2: Entered
  readonly glideRatio: Entered
  readonly glideSource: 'measured' | 'catalogue' | 'estimated'
  readonly trimSpeedMps: Entered
  readonly trimAtAllUpMassKg: Entered
  readonly doubts?: Doubts
}

/** The form as it stands: texts as typed, kept in the draft as they are. */
export interface Form {
  /** Sent along with it, so that the same draft arrives once however often it is sent. */
  readonly key: string
  /** The submission this corrects. */
  readonly revises: string | null
  /** Place, pilot and wing were taken over from the last session and stand folded. */
  readonly isRemembered?: boolean
  /** What the service said of it when it was sent before. */
  readonly refused?: readonly FieldError[]
  readonly flownOn: string
  readonly siteName: string
  readonly elevationM: Entered
  readonly temperatureC: Entered
  readonly pressureKind: 'qnhHPa' | 'stationPressureHPa'
  readonly pressureHPa: Entered
  readonly relativeHumidityPct: Entered
  readonly windMps: Entered
  readonly airMotion: Body['conditions']['airMotion']
  readonly pilotMassKg: Entered
  /** Of the place, the air and the pilot. */
  readonly doubts?: Doubts
  readonly wing: WingForm
  readonly interest: Body['interest']
  readonly note: string
  readonly entries: readonly EntryForm[]
}

/** What the next session most likely shares with the last: place, pilot, wing, instruments, interest. */
export interface LastSession {
  readonly siteName: string
  readonly elevationM: Entered
  readonly pilotMassKg: Entered
  readonly wing: WingForm
  readonly interest: Body['interest']
  readonly allUpMassKg: Entered
  readonly massSource: EntryForm['massSource']
  readonly heightSource: string
  readonly setup: KnownSetup | null
}

const EMPTY_WING: WingForm = {
  id: null,
  flatAreaM2: NOTHING_ENTERED,
  glideRatio: NOTHING_ENTERED,
  glideSource: 'estimated',
  trimSpeedMps: NOTHING_ENTERED,
  trimAtAllUpMassKg: NOTHING_ENTERED,
}

export function blankForm(today: string, last: LastSession | null): Form {
  return {
    key: randomKey(),
    revises: null,
    isRemembered: last !== null,
    flownOn: today,
    siteName: last?.siteName ?? '',
    elevationM: last?.elevationM ?? NOTHING_ENTERED,
    temperatureC: NOTHING_ENTERED,
    pressureKind: 'qnhHPa',
    pressureHPa: NOTHING_ENTERED,
    relativeHumidityPct: NOTHING_ENTERED,
    windMps: NOTHING_ENTERED,
    airMotion: 'calm',
    pilotMassKg: last?.pilotMassKg ?? NOTHING_ENTERED,
    wing: last?.wing ?? EMPTY_WING,
    interest: last?.interest ?? 'none',
    note: '',
    entries: [],
  }
}

export function blankEntry(last: LastSession | null, before: EntryForm | undefined): EntryForm {
  return {
    key: randomKey(),
    setup: before === undefined ? (last?.setup ?? null) : null,
    allUpMassKg: before?.allUpMassKg ?? last?.allUpMassKg ?? NOTHING_ENTERED,
    massSource: before?.massSource ?? last?.massSource ?? 'estimated',
    engineHours: NOTHING_ENTERED,
    runs: [],
  }
}

/** A new run; where one of its kind went before, what both share is taken over. */
export function blankRun(
  kind: RunKind,
  before: RunForm | undefined,
  heightSource?: string,
): RunForm {
  const { numbers, choices } = RUN_SPECS[kind]
  const usual = (value: number | undefined): Entered =>
    value === undefined ? NOTHING_ENTERED : { text: String(value), unit: 'usual', stored: value }
  return {
    key: randomKey(),
    kind,
    legs: LEGS.least,
    doubts: before?.doubts ?? {},
    values: Object.fromEntries(
      numbers.map((spec) => [
        spec.at,
        (isSharedByRuns(spec.at) ? before?.values[spec.at] : undefined) ?? usual(spec.usual),
      ]),
    ),
    choices: Object.fromEntries(
      choices.map(({ at, choices: all, isNeeded }) => {
        const remembered = at === 'heightSource' ? heightSource : undefined
        const taken = isNeeded === true ? undefined : (before?.choices[at] ?? remembered)
        return [at, taken ?? all[0]![0]]
      }),
    ),
  }
}

/** What to offer next time. */
export function lastSessionOf(form: Form): LastSession {
  const entry = form.entries[0]
  const climb = entry?.runs.find(({ choices }) => choices.heightSource !== undefined)
  return {
    siteName: form.siteName,
    elevationM: form.elevationM,
    pilotMassKg: form.pilotMassKg,
    wing: form.wing,
    interest: form.interest,
    allUpMassKg: entry?.allUpMassKg ?? NOTHING_ENTERED,
    massSource: entry?.massSource ?? 'estimated',
    heightSource: climb?.choices.heightSource ?? 'barometric',
    setup: entry?.setup ?? null,
  }
}
