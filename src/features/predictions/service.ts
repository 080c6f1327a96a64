import { unknownWing } from '../../contract/conditions.ts'
import { wingPointers, withinModel } from '../../contract/outside-model.ts'
import { ApiProblem } from '../../contract/problems.ts'
import type { FlownWing } from '../../core/normalise/types.ts'
import { DERIVED_LIMITS, isInside } from '../../core/plausibility/limits.ts'
import { completeConditions, type PredictionConditions } from '../../core/prediction/asked.ts'
import { predictSetup } from '../../core/prediction/predict-setup.ts'
import { BASES, type Basis } from '../../core/prediction/question.ts'
import { findSetupFacts, findWing } from '../../db/catalogue-facts.ts'
import type { Database } from '../../db/client.ts'
import { type ChosenFits, chooseFits, type FitSources } from '../../db/fit-choice.ts'
import type { LoadedFit } from '../../db/fit-store.ts'
import { askOthers } from '../../db/other-fits.ts'
import { hasOwnWing, type PredictionQuery } from './query.ts'
import type { Prediction } from './schema.ts'
import { showPrediction } from './show.ts'

export interface Sources extends FitSources {
  readonly db: Database
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
  const chosen = await loadFits(sources, query)
  const wing = await wingOf(sources.db, query)
  const pointers = { ...POINTERS, ...wingPointers(query.wingId) }
  return withinModel(pointers, () => {
    const conditions = completeConditions({ ...query, ...askedOf(query), wing })
    requireLoading(conditions, query.wingId)
    const by = (fits: readonly LoadedFit[]) =>
      predictSetup({ setup: facts, conditions, evidence: byBasis(fits) })
    const predictions = by(chosen.map(({ fit }) => fit))
    const others = askOthers(chosen, predictions, by)
    const wingId = wing?.id ?? null
    return showPrediction({ facts, chosen, conditions, predictions, others, wingId })
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

/** The fits named, and the current one of each quantity where none is named. */
async function loadFits(sources: Sources, query: PredictionQuery): Promise<ChosenFits[]> {
  const named = new Map<Basis, string>()
  for (const id of query.fitId ?? []) {
    const fit = await sources.fits.find(id)
    if (fit === null) throw new ApiProblem('not-found', { detail: `There is no fit ${id}.` })
    const basis = BASES.find((one) => one === fit.quantity)
    if (basis === undefined || named.has(basis)) {
      const detail = `${id} is a fit of ${fit.quantity}; name one each of ${BASES.join(', ')} at most`
      throw new ApiProblem('unknown-reference', { errors: [{ pointer: '/fitId', detail }] })
    }
    named.set(basis, id)
  }
  const chosen: ChosenFits[] = []
  for (const basis of BASES) {
    chosen.push(await chooseFits(sources, basis, { ...query, fitId: named.get(basis) }))
  }
  return chosen
}

/** Fits in the order of the bases, by their names. */
function byBasis(fits: readonly LoadedFit[]): Readonly<Record<Basis, LoadedFit>> {
  return Object.fromEntries(BASES.map((basis, i) => [basis, fits[i]!])) as Record<Basis, LoadedFit>
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
