import { G0 } from '../../atmosphere/constants.ts'
import { inducedPowerW } from './induced-power.ts'

/** A wing in level flight at a given mass and air. */
export interface LevelFlight {
  readonly allUpMassKg: number
  readonly glideRatio: number
  readonly airspeedMps: number
  readonly densityKgPerM3: number
  readonly discAreaM2: number
}

/**
 * Induced power of level flight.
 *
 *     P = T·(V + v),  T = W/G
 *
 * For one wing it scales exactly as W^1.5·ρ^−0.5, because V² and v² both scale as W/ρ.
 *
 * @param flight all-up mass [kg], glide ratio [1], airspeed [m/s], density [kg/m³], disc area [m²]
 * @returns induced power [W]
 * @throws {OutOfRangeError} if the thrust is not finite
 * @source derived in METHOD.md, section e
 * @example levelPowerW({ allUpMassKg: 120, glideRatio: 7, airspeedMps: 10.5, densityKgPerM3: 1.225, discAreaM2: 1.2272 }) // 2418.6
 */
export function levelPowerW(flight: LevelFlight): number {
  const thrustN = (flight.allUpMassKg * G0) / flight.glideRatio
  return inducedPowerW(thrustN, flight.airspeedMps, {
    densityKgPerM3: flight.densityKgPerM3,
    areaM2: flight.discAreaM2,
  })
}

/**
 * Factor that takes the fuel flow of a flight not quite level to level flight.
 *
 *     1 / (1 + G·Vc/V)
 *
 * @param climbRateMps mean climb rate through the air Vc [m/s]; sink is negative
 * @param glideRatio system glide ratio G [1], above 0
 * @param airspeedMps airspeed V [m/s], above 0
 * @returns factor [1]; infinite or negative where the wing sank as fast as it glides
 * @source derived in METHOD.md, section e
 * @example levelFlowFactor(10 / 300, 7, 10.5) // 0.97826
 */
export function levelFlowFactor(
  climbRateMps: number,
  glideRatio: number,
  airspeedMps: number,
): number {
  return 1 / (1 + (glideRatio * climbRateMps) / airspeedMps)
}

/** How far a drive at part load strays from the model, as a fraction of ln of mass and density ratios [1]. */
export interface PartLoadWeights {
  /** The part of the mass ratio that all drives of the kind have in common. */
  readonly rule: number
  /** The part of the mass ratio that each drive has for itself. */
  readonly own: number
  /** The part of the density ratio, each drive for itself. */
  readonly density: number
}

/**
 * Friction of a piston engine at part load, as a share of its work: w = 0.2 ± 0.1. Friction takes fuel
 * whatever the load, and goes with the engine speed, so with √W: the flow follows W^(1.5 − w) where the
 * model says W^1.5. All of w is an error of the model and common to all engines, √(0.2² + 0.1²) about
 * nothing; engines differ from one another by 0.1 as well, each its own.
 *
 * Source: Willans line, specification 1, section e (w). An energy balance of a
 * spark engine (FEV, printed at x-engineer.org) has 20 % brake work and 9 % mechanical friction at part
 * load, w = 0.31, and 29 % and 3 % at full load.
 */
export const ENGINE_PART_LOAD: PartLoadWeights = {
  rule: Math.hypot(0.2, 0.1),
  own: 0.1,
  density: 0.05,
}

/** Motor and controller away from the load of the reference: ours; there is no friction to speak of. */
export const MOTOR_PART_LOAD: PartLoadWeights = { rule: 0, own: 0.05, density: 0.05 }

/**
 * Exponent k of a mixture that grows richer in thin air, (ρ_ref/ρ)^k, where the model has none: fuel
 * through a fixed jet follows √ρ·V and air ρ·V, so k = 1/2 for a plain carburettor and 0 for one that
 * is compensated or jetted anew. In between as a rectangle: 1/4 for all engines, 1/(4√3) each its own.
 *
 * Source: carburettor theory (J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, chapter 7;
 * from memory); the rectangle is derived from its ends.
 */
export const MIXTURE_EXPONENT = { rule: 0.25, own: 0.25 / Math.sqrt(3) } as const

/**
 * Error of ln of the flow from a mixture that follows the density.
 *
 *     rule = k̄·ln(ρ_ref/ρ),   own = u_k·ln(ρ_ref/ρ),   u² = rule² + own²
 *
 * @param densityRatio air density over that of the reference [1], above 0
 * @returns both parts, with the sign of the correction [1]
 * @source METHOD.md, section e; see {@link MIXTURE_EXPONENT}
 */
export function mixtureError(densityRatio: number): PartLoadError {
  const byDensity = -Math.log(densityRatio)
  const rule = MIXTURE_EXPONENT.rule * byDensity
  const own = MIXTURE_EXPONENT.own * byDensity
  return { rule, own, standardUncertainty: Math.hypot(rule, own) }
}

/** What the level-flight model leaves out of a drive at part load, as errors of ln of the flow [1]. */
export interface PartLoadError {
  /** Signed: one and the same error of the rule for everybody. */
  readonly rule: number
  /** Signed: the drive's own. */
  readonly own: number
  /** Both together. */
  readonly standardUncertainty: number
}

/**
 * What the level-flight model leaves out of a drive at part load, between two states.
 *
 *     rule = w̄·ln(W_ref/W),   |own| = u_w·|ln(W_ref/W)| + w_ρ·|ln(ρ/ρ_ref)|,   u² = rule² + own²
 *
 * @param weights w̄, u_w and w_ρ [1]
 * @param massRatio reference all-up mass over all-up mass [1], above 0
 * @param densityRatio air density over that of the reference [1], above 0
 * @returns both parts with the sign of their correction, and their standard uncertainty [1]
 * @source METHOD.md, section e (Willans line)
 */
export function partLoadError(
  weights: PartLoadWeights,
  massRatio: number,
  densityRatio: number,
): PartLoadError {
  const byMass = Math.log(massRatio)
  const byDensity = weights.density * Math.log(densityRatio)
  const rule = weights.rule * byMass
  const size = Math.abs(weights.own * byMass) + Math.abs(byDensity)
  const own = weights.own * byMass + byDensity < 0 ? -size : size
  return { rule, own, standardUncertainty: Math.hypot(rule, own) }
}
