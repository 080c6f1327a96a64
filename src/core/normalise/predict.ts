import { densityRatio } from '../atmosphere/density.ts'
import { requireInRange } from '../atmosphere/range.ts'
import { airAt } from './model/air.ts'
import { fullThrottlePowerRatio } from './model/full-throttle-power.ts'
import { discAreaM2 } from './model/induced-power.ts'
import { levelPowerW } from './model/level-power.ts'
import { steadyClimb } from './model/steady-climb.ts'
import { levelTrimSpeedMps } from './model/trim-speed.ts'
import { referenceLevelPowerW } from './reference.ts'
import type { ClimbForecast, Drive, FlightState } from './types.ts'

export { REFERENCE, referenceWingFor } from './reference.ts'
export type { ClimbForecast, FlightState, FlownLevelWing } from './types.ts'

const MASS_RANGE_KG = { min: 20, max: 1000 } as const
const GLIDE_RANGE = { min: 4, max: 20 } as const
const SPEED_RANGE_MPS = { min: 1, max: 60 } as const
const DIAMETER_RANGE_CM = { min: 10, max: 1000 } as const

/**
 * Full-throttle climb of a set-up at the caller's own conditions.
 *
 *     T·(V + v) = φ·P_ref, solved for the climb angle;
 *     dVc/d ln P = V·(cos γ − ½·sin γ·tan γ)·dγ/d ln P,  d ln T/d ln P = W·(cos γ − sin γ/G)/T·dγ/d ln P
 *
 * The derivatives are analytic. A set-up too weak to climb gets its sink rate as a negative climb.
 *
 * @param setup useful induced power at full throttle, ISA sea level [W], above 0; propeller diameter
 *   [cm], 10 to 1000; kind of drive
 * @param state all-up mass [kg], 20 to 1000; elevation [m], −1000 to 11 000; temperature [°C]; wing
 * @returns climb rate, thrust, angle, airspeed and how they follow the power
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source derived in METHOD.md, section d
 */
export function climbAt(
  setup: {
    readonly inducedPowerW: number
    readonly propellerDiameterCm: number
    readonly drive: Drive
  },
  state: FlightState,
): ClimbForecast {
  const { air, levelAirspeedMps } = flightIn(state)
  const phi = fullThrottlePowerRatio(setup.drive, air)
  const climb = steadyClimb(phi * setup.inducedPowerW, {
    allUpMassKg: state.allUpMassKg,
    glideRatio: state.wing.glideRatio,
    levelAirspeedMps,
    densityKgPerM3: air.densityKgPerM3,
    discAreaM2: discOf(setup.propellerDiameterCm),
  })
  const sin = Math.sin(climb.climbAngleRad)
  const cos = Math.cos(climb.climbAngleRad)
  const { angleSlopeRad, airspeedMps, climbRateMps } = climb
  const climbRateSlopeMps = airspeedMps * (cos - (0.5 * sin * sin) / cos) * angleSlopeRad
  const glide = state.wing.glideRatio
  return {
    climbRateMps,
    thrustN: climb.thrustN,
    climbAngleDeg: (climb.climbAngleRad * 180) / Math.PI,
    airspeedMps,
    climbRateSlopeMps,
    climbRateElasticity: climbRateMps > 0 ? climbRateSlopeMps / climbRateMps : null,
    thrustElasticity: ((cos - sin / glide) / (sin + cos / glide)) * angleSlopeRad,
    withinModel: climb.withinModel,
  }
}

/**
 * Fuel flow in level flight at the caller's own conditions.
 *
 *     ff = ff_ref · [T(V + v)] / [T(V + v)]_ref
 *
 * @param setup fuel flow in level flight at the reference state, volume at 15 °C [L/h], above 0;
 *   propeller diameter [cm], 10 to 1000
 * @param state all-up mass [kg], 20 to 1000; elevation [m], −1000 to 11 000; temperature [°C]; wing
 * @returns fuel flow, volume at 15 °C [L/h]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source derived in METHOD.md, section e
 */
export function fuelFlowAt(
  setup: { readonly fuelFlowLPerH: number; readonly propellerDiameterCm: number },
  state: FlightState,
): number {
  requireInRange('fuelFlowLPerH', setup.fuelFlowLPerH, { min: 0, max: 1000 })
  return setup.fuelFlowLPerH * levelLoad(setup.propellerDiameterCm, state)
}

