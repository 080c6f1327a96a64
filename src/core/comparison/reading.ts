import { climbAt, type FlightState, fuelFlowAt } from '../normalise/predict.ts'
import type { Equipment } from '../normalise/types.ts'
import type { Metric } from './metric.ts'

/** A setup's estimate read as a metric at stated conditions. */
export interface Reading {
  /** The metric [m/s, N or L/h]; a climb rate may be zero or negative: the setup cannot climb there. */
  readonly value: number
  /** d ln(metric) / d ln(quantity) [1]; null where the metric is not positive. */
  readonly elasticity: number | null
  /** False where the climb would be steeper than the model answers for. */
  readonly withinModel: boolean
}

/** What a reading depends on beside the estimate. */
export interface ReadingConditions {
  readonly equipment: Equipment
  readonly state: FlightState
}

/**
 * Reads an estimate of induced power or fuel flow as a metric at the caller's conditions.
 *
 *     value = f(exp(x)),   elasticity = d ln f / dx
 *
 * A climb rate has an elasticity above 1 and the more so the weaker the climb, thrust about 0.8, fuel
 * flow 1: this is why a better climb in percent is not the same percent of thrust.
 *
 * @param metric what to read
 * @param logQuantity x, natural logarithm of watts (climb metrics) or of L/h (fuel flow), reference state
 * @param at the equipment and the state of mass, air and wing
 * @returns the value [m/s, N or L/h] and its elasticity [1]
 * @throws {OutOfRangeError} if the state lies outside what the prediction is valid for
 * @source derived; the prediction and its derivatives are those of `normalise/predict.ts`
 */
export function readMetric(metric: Metric, logQuantity: number, at: ReadingConditions): Reading {
  const quantity = Math.exp(logQuantity)
  if (metric === 'fuelFlow') {
    const value = fuelFlowAt({ fuelFlowLPerH: quantity, ...at.equipment }, at.state)
    return { value, elasticity: 1, withinModel: true }
  }
  const climb = climbAt({ inducedPowerW: quantity, ...at.equipment }, at.state)
  const { withinModel } = climb
  return metric === 'climbRate'
    ? { value: climb.climbRateMps, elasticity: climb.climbRateElasticity, withinModel }
    : { value: climb.thrustN, elasticity: climb.thrustElasticity, withinModel }
}
