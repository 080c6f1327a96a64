import {
  climbAt,
  electricPowerAt,
  type FlightState,
  fuelFlowAt,
  staticThrustAt,
} from '../normalise/predict.ts'
import type { Equipment } from '../normalise/types.ts'
import { DECIBELS_PER_NEPER, type Metric } from './metric.ts'

/** A setup's estimate read as a metric at stated conditions. */
export interface Reading {
  /** The metric [m/s, N, L/h, W or dB]; a climb rate may be zero or negative: the setup cannot climb there. */
  readonly value: number
  /** What differences are taken of: ln(value), or for a level ln(sound pressure/20 µPa); null where there is none. */
  readonly logValue: number | null
  /** d(value)/dx [unit of the value]. */
  readonly slope: number
  /** d(logValue)/dx [1]; null where there is no logarithm. */
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
 * Reads an estimate as a metric at the caller's conditions.
 *
 *     value = f(exp(x)),   elasticity = d ln f / dx;   level: value = x·20/ln 10, elasticity 1
 *
 * A climb rate has an elasticity above 1 and the more so the weaker the climb, thrust about 0.8, fuel
 * flow and electric power 1: this is why a better climb in percent is not the same percent of thrust. Sound levels are
 * not changed by air, mass or wing.
 *
 * @param metric what to read
 * @param logQuantity x, natural logarithm of watts (climb metrics, electric power), L/h (fuel flow), newtons (static
 *   thrust) or of sound pressure over 20 µPa (sound level), reference state
 * @param at the equipment and the state of mass, air and wing
 * @returns the value [m/s, N, L/h, W or dB], its logarithm, and how both follow x
 * @throws {OutOfRangeError} if the state lies outside what the prediction is valid for
 * @source derived; the prediction and its derivatives are those of `normalise/predict.ts`
 */
export function readMetric(metric: Metric, logQuantity: number, at: ReadingConditions): Reading {
  const quantity = Math.exp(logQuantity)
  switch (metric) {
    case 'fuelFlow':
      return inProportion(fuelFlowAt({ fuelFlowLPerH: quantity, ...at.equipment }, at.state))
    case 'electricPower':
      return inProportion(electricPowerAt({ electricPowerW: quantity, ...at.equipment }, at.state))
    case 'staticThrust':
      return inProportion(staticThrustAt({ staticThrustN: quantity, ...at.equipment }, at.state))
    case 'soundLevel':
      return {
        value: logQuantity * DECIBELS_PER_NEPER,
        logValue: logQuantity,
        slope: DECIBELS_PER_NEPER,
        elasticity: 1,
        withinModel: true,
      }
    default:
      return readClimb(metric, quantity, at)
  }
}

function readClimb(
  metric: 'climbRate' | 'climbThrust',
  inducedPowerW: number,
  { equipment, state }: ReadingConditions,
): Reading {
  const climb = climbAt({ inducedPowerW, ...equipment }, state)
  const { withinModel, climbRateMps, thrustN, thrustElasticity } = climb
  if (metric === 'climbThrust') {
    return {
      value: thrustN,
      logValue: Math.log(thrustN),
      slope: thrustN * thrustElasticity,
      elasticity: thrustElasticity,
      withinModel,
    }
  }
  return {
    value: climbRateMps,
    logValue: climbRateMps > 0 ? Math.log(climbRateMps) : null,
    slope: climb.climbRateSlopeMps,
    elasticity: climb.climbRateElasticity,
    withinModel,
  }
}

/** A metric that is the quantity times a factor of the conditions. */
function inProportion(value: number): Reading {
  return { value, logValue: Math.log(value), slope: value, elasticity: 1, withinModel: true }
}
