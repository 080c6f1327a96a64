import { createHash, randomUUID } from 'node:crypto'

import type { PoolClient } from 'pg'
import type { Progress } from '../../../contract/progress.ts'
import type { FitVariant } from '../../../core/comparison/fit-about.ts'
import { QUANTITIES, type Quantity } from '../../../core/comparison/metric.ts'
import { METHOD_VERSION, MODEL_VERSION } from '../../../core/version.ts'
import { LOCKS } from '../../../db/advisory-lock.ts'
import type { Database } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'
import { layoutOf } from '../entries/entries-sql.ts'
import { collectLateEntries, prepareEntries } from '../entries/prepare.ts'
import { RUNS_PER_METRIC, runsSelect, systematicSelect } from '../entries/runs-select.ts'
import { csvOf } from '../files/csv.ts'
import type { MakeRowGroups } from '../files/parquet.ts'
import type { StoredFile } from '../files/store.ts'
import { anonymise } from '../privacy/anonymise.ts'
import type { Anonymity } from '../privacy/anonymity.ts'
import type { Tables } from '../tables/tables.ts'
import { aggregateRows, type RankInThread } from './aggregate-rows.ts'
import { type CatalogueRows, readCatalogue } from './catalogue-rows.ts'
import { changesSince } from './changes.ts'
import { storeDocuments } from './documents.ts'
import { dayOf, FORMAT_VERSION, type ReleaseFacts } from './facts.ts'
import {
  RELEASED_VARIANTS,
  type ReleasedFit,
  type SnapshotFit,
  unpackFits,
} from './released-fits.ts'
import { countReleasesOf, findLatestRelease, insertRelease, type Release } from './repository.ts'
import { effectRows, fitRows } from './result-rows.ts'
import { blocksOfRows, copyBlocks, storeTable } from './tables-to-files.ts'

/** What a release is made with. */
export interface Workshop {
  readonly db: Database
  readonly tables: Tables
  /** Reads what that transaction sees, and gives what makes fits of it. */
  readonly fitsIn: (client: PoolClient) => Promise<MakeFits>
  readonly rank: RankInThread
  readonly makeGroups: MakeRowGroups
}

/** Makes the fits of some variants of one quantity; null where a variant has no evidence. */
export type MakeFits = (
  quantity: Quantity,
  variants: readonly FitVariant[],
) => Promise<(SnapshotFit | null)[]>

export type Outcome = { readonly releaseId: string; readonly state: 'published' | 'unchanged' }

/**
 * Makes a release of the evidence of this moment: one snapshot for all files, everything published
 * by one commit or nothing. The same evidence as in the latest release makes no new one.
 */
export async function makeRelease(workshop: Workshop, progress: Progress): Promise<Outcome> {
  await prepareEntries(workshop.db, workshop.tables)
  return inTransaction(workshop.db, async (store) => {
    await store.query('SELECT pg_advisory_xact_lock($1)', [LOCKS.release])
    return inTransaction(workshop.db, async (source) => {
      await source.query('SET TRANSACTION ISOLATION LEVEL REPEATABLE READ')
      return publish(workshop, { source, store, progress })
    })
  })
}

interface Work {
  /** Holds the snapshot. */
  readonly source: PoolClient
  /** Holds what becomes visible at the end. */
  readonly store: PoolClient
  readonly progress: Progress
}

async function publish(workshop: Workshop, work: Work): Promise<Outcome> {
  const { source, store, progress } = work
  await progress(0.02, 'drawing keys and classes')
  const { rows } = await source.query<{ now: Date }>('SELECT now()')
  await collectLateEntries(source, workshop.tables)
  const keys = { layout: layoutOf(workshop.tables), salt: randomUUID() }
  const anonymity = await anonymise(source, keys)
  const catalogue = await readCatalogue(source)
  const fits = await fitAll(workshop, source, progress)
  const evidenceId = evidenceIdOf(workshop.tables, fits, catalogue)
  const latest = await findLatestRelease(store)
  if (latest?.evidenceId === evidenceId) return { releaseId: latest.id, state: 'unchanged' }
  const known = { snapshotAt: rows[0]!.now, anonymity, fits, catalogue, latest }
  const facts = await factsOf(store, known)
  const data = await storeData(workshop, work, { fits, catalogue })
  await progress(0.95, 'describing')
  const documents = await storeDocuments(store, facts, workshop.tables, data)
  const { id, number, snapshotAt, ...summary } = facts
  const digest = documents.at(-1)!.sha256
  await insertRelease(store, { id, number, snapshotAt, summary, digest, evidenceId }, [
    ...documents.slice(0, -1).sort(readFirst),
    ...data,
    documents.at(-1)!,
  ])
  return { releaseId: id, state: 'published' }
}

