import { ApiProblem } from '../contract/problems.ts'
import { type FitSiblings, type FitVariant, PLAIN } from '../core/comparison/fit-about.ts'
import type { FitView } from '../core/comparison/fit-view.ts'
import type { Quantity } from '../core/comparison/metric.ts'
import { restoreFit, type StoredFitHeader, viewOf } from '../core/comparison/stored-fit.ts'
import type { SetupWeight } from '../core/mixed/contrasts.ts'
import { nextSessionDifference } from '../core/mixed/heterogeneity.ts'
import { nextSessionSpread, type Spread } from '../core/mixed/next-session.ts'
import { plannedSessionVariance } from '../core/mixed/planned-session.ts'
import type { Database } from './client.ts'

/** A fit ready to be asked. */
export interface LoadedFit {
  readonly id: string
  readonly quantity: Quantity
  readonly view: FitView
  /** Spread of a further session, by a pilot not seen before; asked only of setups with evidence. */
  nextSession(setup: string): Spread
  /** Spread of a difference as a further session shows it; asked only of setups with evidence. */
  nextDifference(weights: readonly SetupWeight[]): Spread
  /** Variance of a difference that one further session of so many runs of each setup shows; null: not known. */
  sessionVariance(weights: readonly SetupWeight[], runs: number): number | null
  readonly variant: FitVariant
  /** Null: not made yet. Made once; from then on all that is said beside the fit stays as it is. */
  readonly siblings: FitSiblings | null
  /** Setups with evidence. */
  readonly setupIds: readonly string[]
  /** Sessions by people with an interest, by setup. */
  readonly interestedSessions: ReadonlyMap<string, number>
}

/** Fits kept unpacked: each is immutable, and nearly all questions go to the newest few. */
const KEPT = 32

/** Fits of this process that nobody asked for yet, the newest few: 20 MB each with a thousand setups. */
const KEPT_PACKED = 4

/** Loads fits and keeps the last few unpacked. */
export class FitStore {
  readonly #db: Database
  readonly #kept = new Map<string, LoadedFit>()
  readonly #packed = new Map<string, StoredFit>()

  constructor(db: Database) {
    this.#db = db
  }

  /**
   * The fit asked for, or the current one of that quantity.
   *
   * @throws {ApiProblem} not-ready before the first fit, not-found for an id that is no fit of that quantity
   */
  async load(quantity: Quantity, fitId: string | undefined): Promise<LoadedFit> {
    const id = fitId ?? (await findCurrentFitId(this.#db, quantity))
    if (id === null) throw new ApiProblem('not-ready', { detail: 'The first fit is not done yet.' })
    const loaded = await this.find(id)
    if (loaded === null || loaded.quantity !== quantity) {
      throw new ApiProblem('not-found', { detail: `There is no fit ${id} of ${quantity}.` })
    }
    return loaded
  }

  /** The fit with that id, of whatever quantity, or null. */
  async find(id: string): Promise<LoadedFit | null> {
    const kept = this.#kept.get(id)
    if (kept !== undefined) return kept.siblings === null ? this.#lookAgain(kept) : kept
    const stored = this.#unwrap(id) ?? (await findFit(this.#db, id))
    return stored === null ? null : this.#keep(stored)
  }

  /** Takes a fit that this process has just stored, so that it need not be read back. */
  take(stored: StoredFit): void {
    this.#packed.set(stored.id, stored)
    dropOldest(this.#packed, KEPT_PACKED)
  }

  /** One that was taken, as the database would give it. */
  #unwrap(id: string): StoredFit | null {
    const stored = this.#packed.get(id)
    if (stored === undefined) return null
    this.#packed.delete(id)
    return { ...stored, header: JSON.parse(JSON.stringify(stored.header)) }
  }

  async #lookAgain(lone: LoadedFit): Promise<LoadedFit> {
    const siblings = await findSiblings(this.#db, lone.id)
    if (siblings === null) return lone
    const loaded = { ...lone, siblings }
    if (this.#kept.has(lone.id)) this.#kept.set(lone.id, loaded)
    return loaded
  }

  async #keep(stored: StoredFit): Promise<LoadedFit> {
    const quantity = stored.quantity as Quantity
    const siblings = await findSiblings(this.#db, stored.id)
    const loaded = { id: stored.id, quantity, siblings, ...unpack(stored) }
    this.#kept.set(stored.id, loaded)
    dropOldest(this.#kept, KEPT)
    return loaded
  }
}

function dropOldest(kept: Map<string, unknown>, most: number): void {
  const oldest = kept.keys().next().value
  if (kept.size > most && oldest !== undefined) kept.delete(oldest)
}

function unpack({ header, numbers }: StoredFit): Omit<LoadedFit, 'id' | 'quantity' | 'siblings'> {
  const bytes = new Uint8Array(numbers) // a copy: the driver's slice need not be aligned for doubles
  const whole = restoreFit({
    header: header as StoredFitHeader,
    numbers: new Float64Array(bytes.buffer),
  })
  const { about } = header as StoredFitHeader
  const setupIds = whole.fit.setups
  const view = viewOf(whole)
  return {
    view,
    nextSession(setup) {
      const { standardError } = view.contrast([{ setup, weight: 1 }])
      return nextSessionSpread(whole.fit, setup, standardError)
    },
    nextDifference: (weights) =>
      nextSessionDifference(whole.fit, weights, view.contrast(weights).standardError),
    sessionVariance: (weights, runs) =>
      plannedSessionVariance(whole.fit, weights, {
        runs,
        knownVariance: about?.meanKnownVariance ?? 0,
      }),
    variant: about?.variant ?? PLAIN,
    setupIds,
    interestedSessions: new Map(setupIds.map((id, k) => [id, whole.interestedSessions[k]!])),
  }
}

/** A fit as it is stored. */
export interface StoredFit {
  readonly id: string
  readonly quantity: string
  readonly header: unknown
  readonly numbers: Uint8Array
}

/** Id of the fit that answers rest on now, or null before the first one. */
async function findCurrentFitId(db: Database, quantity: Quantity): Promise<string | null> {
  const { rows } = await db.pool.query<{ fit_id: string }>(
    'SELECT fit_id FROM current_fit WHERE quantity = $1',
    [quantity],
  )
  return rows[0]?.fit_id ?? null
}

/** A stored fit with its numbers, or null. */
async function findFit(db: Database, id: string): Promise<StoredFit | null> {
  return db.prisma.fit.findUnique({
    where: { id },
    select: { id: true, quantity: true, header: true, numbers: true },
  })
}

/** Other fits of the same evidence, or null before they are made. */
async function findSiblings(db: Database, id: string): Promise<FitSiblings | null> {
  const { rows } = await db.pool.query<FitSiblings>(
    `SELECT without_interested_id AS "withoutInterested", robust_id AS robust
       FROM fit_companion WHERE fit_id = $1`,
    [id],
  )
  return rows[0] ?? null
}
