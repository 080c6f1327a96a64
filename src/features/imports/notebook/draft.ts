import type { Fault } from '../csv/faults.ts'
import type { FieldPath, NotebookColumn } from './columns.ts'
import { type NamedSetup, textOf } from './equipment.ts'
import { columnNameOf } from './leaves.ts'
import type { NotebookRow } from './rows.ts'

/** A place of the file. */
export interface Place {
  readonly row: number
  readonly column?: string | undefined
}

/** A value that several rows may repeat, and the row that gave it. */
type Given = Map<string, { readonly value: unknown; readonly row: number }>

interface RunDraft {
  readonly row: number
  readonly fields: Record<string, unknown>
}

interface EntryDraft {
  readonly row: number
  readonly byParts: boolean
  readonly fields: Record<string, unknown>
  readonly given: Given
  readonly runs: RunDraft[]
}

/** Rows of one session and pilot, on the way to the body of a submission. */
export class SessionDraft {
  readonly label: string
  /** Null: the account itself. */
  readonly pilot: string | null
  readonly row: number
  /** A fault was found already; then the body is not whole. */
  isBroken = false
  readonly #fields: Record<string, unknown> = { site: {}, conditions: {}, pilot: {}, wing: {} }
  readonly #given: Given = new Map()
  readonly #entries = new Map<string, EntryDraft>()

  constructor(label: string, pilot: string | null, row: number) {
    this.label = label
    this.pilot = pilot
    this.row = row
  }

  /** Takes in one more run; gives what contradicts the rows before. */
  add(row: NotebookRow, setup: NamedSetup): Fault[] {
    if (row.broken.size > 0 || setup.setupId === null) this.isBroken = true
    const entry = this.#entryOf(row, setup)
    const run: RunDraft = { row: row.number, fields: {} }
    entry.runs.push(run)
    const faults: Fault[] = []
    for (const [column, value] of row.values) {
      if (column.level === 'run') put(run.fields, column.path, value)
      if (column.name === 'setup_id') continue // the entry is that of the setup
      if (column.level === 'session')
        faults.push(...take(this.#given, this.#fields, { column, value, row }))
      if (column.level === 'entry')
        faults.push(...take(entry.given, entry.fields, { column, value, row }))
    }
    faults.push(...gapsIn(run))
    if (faults.length > 0) this.isBroken = true
    return faults
  }

  /** The body as it would be posted. */
  body(): unknown {
    const entries = [...this.#entries.values()].map(({ fields, runs }) => ({
      ...fields,
      runs: runs.map((run) => run.fields),
    }))
    return { ...this.#fields, entries }
  }

  rows(): number[] {
    return [...this.#entries.values()].flatMap(({ runs }) => runs.map(({ row }) => row))
  }

  /** Where a path into the body stands in the file. */
  placeOf(path: FieldPath): Place {
    const entry = [...this.#entries.values()][Number(path[1])]
    if (path[0] !== 'entries' || entry === undefined) return inGiven(this.#given, path, this.row)
    const run = path[2] === 'runs' ? entry.runs[Number(path[3])] : undefined
    if (run !== undefined) return { row: run.row, column: columnNameOf(path.slice(4)) || 'kind' }
    if (path[2] === 'setupId') {
      return { row: entry.row, column: entry.byParts ? 'powerplant_model' : 'setup_id' }
    }
    return inGiven(entry.given, path[2] === 'runs' ? [] : path.slice(2), entry.row)
  }

  #entryOf(row: NotebookRow, { setupId, byParts }: NamedSetup): EntryDraft {
    const key = setupId?.toLowerCase() ?? `row ${row.number}`
    const known = this.#entries.get(key)
    if (known !== undefined) return known
    const fields = setupId === null ? {} : { setupId }
    const entry = { row: row.number, byParts, fields, given: new Map(), runs: [] }
    this.#entries.set(key, entry)
    return entry
  }
}

function inGiven(given: Given, path: FieldPath, row: number): Place {
  const column = columnNameOf(path) || 'session'
  return { row: given.get(column)?.row ?? row, column }
}

interface Cell {
  readonly column: NotebookColumn
  readonly value: unknown
  readonly row: NotebookRow
}

/** What one row of a session says holds for all; another value is a contradiction. */
function take(
  given: Given,
  fields: Record<string, unknown>,
  { column, value, row }: Cell,
): Fault[] {
  const { name, path } = column
  const before = given.get(name)
  if (before === undefined) {
    given.set(name, { value, row: row.number })
    put(fields, path, value)
    return []
  }
  if (before.value === value) return []
  const whose =
    column.level === 'entry'
      ? `this setup in session ${textOf(row, 'session')}`
      : `session ${textOf(row, 'session')}`
  const detail = `${value} here, but ${before.value} in row ${before.row} of ${whose}: it is one for all its rows.`
  return [{ row: row.number, column: name, detail }]
}

/** Items of a list are numbered without gaps. */
function gapsIn({ fields, row }: RunDraft): Fault[] {
  return Object.entries(fields).flatMap(([field, list]) => {
    if (!Array.isArray(list)) return []
    const gap = Array.from(list).indexOf(undefined)
    if (gap === -1) return []
    const column = columnNameOf([field, gap])
    return [{ row, column, detail: `${columnNameOf([field])} are numbered without gaps.` }]
  })
}

/** Writes a value at a path, making the objects and lists on the way. */
function put(target: Record<string, unknown>, path: FieldPath, value: unknown): void {
  let at: Record<string | number, unknown> = target
  path.slice(0, -1).forEach((part, index) => {
    at[part] ??= typeof path[index + 1] === 'number' ? [] : {}
    at = at[part] as Record<string | number, unknown>
  })
  at[path.at(-1)!] = value
}