const FIRST = ['README.md', 'datapackage.json']
const readFirst = (a: StoredFile, b: StoredFile) =>
  Number(FIRST.includes(b.name)) - Number(FIRST.includes(a.name))

/** The fits of all quantities that have evidence in the snapshot. */
async function fitAll(
  { fitsIn }: Workshop,
  source: PoolClient,
  progress: Progress,
): Promise<ReleasedFit[]> {
  await progress(0.03, 'reading the evidence')
  const makeFits = await fitsIn(source)
  const fits: ReleasedFit[] = []
  for (const [index, quantity] of QUANTITIES.entries()) {
    await progress(0.1 + (0.3 * index) / QUANTITIES.length, `fitting ${quantity}`)
    const variants = RELEASED_VARIANTS.map(({ fit }) => fit)
    const [plain, ...others] = await makeFits(quantity, variants)
    if (plain) fits.push(unpackFits(quantity, plain, others))
  }
  await requireSameRuns(source, fits)
  return fits
}

/**
 * The runs of the files must be those of the fits: what counts is decided in two places.
 *
 * @throws {Error} where a metric has more or fewer of them in one place; a release that cannot be
 *   reproduced is not published
 */
async function requireSameRuns(source: PoolClient, fits: readonly ReleasedFit[]): Promise<void> {
  const { rows } = await source.query<{ metric: string; runs: number }>(RUNS_PER_METRIC)
  const inFiles = new Map(rows.map(({ metric, runs }) => [metric, runs]))
  const inFits = new Map<string, number>(fits.map(({ quantity, runs }) => [quantity, runs]))
  for (const metric of new Set([...inFiles.keys(), ...inFits.keys()])) {
    const [written, fitted] = [inFiles.get(metric) ?? 0, inFits.get(metric) ?? 0]
    if (written !== fitted) {
      throw new Error(`${metric}: the files would hold ${written} runs, the fit has ${fitted}`)
    }
  }
}

/** The same evidence, catalogue and versions have the same id; keys and dates do not take part. */
function evidenceIdOf(
  { all }: Tables,
  fits: readonly ReleasedFit[],
  { setups, components }: CatalogueRows,
): string {
  return createHash('sha256')
    .update(`${FORMAT_VERSION}\n${METHOD_VERSION}\n${MODEL_VERSION}\n`)
    .update(JSON.stringify(all))
    .update(fits.map(({ id }) => id).join(' '))
    .update(csvOf(all.setups.columns, setups))
    .update(csvOf(all.components.columns, components))
    .digest('hex')
}

async function factsOf(
  store: PoolClient,
  known: {
    readonly snapshotAt: Date
    readonly anonymity: Anonymity
    readonly fits: readonly ReleasedFit[]
    readonly catalogue: CatalogueRows
    readonly latest: Release | null
  },
): Promise<ReleaseFacts> {
  const { snapshotAt, anonymity, fits, catalogue, latest } = known
  const day = dayOf({ snapshotAt })
  const content = {
    methodVersion: METHOD_VERSION,
    modelVersion: MODEL_VERSION,
    fits: fits.map(({ quantity, id, runs }) => ({ metric: quantity, fitId: id, runs })),
    setups: catalogue.setups.length,
    anonymity,
  }
  return {
    id: `${day}.${(await countReleasesOf(store, day)) + 1}`,
    number: (latest?.number ?? 0) + 1,
    snapshotAt,
    ...content,
    changes: changesSince(latest, content),
  }
}

/** Every table as CSV and Parquet. */
async function storeData(
  { tables: { all }, rank, makeGroups }: Workshop,
  { source, store, progress }: Work,
  { fits, catalogue }: { readonly fits: readonly ReleasedFit[]; readonly catalogue: CatalogueRows },
): Promise<StoredFile[]> {
  const making = { client: store, makeGroups }
  await progress(0.4, 'writing runs')
  const runs = await storeTable(making, all.runs, copyBlocks(source, runsSelect()))
  await progress(0.75, 'writing systematic effects')
  const systematic = await storeTable(
    making,
    all.systematic,
    copyBlocks(source, systematicSelect()),
  )
  await progress(0.85, 'writing results')
  const rows = {
    setups: catalogue.setups,
    components: catalogue.components,
    aggregates: await aggregateRows(fits, catalogue.facts, rank),
    effects: fits.flatMap(effectRows),
    fit: fits.flatMap(fitRows),
  }
  const files = [...runs, ...systematic]
  for (const name of ['setups', 'components', 'aggregates', 'effects', 'fit'] as const) {
    const table = all[name]
    files.push(...(await storeTable(making, table, blocksOfRows(table.columns, rows[name]))))
  }
  return files
}
