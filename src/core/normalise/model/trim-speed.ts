import { RHO0 } from '../../atmosphere/constants.ts'

/**
 * Airspeed in level trimmed flight at another mass and density, lift coefficient fixed by the trim.
 *
 *     V_L = V0 · √( (m/m0) · (ρ0/ρ) )
 *
 * @param trim airspeed in level flight V0 [m/s] at the all-up mass m0 [kg] and ISA sea-level density
 * @param allUpMassKg all-up mass m [kg], above 0
 * @param densityKgPerM3 air density ρ [kg/m³], above 0
 * @returns level airspeed [m/s]
 * @source derived: lift equals weight at constant lift coefficient (specification 1, section d.1)
 * @example levelTrimSpeedMps({ speedMps: 10.5, atAllUpMassKg: 120 }, 120, 1.225) // 10.5
 */
export function levelTrimSpeedMps(
  trim: { readonly speedMps: number; readonly atAllUpMassKg: number },
  allUpMassKg: number,
  densityKgPerM3: number,
): number {
  return trim.speedMps * Math.sqrt((allUpMassKg / trim.atAllUpMassKg) * (RHO0 / densityKgPerM3))
}

/** sin γ of the largest climb rate a fixed trim allows: d(sin γ·√cos γ)/dγ = 0 at sin²γ = 2/3. */
const STEEPEST_SIN = Math.sqrt(2 / 3)

/** Largest climb rate over level airspeed for which a climb angle exists: 0.6204 [1]. */
export const STEEPEST_CLIMB_RATIO = STEEPEST_SIN * (1 - STEEPEST_SIN ** 2) ** 0.25

/**
 * Sine of the climb angle of a steady climb at fixed trim, where the path speed falls with the lift.
 *
 *     V = V_L·√cos γ,  sin γ = Vc/V   ⇔   s·(1 − s²)^(1/4) = Vc/V_L
 *
 * Solved by Newton's method on the branch through zero.
 *
 * @param climbRatio climb rate over level airspeed Vc/V_L [1], −0.6204 to 0.6204 (excluded)
 * @returns sin γ [1]; NaN where the ratio is NaN or no such climb exists
 * @source derived in METHOD.md, section d
 * @example sinClimbAngle(0.2) // 0.2021
 */
export function sinClimbAngle(climbRatio: number): number {
  if (!(Math.abs(climbRatio) < STEEPEST_CLIMB_RATIO)) return Number.NaN
  let s = climbRatio
  for (let iteration = 0; iteration < 60; iteration++) {
    const c2 = 1 - s * s
    const root = Math.sqrt(Math.sqrt(c2))
    const error = s * root - climbRatio
    const step = error / (root * (1 - (0.5 * s * s) / c2))
    s -= step
    if (Math.abs(step) < 1e-14) break
  }
  return s
}
