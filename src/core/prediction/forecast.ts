import { densityAltitudeM } from '../atmosphere/altitude.ts'
import { densityRatio } from '../atmosphere/density.ts'
import { positionsOf } from '../normalise/inputs/vector.ts'
import { type Air, airAt } from '../normalise/model/air.ts'
import { burnDown, type FullTankFlight, fuelBurnedL } from '../normalise/model/burn-down.ts'
import {
  GASOLINE_DENSITY_15C_KG_PER_M3,
  gasolineExpansionPerK,
  volumeCorrectionFactor,
} from '../normalise/model/fuel-volume.ts'
import { fullThrottlePowerRatio } from '../normalise/model/full-throttle-power.ts'
import { helicalTipMach, tipSpeedMps } from '../normalise/model/propeller.ts'
import { levelTrimSpeedMps } from '../normalise/model/trim-speed.ts'
import { climbAt, electricPowerAt, fuelFlowAt, staticThrustAt } from '../normalise/predict.ts'
import type { Equipment, FlightState } from '../normalise/types.ts'
import type { Tank } from './asked.ts'

/** What a prediction depends on, in the order of the vector; NaN where it is not known. */
export const INPUTS = [
  'logPower',
  'logFlow',
  'logElectric',
  'logThrust',
  'allUpMassKg',
  'temperatureC',
  'stationPressureHPa',
  'relativeHumidityPct',
  'glideRatio',
  'trimSpeedMps',
  'trimMassKg',
  'powerRatioFactor',
  'partLoadFactor',
  'tankL',
  'fuelTemperatureC',
  'ratedRpm',
] as const

export type InputName = (typeof INPUTS)[number]

export const X = positionsOf(INPUTS)

/** What is predicted, in the order of the answer. */
export const PREDICTED = [
  'climbRate',
  'climbThrust',
  'climbAngle',
  'airspeed',
  'fuelFlow',
  'litresPer100Km',
  'electricPower',
  'staticThrust',
  'endurance',
  'range',
  'densityAltitude',
  'fullThrottlePowerRatio',
  'engineRpm',
  'propellerRpm',
  'tipMach',
] as const

export type Predicted = (typeof PREDICTED)[number]

export const Y = positionsOf(PREDICTED)

/** What stays the same whatever the inputs are. */
export interface ForecastContext {
  readonly equipment: Equipment
  /** Engine revolutions per propeller revolution, or null. */
  readonly reductionRatio: number | null
  readonly elevationM: number
  readonly flatAreaM2: number
  readonly reserve: Tank['reserve']
}

const EXPANSION_PER_K = gasolineExpansionPerK(GASOLINE_DENSITY_15C_KG_PER_M3)
const KM_PER_H_PER_MPS = 3.6
const MIN_PER_H = 60

/**
 * All predicted quantities for one set of inputs.
 *
 * Climb: `climbAt` on φ's factor times the induced power. Level flight: airspeed at fixed trim, flow by
 * `fuelFlowAt`, litres per 100 km = 100·ff/V, endurance and range by `burnDown` on the tank less its
 * reserve; electric power by `electricPowerAt`. Static thrust: `staticThrustAt` times the two-thirds power of φ's
 * factor. Engine speed at full throttle: n = n_rated·(φ/σ)^⅓.
 *
 * @param x inputs in the order of {@link INPUTS}; a NaN takes with it what depends on it
 * @param context equipment, elevation [m], wing area [m²], reserve [L or min]
 * @returns outputs in the order of {@link PREDICTED} [m/s, N, °, m/s, L/h, L, W, N, h, km, m, 1, 1/min, 1/min, 1]
 * @throws {OutOfRangeError} if mass, wing or air lie outside what the model is valid for
 * @source METHOD.md, sections d (rpm at constant power), d.4, d.5, e and i
 */
export function forecast(x: Float64Array, context: ForecastContext): Float64Array {
  const state = stateIn(x, context)
  const air = airAt(state)
  const y = new Float64Array(PREDICTED.length).fill(Number.NaN)
  const trim = { speedMps: x[X.trimSpeedMps]!, atAllUpMassKg: x[X.trimMassKg]! }
  y[Y.airspeed] = levelTrimSpeedMps(trim, state.allUpMassKg, air.densityKgPerM3)
  y[Y.densityAltitude] = densityAltitudeM(air.densityKgPerM3)
  const { drive } = context.equipment
  y[Y.fullThrottlePowerRatio] = x[X.powerRatioFactor]! * fullThrottlePowerRatio(drive, air)
  forecastClimb(x, y, { state, context })
  forecastLevelFlight(x, y, { state, context })
  forecastElectric(x, y, { state, context })
  forecastStatic(x, y, { state, context })
  forecastRpm(x, y, { air, context })
  return y
}

