import { unknownWing } from '../../contract/conditions.ts'
import { wingPointers, withinModel } from '../../contract/outside-model.ts'
import { ApiProblem } from '../../contract/problems.ts'
import type { FlownWing } from '../../core/normalise/types.ts'
import { DERIVED_LIMITS, isInside } from '../../core/plausibility/limits.ts'
import { completeConditions, type PredictionConditions } from '../../core/prediction/asked.ts'
import { predictSetup } from '../../core/prediction/predict-setup.ts'
import type { Basis } from '../../core/prediction/question.ts'
import { findSetupFacts, findWing } from '../../db/catalogue-facts.ts'
import type { Database } from '../../db/client.ts'
import type { FitStore, LoadedFit } from '../../db/fit-store.ts'
import { hasOwnWing, type PredictionQuery } from './query.ts'
import type { Prediction } from './schema.ts'
import { showPrediction } from './show.ts'

export interface Sources {
  readonly db: Database
  readonly fits: FitStore
}

/**
 * What a setup will do at the caller's own mass, wing, field and tank.
 *
 * @throws {ApiProblem} not-found for the setup or a fit, unknown-reference for the wing, and
 *   outside-model-range, with the parameter, for a wing or air the model does not hold for
 */
export async function predict(
  sources: Sources,
  setupId: string,
  query: PredictionQuery,
): Promise<Prediction> {
  const facts = (await findSetupFacts(sources.db, [setupId])).get(setupId)
  if (facts === undefined) throw new ApiProblem('not-found')
  const evidence = await loadFits(sources.fits, query.fitId ?? [])
  const wing = await wingOf(sources.db, query)
  const pointers = { ...POINTERS, ...wingPointers(query.wingId) }
  return withinModel(pointers, () => {
    const conditions = completeConditions({ ...query, ...askedOf(query), wing })
    requireLoading(conditions, query.wingId)
    const predictions = predictSetup({ setup: facts, conditions, evidence })
    return showPrediction({ facts, evidence, conditions, predictions, wingId: wing?.id ?? null })
  })
}

/** Parameters behind the core's names of values, where they differ from the parameter's own. */
const POINTERS: Readonly<Record<string, string>> = {
  allUpMassKg: '/allUpMassKg',
  heightM: '/elevationM',
  elevationM: '/elevationM',
  qnhPa: '/qnhHPa',
  pressurePa: '/elevationM',
  temperatureK: '/temperatureC',
  densityKgPerM3: '/temperatureC',
  relativeHumidity: '/relativeHumidityPct',
  fuelTemperatureC: '/temperatureC',
  fuelL: '/tankL',
}

/** The fits named, and the current one where none is named for climb or for fuel. */
async function loadFits(
  store: FitStore,
  ids: readonly string[],
): Promise<Readonly<Record<Basis, LoadedFit>>> {
  const named = new Map<string, LoadedFit>()
  for (const id of ids) {
    const fit = await store.find(id)
    if (fit === null) throw new ApiProblem('not-found', { detail: `There is no fit ${id}.` })
    const isWanted = fit.quantity === 'inducedPower' || fit.quantity === 'fuelFlow'
    if (!isWanted || named.has(fit.quantity)) {
      const detail = `${id} is a fit of ${fit.quantity}; name one of inducedPower and one of fuelFlow at most`
      throw new ApiProblem('unknown-reference', { errors: [{ pointer: '/fitId', detail }] })
    }
    named.set(fit.quantity, fit)
  }
  const load = async (basis: Basis) => named.get(basis) ?? (await store.load(basis, undefined))
  return { inducedPower: await load('inducedPower'), fuelFlow: await load('fuelFlow') }
}

/** The wing asked for as a pilot would describe it; null for the reference wing. */
async function wingOf(
  db: Database,
  query: PredictionQuery,
): Promise<(FlownWing & { readonly id: string | null }) | null> {
  if (query.wingId !== undefined) {
    const wing = await findWing(db, query.wingId)
    if (wing === null) throw unknownWing()
    const { id, flatAreaM2, glideRatio, trimSpeedMps, trimAtAllUpMassKg } = wing
    return {
      id,
      flatAreaM2,
      glideSource: 'catalogue',
      glideRatio: glideRatio ?? undefined,
      trimSpeedMps: trimSpeedMps ?? undefined,
      trimAtAllUpMassKg: trimAtAllUpMassKg ?? undefined,
    }
  }
  if (!hasOwnWing(query)) return null
  const { glideRatio, glideSource, trimSpeedMps, trimAtAllUpMassKg } = query
  const flatAreaM2 = query.flatAreaM2! // the schema asks for it
  return { id: null, flatAreaM2, glideRatio, glideSource, trimSpeedMps, trimAtAllUpMassKg }
}

/** Tank and uncertainties of the query, as the core takes them. */
function askedOf(query: PredictionQuery) {
  const { tankL, reserveL, reserveMin } = query
  const reserve = reserveMin === undefined ? { litres: reserveL ?? 0 } : { minutes: reserveMin }
  return {
    tank: tankL === undefined ? null : { tankL, reserve },
    uncertainty: {
      allUpMassKg: query.allUpMassUncertaintyKg,
      temperatureC: query.temperatureUncertaintyK,
      qnhHPa: query.qnhUncertaintyHPa,
      relativeHumidityPct: query.relativeHumidityUncertaintyPct,
      glideRatio: query.glideUncertainty,
      trimSpeedMps: query.trimSpeedUncertaintyMps,
      tankL: query.tankUncertaintyL,
    },
  }
}

/** A wing flown at a loading nobody flies at is another wing, or a slip. */
function requireLoading(conditions: PredictionConditions, wingId: string | undefined): void {
  const loading = conditions.allUpMassKg.value / conditions.flatAreaM2
  const { hard } = DERIVED_LIMITS.wingLoading
  if (isInside(loading, hard)) return
  const pointer = wingId === undefined ? '/flatAreaM2' : '/wingId'
  const detail = `Wing loading would be ${loading.toFixed(1)} kg/m²; it must lie within ${hard.min} to ${hard.max} kg/m²`
  throw new ApiProblem('outside-model-range', { errors: [{ pointer, detail }] })
}
