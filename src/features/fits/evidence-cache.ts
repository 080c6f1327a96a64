import type { PoolClient } from 'pg'

import { type EvidenceRows, joinRows, type RowSlice, renameIds, toRows } from './evidence-rows.ts'
import {
  type CountedSetup,
  type CountedSubmission,
  type EvidenceScope,
  listCounted,
  readRuns,
  readSetups,
  type StoredRunRow,
} from './evidence-sql.ts'
import { readMirrored } from './mirrored.ts'

/** What counts, and the revision of each session of this server that it was read from. */
export interface ReadEvidence {
  readonly rows: EvidenceRows
  readonly revisions: ReadonlyMap<string, number>
}

/** Submissions read at once: bounds what is in memory beside the columns. */
const BATCH = 2_000

const NOTHING: EvidenceRows = joinRows([])

/**
 * The evidence in memory, brought up to date by what changed. Which submissions count, at which revision, is asked
 * in full every time; a revision and its results never change, so only those not seen before are read. Runs of
 * mirrored releases have none and change seldom: they are read in full, and follow. Merged setups are followed
 * afterwards, for a merge changes no revision. About 150 bytes a run.
 */
export class EvidenceCache<Q extends string> {
  readonly #quantities: readonly Q[]
  readonly #scope: EvidenceScope
  readonly #withMirrored: boolean
  #counted: ReadonlyMap<string, CountedSubmission> = new Map()
  #revisions: ReadonlyMap<string, number> = new Map()
  #setups: ReadonlyMap<string, CountedSetup> = new Map()
  /** Parts by what a setup counts as. */
  #parts: ReadonlyMap<string, CountedSetup['parts']> = new Map()
  readonly #submitted = new Map<Q, EvidenceRows>()
  #mirrored: ReadonlyMap<Q, EvidenceRows> = new Map()
  #updating: Promise<void> = Promise.resolve()

  constructor(
    quantities: readonly Q[],
    methodVersion: string,
    { mirrored = true }: { readonly mirrored?: boolean } = {},
  ) {
    this.#quantities = quantities
    this.#scope = { quantities, methodVersion }
    this.#withMirrored = mirrored
  }

  /**
   * Reads what changed since the last time; the first time everything. A failure leaves all as it was; updates asked
   * for at once come one after the other.
   */
  update(client: PoolClient): Promise<void> {
    this.#updating = this.#updating.catch(() => {}).then(() => this.#update(client))
    return this.#updating
  }

