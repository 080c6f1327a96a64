import { setImmediate as nextTurn } from 'node:timers/promises'

import type { PoolClient } from 'pg'
import type { z } from 'zod'

import { ApiProblem } from '../../../contract/problems.ts'
import type { Progress } from '../../../contract/progress.ts'
import { type Fault, faultyFile, refuseFaults } from '../csv/faults.ts'
import type { Sheet } from '../csv/sheet.ts'
import type { SubmissionPort } from '../ports.ts'
import type { RowWarning } from '../schema.ts'
import type { NotebookColumn } from './columns.ts'
import { SessionDraft } from './draft.ts'
import { setupsOfRows, textOf } from './equipment.ts'
import { columnsInOrder } from './header.ts'
import { Wording } from './issues.ts'
import { type NotebookRow, readRows } from './rows.ts'

/** Rows of one notebook at most; a longer one comes in parts. */
export const MAX_ROWS = 20_000

/** Letters of a label at most. */
const MAX_LABEL_LENGTH = 200

/** Sessions between two turns of the event loop. */
const SESSIONS_PER_TURN = 20

/** A session that may be stored. */
export interface CheckedSession {
  readonly label: string
  readonly pilot: string | null
  readonly rows: readonly number[]
  readonly body: unknown
  readonly normalised: unknown
}

export interface CheckedNotebook {
  readonly sessions: readonly CheckedSession[]
  readonly warnings: readonly RowWarning[]
}

/** What a notebook is checked with. */
export interface NotebookDesk {
  readonly client: PoolClient
  readonly columns: readonly NotebookColumn[]
  readonly submissions: SubmissionPort
  readonly progress: Progress
}

/**
 * Makes submissions of the rows and checks them as if each had been posted: shapes, limits, setups and
 * what the normalisation refuses.
 *
 * @throws {ApiProblem} faulty-file, with every fault of every row
 */
export async function checkNotebook(desk: NotebookDesk, sheet: Sheet): Promise<CheckedNotebook> {
  const faults: Fault[] = []
  const columns = columnsInOrder(sheet, desk.columns)
  refuseLength(sheet)
  const rows = readRows(sheet, columns, faults)
  const drafts = await draftsOf(desk, sheet, { rows, faults })
  const wording = new Wording(desk.columns, sheet.part)
  const sessions: CheckedSession[] = []
  const warnings: RowWarning[] = []
  for (const [index, draft] of drafts.entries()) {
    if (index % SESSIONS_PER_TURN === 0) await nextTurn()
    await desk.progress(index / drafts.length, `checking session ${index + 1} of ${drafts.length}`)
    const checked = await checkSession(desk, { draft, wording, faults })
    if (checked === null) continue
    const { label, pilot } = draft
    sessions.push({ label, pilot, rows: draft.rows(), ...checked })
    for (const { pointer, code, detail } of desk.submissions.warningsOf(checked.normalised)) {
      const place = wording.atPointer(draft, pointer, detail)
      warnings.push({ row: place.row!, column: place.column!, code, detail: place.detail })
    }
  }
  refuseFaults(faults)
  return { sessions, warnings: warnings.sort((a, b) => a.row - b.row) }
}

function refuseLength({ rows, part }: Sheet): void {
  if (rows.length === 0) {
    throw faultyFile([{ file: part, row: 2, detail: 'The file has a header and no rows.' }])
  }
  if (rows.length <= MAX_ROWS) return
  throw new ApiProblem('payload-too-large', {
    detail: `The notebook has ${rows.length} rows; ${MAX_ROWS} are taken at once. Nothing was imported.`,
  })
}

/** Rows of one name and pilot together, in the order of their first rows. */
async function draftsOf(
  { client }: Pick<NotebookDesk, 'client'>,
  { part }: Sheet,
  { rows, faults }: { readonly rows: readonly NotebookRow[]; readonly faults: Fault[] },
): Promise<SessionDraft[]> {
  const setups = await setupsOfRows(client, rows, { faults, part })
  const drafts = new Map<string, SessionDraft>()
  rows.forEach((row, index) => {
    const label = textOf(row, 'session')
    const pilot = textOf(row, 'pilot')
    const found = labelFaults(row, { session: label, pilot })
    if (label === null || found.length > 0) {
      faults.push(...found.map((fault) => ({ file: part, ...fault })))
      return
    }
    const key = JSON.stringify([label, pilot])
    const draft = drafts.get(key) ?? new SessionDraft(label, pilot, row.number)
    drafts.set(key, draft)
    faults.push(...draft.add(row, setups[index]!).map((fault) => ({ file: part, ...fault })))
  })
  return [...drafts.values()]
}

function labelFaults(
  { number }: NotebookRow,
  labels: Readonly<Record<'session' | 'pilot', string | null>>,
): Fault[] {
  const fault = (column: string, detail: string): Fault => ({ row: number, column, detail })
  return [
    ...(labels.session === null
      ? [fault('session', 'Is needed: which session the run belongs to.')]
      : []),
    ...Object.entries(labels)
      .filter(([, label]) => (label?.length ?? 0) > MAX_LABEL_LENGTH)
      .map(([column]) => fault(column, `Is longer than ${MAX_LABEL_LENGTH} characters.`)),
  ]
}

/** The body and its results, or null where faults were found. */
async function checkSession(
  { submissions, client }: NotebookDesk,
  { draft, wording, faults }: { draft: SessionDraft; wording: Wording; faults: Fault[] },
): Promise<{ body: unknown; normalised: unknown } | null> {
  const parsed = submissions.schema.safeParse(draft.body(), { reportInput: true })
  if (!parsed.success) {
    faults.push(...newIssues(parsed.error.issues, draft, wording, faults))
    return null
  }
  if (draft.isBroken) return null
  try {
    return { body: parsed.data, normalised: await submissions.check(client, parsed.data) }
  } catch (error) {
    if (!(error instanceof ApiProblem) || error.extra.errors === undefined) throw error
    for (const { pointer, detail } of error.extra.errors) {
      faults.push(wording.atPointer(draft, pointer, detail))
    }
    return null
  }
}

/** A cell that could not be read, or a setup that is unknown, is told once and not as missing again. */
function newIssues(
  issues: readonly z.core.$ZodIssue[],
  draft: SessionDraft,
  wording: Wording,
  faults: readonly Fault[],
): Fault[] {
  const isUnknownSetup = ({ path, input }: z.core.$ZodIssue) =>
    path.at(-1) === 'setupId' && input === undefined
  const found = issues
    .filter((issue) => !draft.isBroken || !isUnknownSetup(issue))
    .flatMap((issue) => wording.ofIssue(draft, issue))
  const told = new Set(faults.map(({ row, column }) => `${row} ${column}`))
  return found.filter(({ row, column }) => !told.has(`${row} ${column}`))
}
