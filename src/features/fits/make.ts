import type { PoolClient } from 'pg'

import type { FitVariant } from '../../core/comparison/fit-about.ts'
import type { Quantity } from '../../core/comparison/metric.ts'
import { METHOD_VERSION, MODEL_VERSION } from '../../core/version.ts'
import { fitId } from './identity.ts'
import type { EvidenceRows, FittedModel } from './model.ts'
import {
  companionsExist,
  findRobust,
  fitExists,
  insertCompanions,
  insertFit,
} from './repository.ts'
import { selectRows } from './variants.ts'
import type { FitWorkers } from './workers.ts'

/** What makes and keeps fits. */
export interface Bench {
  readonly client: PoolClient
  readonly quantity: Quantity
  readonly workers: Pick<FitWorkers, 'fit' | 'beside'>
  stored(fit: { id: string; model: FittedModel }): void
}

/** Evidence, and what was left out of it. */
export interface Selected {
  readonly rows: EvidenceRows
  readonly variant: FitVariant
}

/**
 * Makes and stores the fit of these rows, unless it is there already. Answers rest on it from then on;
 * what {@link makeCompanions} makes comes after.
 *
 * @returns id of the fit
 */
export async function makeFit(bench: Bench, selected: Selected): Promise<string> {
  const id = idOf(bench, selected)
  if (await fitExists(bench.client, id)) return id
  await store(bench, id, await bench.workers.fit({ ...selected.rows, variant: selected.variant }))
  return id
}

/**
 * Makes what stands beside a stored fit, unless it is there already: the fit without people with an
 * interest, the robust one, and the report. All of it becomes known at once, so that an answer changes
 * once at most.
 */
export async function makeCompanions(bench: Bench, id: string, selected: Selected): Promise<void> {
  const { client, workers } = bench
  if (await companionsExist(client, id)) return
  const withoutInterested = await makeWithout(bench, id, selected)
  const { rows, variant } = selected
  const { robust, report } = await workers.beside({ ...rows, variant })
  const robustId =
    robust === null ? null : await storeRobust(bench, selected, { robust, withoutInterested, id })
  await insertCompanions(client, id, { withoutInterested, robust: robustId, report })
}

async function makeWithout(bench: Bench, id: string, { rows, variant }: Selected): Promise<string> {
  const without = { ...variant, excludeInterested: true }
  const rest = selectRows(rows, without)
  if (rest === rows) return id
  const selected = { rows: rest, variant: without }
  const other = await makeFit(bench, selected)
  await makeCompanions(bench, other, selected)
  return other
}

interface RobustOf {
  readonly robust: FittedModel
  /** The plain fit, and that without people with an interest. */
  readonly id: string
  readonly withoutInterested: string
}

/** Beside a robust fit stand itself and the robust one without people with an interest. */
async function storeRobust(
  bench: Bench,
  { rows, variant }: Selected,
  { robust, id: plainId, withoutInterested: plainWithout }: RobustOf,
): Promise<string> {
  const { client } = bench
  const id = idOf(bench, { rows, variant: { ...variant, robust: true } })
  await store(bench, id, robust)
  const without = plainWithout === plainId ? id : await findRobust(client, plainWithout)
  await insertCompanions(client, id, { withoutInterested: without, robust: id, report: null })
  return id
}

async function store(bench: Bench, id: string, model: FittedModel): Promise<void> {
  await insertFit(bench.client, { id, ...versionsOf(bench.quantity) }, model)
  bench.stored({ id, model })
}

function versionsOf(quantity: Quantity) {
  return { quantity, modelVersion: MODEL_VERSION, methodVersion: METHOD_VERSION }
}

function idOf({ quantity }: Bench, { rows, variant }: Selected): string {
  return fitId(versionsOf(quantity), rows, variant)
}
