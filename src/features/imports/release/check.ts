import type { Progress } from '../../../contract/progress.ts'
import { MASS_CLASSES } from '../../../core/comparison/mass-classes.ts'
import { REFERENCE } from '../../../core/normalise/reference.ts'
import { METHOD_VERSION } from '../../../core/version.ts'
import { type Fault, faultyFile, refuseFaults } from '../csv/faults.ts'
import type { Sheet } from '../csv/sheet.ts'
import { RELEASE_PARTS, type ReleasePart, type ReleaseTables } from '../ports.ts'
import { type ReleaseRow, readTable } from './table.ts'

/** A run as it will stand here, but for the setup. */
export interface ReleasedRun {
  readonly row: number
  readonly sessionKey: string
  readonly pilotKey: string
  /** As the release has it. */
  readonly setupId: string
  readonly quantity: string | null
  readonly logValue: number | null
  readonly own: number | null
  readonly shared: number | null
  /** Null: suppressed. */
  readonly interested: boolean | null
  readonly allUpMassKg: number | null
  readonly systematic: readonly { cause: string; reach: string; effect: number }[]
  readonly asReleased: ReleaseRow['cells']
}

/** A release that holds together; its setups may be unknown here. */
export interface CheckedRelease {
  readonly runs: readonly ReleasedRun[]
  /** Null: the part was not sent. */
  readonly setups: readonly ReleaseRow[] | null
  readonly components: readonly ReleaseRow[] | null
}

/**
 * Checks every row of a release, and that its tables fit together.
 *
 * @throws {ApiProblem} faulty-file, with every fault of every row
 */
export async function checkRelease(
  tables: ReleaseTables,
  sheets: ReadonlyMap<string, Sheet>,
  progress: Progress,
): Promise<CheckedRelease> {
  const faults: Fault[] = []
  if (!sheets.has('systematic')) throw faultyFile([SYSTEMATIC_IS_MISSING])
  const read = new Map<ReleasePart, ReleaseRow[]>()
  for (const [index, part] of RELEASE_PARTS.entries()) {
    await progress(index / RELEASE_PARTS.length, `checking ${part}`)
    const sheet = sheets.get(part)
    if (sheet === undefined) continue
    const optional = new Set(part === 'runs' ? tables.rawFields.map((f) => f.column.name) : [])
    const { columns } = tables.all[part]
    read.set(part, await readTable({ ...sheet, part }, columns, { faults, optional }))
  }
  const runs = read.get('runs') ?? []
  if (runs.length === 0) faults.push({ file: 'runs', row: 2, detail: 'The release has no runs.' })
  refuseFaults(faults)
  const effects = effectsByRun(read.get('systematic') ?? [], runs, faults)
  faults.push(...oddRuns(runs))
  refuseFaults(faults)
  return {
    runs: runs.map((row) => toRun(row, effects)),
    setups: read.get('setups') ?? null,
    components: read.get('components') ?? null,
  }
}

const SYSTEMATIC_IS_MISSING: Fault = {
  file: 'systematic',
  detail:
    'The runs of a release count with their systematic effects, or intervals would be too narrow: send multipart/form-data with the files of the release as parts runs and systematic, and setups and components where its set-ups are not known here.',
}

/** What no column says by itself. */
function oddRuns(runs: readonly ReleaseRow[]): Fault[] {
  const faults: Fault[] = []
  const keys = new Map<string, number>()
  const pilots = new Map<string, string>()
  for (const { number, cells } of runs) {
    const refuse = (column: string, detail: string) =>
      faults.push({ file: 'runs', row: number, column, detail })
    const key = cells.run_key as string
    const before = keys.get(key)
    if (before !== undefined) refuse('run_key', `Stands in row ${before} already.`)
    keys.set(key, before ?? number)
    const session = cells.session_key as string
    const pilot = pilots.get(session) ?? (cells.pilot_key as string)
    pilots.set(session, pilot)
    if (pilot !== cells.pilot_key)
      refuse('pilot_key', `Session ${session} is flown by ${pilot} above.`)
    const missing = EVIDENCE.filter((name) => (cells[name] === null) !== (cells.metric === null))
    for (const name of missing) {
      refuse(name, 'Belongs to metric: all four are given, or none.')
    }
    if (cells.method_version !== METHOD_VERSION) {
      refuse(
        'method_version',
        `Was worked out by version ${cells.method_version} of the method; this server compares results of version ${METHOD_VERSION}, which a release of that version holds.`,
      )
    }
    if (cells.reference_id !== REFERENCE.id) {
      refuse('reference_id', `The reference state here is ${REFERENCE.id}.`)
    }
  }
  return faults
}

const EVIDENCE = ['log_value', 'own_standard_uncertainty', 'shared_standard_uncertainty']

type Effects = ReadonlyMap<string, { cause: string; reach: string; effect: number }[]>

function effectsByRun(
  rows: readonly ReleaseRow[],
  runs: readonly ReleaseRow[],
  faults: Fault[],
): Effects {
  const known = new Set(runs.map(({ cells }) => cells.run_key))
  const effects = new Map<string, { cause: string; reach: string; effect: number }[]>()
  for (const { number, cells } of rows) {
    const {
      run_key: key,
      cause,
      reach,
      effect,
    } = cells as Record<string, string> & { effect: number }
    if (!known.has(key!)) {
      const detail = 'Is the key of no run of this release.'
      faults.push({ file: 'systematic', row: number, column: 'run_key', detail })
      continue
    }
    const ofRun = effects.get(key!) ?? []
    ofRun.push({ cause: cause!, reach: reach!, effect })
    effects.set(key!, ofRun)
  }
  return effects
}

function toRun({ number, cells }: ReleaseRow, effects: Effects): ReleasedRun {
  return {
    row: number,
    sessionKey: cells.session_key as string,
    pilotKey: cells.pilot_key as string,
    setupId: (cells.setup_id as string).toLowerCase(),
    quantity: cells.metric as string | null,
    logValue: cells.log_value as number | null,
    own: cells.own_standard_uncertainty as number | null,
    shared: cells.shared_standard_uncertainty as number | null,
    interested: cells.interest === null ? null : cells.interest !== 'none',
    allUpMassKg: massOf(cells.all_up_mass_class as string | null),
    systematic: effects.get(cells.run_key as string) ?? [],
    asReleased: withoutEmpty(cells),
  }
}

/** The mass a class stands for; a range of classes stands for none. */
function massOf(shown: string | null): number | null {
  const classes: Readonly<Record<string, number>> = MASS_CLASSES
  return shown === null ? null : (classes[shown] ?? null)
}

function withoutEmpty(cells: ReleaseRow['cells']): ReleaseRow['cells'] {
  return Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== null))
}
