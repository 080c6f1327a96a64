import { OutOfRangeError } from '../../errors.ts'
import { InvalidLayoutError } from './invalid-layout-error.ts'

/** One run as the model sees it. Ids are compared as strings, case and all. */
export interface Observation {
  /** Normalised result of the run, for example the logarithm of a climb rate [any unit]. */
  readonly y: number
  /** Known standard uncertainty of y, k = 1 [unit of y], 0 when nothing is known. */
  readonly u: number
  readonly setup: string
  readonly session: string
  readonly pilot: string
}

/** The same, column by column, for large data sets: code n stands for the n-th id of its kind. */
export interface ObservationColumns {
  readonly y: Float64Array
  readonly u: Float64Array
  readonly setup: Int32Array
  readonly session: Int32Array
  readonly pilot: Int32Array
  readonly setupIds: readonly string[]
  readonly sessionIds: readonly string[]
  readonly pilotIds: readonly string[]
}

/** Codes 0, 1, 2 … for strings in the order in which they are first met. */
class IdTable {
  readonly ids: string[] = []
  private readonly codeOf = new Map<string, number>()

  code(id: string): number {
    const known = this.codeOf.get(id)
    if (known !== undefined) return known
    this.codeOf.set(id, this.ids.length)
    return this.ids.push(id) - 1
  }
}

/**
 * Turns rows into columns; the order of the rows is kept.
 *
 * @param observations one entry per run
 * @returns the same runs as typed arrays with ids in the order they were first met
 * @source common practice
 */
export function toColumns(observations: readonly Observation[]): ObservationColumns {
  const n = observations.length
  const setups = new IdTable()
  const sessions = new IdTable()
  const pilots = new IdTable()
  const columns = {
    y: new Float64Array(n),
    u: new Float64Array(n),
    setup: new Int32Array(n),
    session: new Int32Array(n),
    pilot: new Int32Array(n),
  }
  for (let i = 0; i < n; i++) {
    const row = observations[i]!
    columns.y[i] = row.y
    columns.u[i] = row.u
    columns.setup[i] = setups.code(row.setup)
    columns.session[i] = sessions.code(row.session)
    columns.pilot[i] = pilots.code(row.pilot)
  }
  return { ...columns, setupIds: setups.ids, sessionIds: sessions.ids, pilotIds: pilots.ids }
}

/**
 * Refuses columns the model cannot work with.
 *
 * @param columns runs; y finite, u finite and at least 0, codes inside their id lists
 * @throws {OutOfRangeError} if a y is not finite, or a u is negative or not finite
 * @throws {InvalidLayoutError} if columns differ in length, a code has no id or an id is repeated
 * @source common practice
 */
export function checkColumns(columns: ObservationColumns): void {
  const { y, u } = columns
  for (const name of ['u', 'setup', 'session', 'pilot'] as const) {
    if (columns[name].length !== y.length) {
      throw new InvalidLayoutError(
        `the column ${name} has ${columns[name].length} entries where y has ${y.length}`,
      )
    }
  }
  for (let i = 0; i < y.length; i++) {
    if (!Number.isFinite(y[i])) {
      throw new OutOfRangeError(`y of run ${i}`, y[i]!, -Number.MAX_VALUE, Number.MAX_VALUE)
    }
    if (!(u[i]! >= 0 && u[i]! < Infinity)) {
      throw new OutOfRangeError(`u of run ${i}`, u[i]!, 0, Number.MAX_VALUE)
    }
  }
  checkCodes('setup', columns.setup, columns.setupIds)
  checkCodes('session', columns.session, columns.sessionIds)
  checkCodes('pilot', columns.pilot, columns.pilotIds)
}

function checkCodes(kind: string, codes: Int32Array, ids: readonly string[]): void {
  if (new Set(ids).size !== ids.length) {
    throw new InvalidLayoutError(`the list of ${kind} ids holds an id twice`)
  }
  for (let i = 0; i < codes.length; i++) {
    const code = codes[i]!
    if (code < 0 || code >= ids.length) {
      throw new InvalidLayoutError(`run ${i} has ${kind} code ${code}, which has no id`)
    }
  }
}
