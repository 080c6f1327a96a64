import { type Conditions, unknownWing } from '../contract/conditions.ts'
import { wingPointers, withinModel } from '../contract/outside-model.ts'
import { type AskedConditions, resolveConditions } from '../core/comparison/conditions.ts'
import { requireFlightState } from '../core/normalise/predict.ts'
import type { FlightState } from '../core/normalise/types.ts'
import { findWing } from './catalogue-facts.ts'
import type { Database } from './client.ts'

/**
 * The conditions of a question with the wing of the catalogue it names, as the core and as the answer
 * have them.
 *
 * @throws {ApiProblem} unknown-reference for a wing that does not exist, outside-model-range
 */
export async function conditionsOf(
  db: Database,
  query: AskedConditions & { readonly wingId?: string | undefined },
): Promise<{ readonly state: FlightState; readonly conditions: Conditions }> {
  const wing = query.wingId === undefined ? null : await findWing(db, query.wingId)
  if (query.wingId !== undefined && wing === null) throw unknownWing()
  const { state, airDensityKgPerM3, assumed } = resolveConditions(query, wing)
  withinModel(wingPointers(query.wingId), () => requireFlightState(state))
  const { allUpMassKg, elevationM, temperatureC } = state
  const conditions: Conditions = {
    ...{ allUpMassKg, elevationM, temperatureC, airDensityKgPerM3 },
    wing: { id: wing?.id ?? null, ...state.wing },
    assumed: [...assumed],
  }
  return { state, conditions }
}
