import type { PoolClient } from 'pg'

import { type FitVariant, PLAIN } from '../../core/comparison/fit-about.ts'
import type { Quantity } from '../../core/comparison/metric.ts'
import { METHOD_VERSION, MODEL_VERSION } from '../../core/version.ts'
import { fitId } from './identity.ts'
import type { EvidenceRows, FitTask, FittedModel } from './model.ts'
import { fitExists, insertFit } from './repository.ts'
import { selectRows } from './variants.ts'

/** What makes and keeps fits. */
export interface Bench {
  readonly client: PoolClient
  readonly quantity: Quantity
  /** Makes a fit in a worker thread. */
  run(task: FitTask): Promise<FittedModel>
  stored(fit: { id: string; model: FittedModel }): void
}

/**
 * Makes and stores the fit of these rows with its siblings, unless it is there already: the fit without
 * interested people and the robust one are stored first, so that a fit names only fits that exist.
 *
 * @param bench where
 * @param rows all evidence that counts for this fit
 * @param variant what was left out of the rows
 * @returns id of the fit
 */
export async function makeFit(
  bench: Bench,
  rows: EvidenceRows,
  variant: FitVariant = PLAIN,
): Promise<string> {
  const id = idOf(bench, rows, false)
  if (await fitExists(bench.client, id)) return id
  const withoutInterested = await makeWithout(bench, { rows, variant, id })
  const robust = variant.excludeInterested ? null : await makeRobust(bench, rows, variant)
  const model = await bench.run({ ...rows, variant })
  await store(bench, { id, model, siblings: { withoutInterested, robust } })
  return id
}

async function makeWithout(
  bench: Bench,
  { rows, variant, id }: { rows: EvidenceRows; variant: FitVariant; id: string },
): Promise<string> {
  const without = { ...variant, excludeInterested: true }
  const rest = selectRows(rows, without)
  return rest === rows ? id : makeFit(bench, rest, without)
}

/** Id of the robust fit, or null where it cannot be made. */
async function makeRobust(
  bench: Bench,
  rows: EvidenceRows,
  variant: FitVariant,
): Promise<string | null> {
  const id = idOf(bench, rows, true)
  if (await fitExists(bench.client, id)) return id
  const model = await bench.run({ ...rows, variant: { ...variant, robust: true } })
  if (model.header.about?.variant.robust !== true) return null
  await store(bench, { id, model, siblings: { withoutInterested: null, robust: id } })
  return id
}

interface Made {
  readonly id: string
  readonly model: FittedModel
  readonly siblings: { readonly withoutInterested: string | null; readonly robust: string | null }
}

async function store(bench: Bench, { id, model, siblings }: Made): Promise<void> {
  const { about } = model.header
  const header =
    about === undefined ? model.header : { ...model.header, about: { ...about, siblings } }
  await insertFit(bench.client, { id, ...versionsOf(bench.quantity) }, { ...model, header })
  bench.stored({ id, model })
}

function versionsOf(quantity: Quantity) {
  return { quantity, modelVersion: MODEL_VERSION, methodVersion: METHOD_VERSION }
}

function idOf({ quantity }: Bench, rows: EvidenceRows, robust: boolean): string {
  return fitId(versionsOf(quantity), rows, robust)
}