/**
 * Electric power out of the battery in level flight at the caller's own conditions.
 *
 *     P = P_ref · [T(V + v)] / [T(V + v)]_ref
 *
 * @param setup electric power in level flight at the reference state [W], above 0; propeller diameter
 *   [cm], 10 to 1000
 * @param state all-up mass [kg], 20 to 1000; elevation [m], −1000 to 11 000; temperature [°C]; wing
 * @returns electric power [W]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source derived in METHOD.md, section e
 */
export function electricPowerAt(
  setup: { readonly electricPowerW: number; readonly propellerDiameterCm: number },
  state: FlightState,
): number {
  requireInRange('electricPowerW', setup.electricPowerW, { min: 0, max: 1e6 })
  return setup.electricPowerW * levelLoad(setup.propellerDiameterCm, state)
}

/** Induced power of level flight over that at the reference state [1]. */
function levelLoad(propellerDiameterCm: number, state: FlightState): number {
  const { air, levelAirspeedMps } = flightIn(state)
  const disc = discOf(propellerDiameterCm)
  const power = levelPowerW({
    allUpMassKg: state.allUpMassKg,
    glideRatio: state.wing.glideRatio,
    airspeedMps: levelAirspeedMps,
    densityKgPerM3: air.densityKgPerM3,
    discAreaM2: disc,
  })
  return power / referenceLevelPowerW(disc)
}

/**
 * Air density of a prediction.
 *
 * @param state elevation [m], −1000 to 11 000; temperature [°C]; optional pressure [hPa] and humidity [%]
 * @returns density [kg/m³]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source ISO 2533:1975; CIPM-2007 where a humidity is given
 * @example airDensityKgPerM3(REFERENCE) // 1.225
 */
export function airDensityKgPerM3(state: {
  readonly elevationM: number
  readonly temperatureC: number
  readonly stationPressureHPa?: number | undefined
  readonly relativeHumidityPct?: number | undefined
}): number {
  return airAt(state).densityKgPerM3
}

/**
 * Static thrust of a set-up in the caller's own air.
 *
 *     T = T_std · σ^⅓ · φ^⅔
 *
 * @param setup static thrust at ISA sea level [N], 0 to 1e5; kind of drive
 * @param state elevation [m], −1000 to 11 000; temperature [°C]; the wing does not matter
 * @returns static thrust [N]
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source derived in METHOD.md, section f
 */
export function staticThrustAt(
  setup: { readonly staticThrustN: number; readonly drive: Drive },
  state: Omit<FlightState, 'allUpMassKg' | 'wing'>,
): number {
  requireInRange('staticThrustN', setup.staticThrustN, { min: 0, max: 1e5 })
  const air = airAt(state)
  const sigma = densityRatio(air.densityKgPerM3)
  const phi = fullThrottlePowerRatio(setup.drive, air)
  return setup.staticThrustN * Math.cbrt(sigma * phi ** 2)
}

/**
 * Lets a state pass that predictions are valid for.
 *
 * @param state all-up mass [kg], 20 to 1000; elevation [m], −1000 to 11 000; temperature [°C]; wing
 * @throws {OutOfRangeError} if a value is NaN or lies outside its range; it names the value
 * @source the ranges are those of {@link climbAt} and {@link fuelFlowAt}
 */
export function requireFlightState(state: FlightState): void {
  flightIn(state)
}

/** The air of a state and the wing's level airspeed in it. */
function flightIn(state: FlightState) {
  const { wing } = state
  requireInRange('allUpMassKg', state.allUpMassKg, MASS_RANGE_KG)
  requireInRange('glideRatio', wing.glideRatio, GLIDE_RANGE)
  requireInRange('trimSpeedMps', wing.trimSpeedMps, SPEED_RANGE_MPS)
  requireInRange('trimAtAllUpMassKg', wing.trimAtAllUpMassKg, MASS_RANGE_KG)
  const air = airAt(state)
  const trim = { speedMps: wing.trimSpeedMps, atAllUpMassKg: wing.trimAtAllUpMassKg }
  return { air, levelAirspeedMps: levelTrimSpeedMps(trim, state.allUpMassKg, air.densityKgPerM3) }
}

function discOf(diameterCm: number): number {
  return discAreaM2(requireInRange('propellerDiameterCm', diameterCm, DIAMETER_RANGE_CM) / 100)
}
