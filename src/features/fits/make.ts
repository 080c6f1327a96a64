import type { PoolClient } from 'pg'

import type { FitVariant } from '../../core/comparison/fit-about.ts'
import type { Quantity } from '../../core/comparison/metric.ts'
import type { PerComponent } from '../../core/mixed/components.ts'
import { METHOD_VERSION, MODEL_VERSION } from '../../core/version.ts'
import type { EvidenceRows } from './evidence-rows.ts'
import { fitId } from './identity.ts'
import type { FittedModel } from './model.ts'
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
  readonly workers: Pick<FitWorkers, 'fit'>
  stored(fit: { id: string; model: FittedModel }): void
}

/** The same for what stands beside a fit. */
export interface CompanionBench extends Bench {
  readonly workers: FitWorkers['behind']
}

/** Evidence, what was left out of it, and where its fit starts: null from the data. */
export interface Selected {
  readonly rows: EvidenceRows
  readonly variant: FitVariant
  readonly start: PerComponent<number> | null
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
  const { rows, variant, start } = selected
  await store(bench, id, await bench.workers.fit({ ...rows, variant, start }))
  return id
}

/**
 * Makes what stands beside a stored fit, unless it is there already: the fit without people with an
 * interest, the robust one, and the report. All of it becomes known at once, so that an answer changes
 * once at most.
 */
export async function makeCompanions(
  bench: CompanionBench,
  id: string,
  selected: Selected,
): Promise<void> {
  const { client, workers } = bench
  if (await companionsExist(client, id)) return
  const withoutInterested = await makeWithout(bench, id, selected)
  const { rows, variant, start } = selected
  const { robust, report } = await workers.beside({ ...rows, variant, start })
  const robustId =
    robust === null ? null : await storeRobust(bench, selected, { robust, withoutInterested, id })
  await insertCompanions(client, id, { withoutInterested, robust: robustId, report })
}

async function makeWithout(
  bench: CompanionBench,
  id: string,
  { rows, variant }: Selected,
): Promise<string> {
  const without = { ...variant, excludeInterested: true }
  const rest = selectRows(rows, without)
  if (rest === rows) return id
  const selected = { rows: rest, variant: without, start: null }
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
  { rows, variant, start }: Selected,
  { robust, id: plainId, withoutInterested: plainWithout }: RobustOf,
): Promise<string> {
  const { client } = bench
  const id = idOf(bench, { rows, variant: { ...variant, robust: true }, start })
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

/** Name of the fit of these rows, made or not. */
export function idOf({ quantity }: Pick<Bench, 'quantity'>, selected: Selected): string {
  return fitId(versionsOf(quantity), selected.rows, selected.variant, selected.start)
}
