import { P0, RHO0, T0 } from '../../../src/core/atmosphere/constants.ts'
import type { TrueAir } from './air.ts'

export type Stroke = 'twoStroke' | 'fourStroke'

/** A naturally aspirated engine with a carburettor, jetted at sea level. */
export interface Engine {
  readonly stroke: Stroke
  /** Peak brake torque at ISA sea level, full throttle [N·m], and the speed it stands at [rev/s]. */
  readonly peakTorqueNm: number
  readonly peakTorqueRps: number
  /** Curvature of the torque curve below and above its peak [1]. */
  readonly riseCurvature: number
  readonly fallCurvature: number
  /** Friction torque over peak brake torque [1]; it does not follow the air. */
  readonly frictionShare: number
  /** Exponent of T0/T in the indicated torque [1]. */
  readonly temperatureExponent: number
  /** Equivalence ratio at full throttle at sea level [1], and how it grows as (ρ0/ρ)^exponent. */
  readonly richness: number
  readonly mixtureExponent: number
  /** Indicated work over the energy of the fuel supplied [1], lost charge included. */
  readonly indicatedEfficiency: number
  /** Added friction with the throttle closed, as a share of the friction [1]: pumping. */
  readonly pumpingShare: number
  /** Richer mixture near full load: added share of fuel at full load [1]. */
  readonly loadEnrichment: number
}

/** Equivalence ratio of best power, and the loss of power around it (curves of spark engines, from memory). */
const BEST_POWER_RICHNESS = 1.1
const RICHNESS_LOSS = 1.3
/** Lower heating value of gasoline [J/kg] and its density at 15 °C [kg/m³] (common practice). */
const HEATING_J_PER_KG = 43e6
const GASOLINE_KG_PER_M3 = 745
const TWO_PI = 2 * Math.PI

/** Brake torque at full throttle at ISA sea level [N·m]: a parabola on either side of the peak. */
export function seaLevelTorqueNm(engine: Engine, rps: number): number {
  const x = rps / engine.peakTorqueRps - 1
  const curvature = x < 0 ? engine.riseCurvature : engine.fallCurvature
  return engine.peakTorqueNm * Math.max(0.05, 1 - curvature * x * x)
}

/** Speed of greatest power [rev/s]: where d(n·Q)/dn = 0 on the falling side. */
export function peakPowerRps({ fallCurvature, peakTorqueRps }: Engine): number {
  const b = fallCurvature
  return peakTorqueRps * (1 + (-2 * b + Math.sqrt(4 * b * b + 12 * b)) / (6 * b))
}

/**
 * Brake torque at full throttle in some air [N·m].
 *
 *     Q = (Q_sl + Q_f)·(p_d/p0)·(T0/T)^m·h(Φ)/h(Φ0) − Q_f
 *
 * Indicated torque follows dry pressure and a power of temperature (the exponents that result for
 * the brake torque are near the 1.2 and 0.6 of ISO 1585), friction stays, and fixed jets make the
 * mixture richer in thin air.
 */
export function torqueNm(engine: Engine, rps: number, air: TrueAir): number {
  return torqueIn(engine, air)(rps)
}

/** {@link torqueNm} over the speed in one air, for those who look for a speed. */
export function torqueIn(engine: Engine, air: TrueAir): (rps: number) => number {
  const friction = engine.frictionShare * engine.peakTorqueNm
  const ratio = indicatedRatio(engine, air)
  return (rps) => (seaLevelTorqueNm(engine, rps) + friction) * ratio - friction
}

function indicatedRatio(engine: Engine, air: TrueAir): number {
  const charge =
    ((air.pressurePa - air.vapourPa) / P0) * (T0 / air.temperatureK) ** engine.temperatureExponent
  const burning = (richness: number) => 1 - RICHNESS_LOSS * (richness - BEST_POWER_RICHNESS) ** 2
  return (charge * burning(engine.richness * richer(engine, air))) / burning(engine.richness)
}

/** How much richer a fixed jet makes the mixture than at sea level [1]. */
function richer({ mixtureExponent }: Engine, air: TrueAir): number {
  return (RHO0 / air.densityKgPerM3) ** mixtureExponent
}

/**
 * Fuel flow at part throttle, volume at 15 °C [L/h]: a Willans line.
 *
 *     fuel power = (P_brake + P_friction(n, load)) / η_i · enrichment(load) · (ρ0/ρ)^k
 */
export function fuelFlowLPerH(
  engine: Engine,
  { brakeW, rps, air }: { readonly brakeW: number; readonly rps: number; readonly air: TrueAir },
): number {
  const fullW = TWO_PI * rps * torqueNm(engine, rps, air)
  const load = Math.min(1, brakeW / fullW)
  const frictionNm = engine.frictionShare * engine.peakTorqueNm
  const frictionW = TWO_PI * rps * frictionNm * (1 + engine.pumpingShare * (1 - load))
  const enrichment = 1 + engine.loadEnrichment * load * load
  const fuelW =
    ((brakeW + frictionW) / engine.indicatedEfficiency) * enrichment * richer(engine, air)
  const kgPerH = (fuelW / HEATING_J_PER_KG) * 3600
  return (kgPerH / GASOLINE_KG_PER_M3) * 1000
}