interface At {
  readonly state: FlightState
  readonly context: ForecastContext
}

function stateIn(x: Float64Array, { elevationM, flatAreaM2 }: ForecastContext): FlightState {
  return {
    allUpMassKg: x[X.allUpMassKg]!,
    elevationM,
    temperatureC: x[X.temperatureC]!,
    stationPressureHPa: x[X.stationPressureHPa]!,
    relativeHumidityPct: x[X.relativeHumidityPct]!,
    wing: {
      flatAreaM2,
      glideRatio: x[X.glideRatio]!,
      trimSpeedMps: x[X.trimSpeedMps]!,
      trimAtAllUpMassKg: x[X.trimMassKg]!,
    },
  }
}

function forecastClimb(x: Float64Array, y: Float64Array, { state, context }: At): void {
  const logPower = x[X.logPower]!
  if (Number.isNaN(logPower)) return
  const inducedPowerW = Math.exp(logPower) * x[X.powerRatioFactor]!
  const climb = climbAt({ inducedPowerW, ...context.equipment }, state)
  y[Y.climbRate] = climb.climbRateMps
  y[Y.climbThrust] = climb.thrustN
  y[Y.climbAngle] = climb.climbAngleDeg
}

function forecastLevelFlight(x: Float64Array, y: Float64Array, { state, context }: At): void {
  const logFlow = x[X.logFlow]!
  if (Number.isNaN(logFlow)) return
  const { propellerDiameterCm } = context.equipment
  const referenceFlow = Math.exp(logFlow) * x[X.partLoadFactor]!
  const flow = fuelFlowAt({ fuelFlowLPerH: referenceFlow, propellerDiameterCm }, state)
  const airspeedMps = y[Y.airspeed]!
  y[Y.fuelFlow] = flow
  y[Y.litresPer100Km] = (100 * flow) / (KM_PER_H_PER_MPS * airspeedMps)
  if (Number.isNaN(x[X.tankL]!)) return
  const start = { allUpMassKg: state.allUpMassKg, fuelFlowLPerH: flow, airspeedMps }
  const volumeFactor = volumeCorrectionFactor(EXPANSION_PER_K, x[X.fuelTemperatureC]!)
  const usable = usableFuelL(start, x[X.tankL]!, { reserve: context.reserve, volumeFactor })
  const flown = burnDown(start, Math.max(0, usable))
  y[Y.endurance] = flown.enduranceH
  y[Y.range] = flown.rangeKm
}

function forecastElectric(x: Float64Array, y: Float64Array, { state, context }: At): void {
  const logElectric = x[X.logElectric]!
  if (Number.isNaN(logElectric)) return
  const electricPowerW = Math.exp(logElectric) * x[X.partLoadFactor]!
  y[Y.electricPower] = electricPowerAt({ electricPowerW, ...context.equipment }, state)
}

/** Static thrust goes as φ^⅔, and so does what φ is off by. */
function forecastStatic(x: Float64Array, y: Float64Array, { state, context }: At): void {
  const logThrust = x[X.logThrust]!
  if (Number.isNaN(logThrust)) return
  const staticThrustN = Math.exp(logThrust) * Math.cbrt(x[X.powerRatioFactor]! ** 2)
  y[Y.staticThrust] = staticThrustAt({ staticThrustN, ...context.equipment }, state)
}

/** Fuel before the reserve is touched, volume at 15 °C [L]; 0 or less where the reserve is all there is. */
function usableFuelL(
  start: FullTankFlight,
  tankL: number,
  { reserve, volumeFactor }: { readonly reserve: Tank['reserve']; readonly volumeFactor: number },
): number {
  if ('litres' in reserve) return volumeFactor * (tankL - reserve.litres)
  const whole = burnDown(start, volumeFactor * tankL).enduranceH
  return fuelBurnedL(start, Math.max(0, whole - reserve.minutes / MIN_PER_H))
}

function forecastRpm(
  x: Float64Array,
  y: Float64Array,
  { air, context }: { readonly air: Air; readonly context: ForecastContext },
): void {
  const { equipment, reductionRatio } = context
  const ratio = y[Y.fullThrottlePowerRatio]! / densityRatio(air.densityKgPerM3)
  const engineRpm = x[X.ratedRpm]! * Math.cbrt(ratio)
  const propellerRpm = engineRpm / (reductionRatio ?? Number.NaN)
  const tipMps = tipSpeedMps(equipment.propellerDiameterCm / 100, propellerRpm)
  y[Y.engineRpm] = engineRpm
  y[Y.propellerRpm] = propellerRpm
  y[Y.tipMach] = helicalTipMach(tipMps, y[Y.airspeed]!, air.temperatureK)
}