  async #update(client: PoolClient): Promise<void> {
    const counted = await listCounted(client)
    const added = counted.filter((submission) => !this.#isRead(submission))
    const kept = new Set(counted.map(({ id }) => id))
    for (const { id } of added) kept.delete(id)
    const fresh = await this.#read(client, added)
    const mirrored = this.#withMirrored ? await readMirrored(client, this.#scope) : []
    const setups = await readSetups(client) // last: it knows every setup of the runs above
    const allStay = kept.size === this.#counted.size
    for (const quantity of this.#quantities) {
      if (allStay && fresh.get(quantity)?.length === 0) continue
      const slices = mergeSlices(keptSlices(this.#of(quantity), kept), fresh.get(quantity) ?? [])
      this.#submitted.set(quantity, joinRows(slices))
    }
    this.#mirrored = new Map(
      this.#quantities.map((quantity) => [quantity, rowsOn(quantity, mirrored)]),
    )
    this.#counted = new Map(counted.map((submission) => [submission.id, submission]))
    this.#revisions = new Map(counted.map(({ id, revision }) => [id, revision]))
    this.#setups = setups
    this.#parts = new Map([...setups.values()].map(({ setup, parts }) => [setup, parts]))
  }

  /** The evidence on one quantity as of the last update. */
  evidence(quantity: Q): ReadEvidence {
    const rows = joined(this.#of(quantity), this.#mirrored.get(quantity) ?? NOTHING)
    const setup = renameIds(rows.setup, (id) => this.#setups.get(id)!.setup)
    const parts = Object.fromEntries(setup.ids.map((id) => [id, this.#parts.get(id)!]))
    return { rows: { ...rows, setup, parts }, revisions: this.#revisions }
  }

  #isRead({ id, revision, pilot }: CountedSubmission): boolean {
    const known = this.#counted.get(id)
    return known?.revision === revision && known.pilot === pilot
  }

  #of(quantity: Q): EvidenceRows {
    return this.#submitted.get(quantity) ?? NOTHING
  }

  async #read(
    client: PoolClient,
    submissions: readonly CountedSubmission[],
  ): Promise<Map<Q, RowSlice[]>> {
    const read = new Map<Q, RowSlice[]>(this.#quantities.map((quantity) => [quantity, []]))
    for (let first = 0; first < submissions.length; first += BATCH) {
      const runs = await readRuns(client, submissions.slice(first, first + BATCH), this.#scope)
      for (const [quantity, slices] of read) {
        const rows = rowsOn(quantity, runs)
        if (rows.y.length > 0) slices.push({ rows, from: 0, to: rows.y.length })
      }
    }
    return read
  }
}

function rowsOn(quantity: string, runs: readonly StoredRunRow[]): EvidenceRows {
  return toRows(runs.filter((run) => run.quantity === quantity))
}

/** Those submitted here, then those of mirrored releases. */
function joined(submitted: EvidenceRows, mirrored: EvidenceRows): EvidenceRows {
  if (mirrored.y.length === 0) return submitted
  return joinRows([submitted, mirrored].map((rows) => ({ rows, from: 0, to: rows.y.length })))
}

/** Stretches of rows whose sessions are kept. */
function keptSlices(rows: EvidenceRows, kept: ReadonlySet<string>): RowSlice[] {
  const stays = Uint8Array.from(rows.session.ids, (id) => (kept.has(id) ? 1 : 0))
  const slices: RowSlice[] = []
  for (let i = 0, from = 0; i <= rows.y.length; i++) {
    if (i < rows.y.length && stays[rows.session.codes[i]!] === 1) continue
    if (i > from) slices.push({ rows, from, to: i })
    from = i + 1
  }
  return slices
}

/** Two lists of slices, each by session, as one; slices are cut where the other list goes between. */
function mergeSlices(kept: readonly RowSlice[], fresh: readonly RowSlice[]): RowSlice[] {
  if (kept.length === 0) return [...fresh]
  const bySession = [...kept, ...fresh.flatMap(onePerSession)].sort(bySessionOfFirst)
  const merged: RowSlice[] = []
  let rest = null as RowSlice | null // of a kept slice that a fresh one may cut
  for (const slice of bySession) {
    if (rest !== null) {
      const cut = firstRowFrom(rest, sessionAt(slice))
      if (cut > rest.from) merged.push({ ...rest, to: cut })
      rest = cut < rest.to ? { ...rest, from: cut } : null
    }
    if (rest === null) rest = slice
    else merged.push(slice)
  }
  if (rest !== null) merged.push(rest)
  return merged
}

function bySessionOfFirst(a: RowSlice, b: RowSlice): number {
  return sessionAt(a) < sessionAt(b) ? -1 : 1
}

function sessionAt({ rows, from }: RowSlice): string {
  return rows.session.ids[rows.session.codes[from]!]!
}

/** First row of the slice whose session is not before that one. */
function firstRowFrom({ rows, from, to }: RowSlice, session: string): number {
  let low = from
  let high = to
  while (low < high) {
    const middle = (low + high) >> 1
    if (rows.session.ids[rows.session.codes[middle]!]! < session) low = middle + 1
    else high = middle
  }
  return low
}

function onePerSession({ rows, from, to }: RowSlice): RowSlice[] {
  const slices: RowSlice[] = []
  for (let i = from + 1, first = from; i <= to; i++) {
    if (i < to && rows.session.codes[i] === rows.session.codes[first]) continue
    slices.push({ rows, from: first, to: i })
    first = i
  }
  return slices
}
