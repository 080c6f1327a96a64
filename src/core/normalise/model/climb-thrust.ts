import { G0 } from '../../atmosphere/constants.ts'

/**
 * Thrust that carries a steady climb.
 *
 *     T = W·(sin γ + cos γ/G),  W = m·g0,  sin γ = Vc/V
 *
 * Drag is lift over the system glide ratio; thrust acts along the path.
 *
 * @param allUpMassKg all-up mass m [kg], above 0
 * @param sinAngle sine of the climb angle, climb rate over path airspeed [1], −1 to 1
 * @param glideRatio system glide ratio G [1], above 0
 * @returns thrust [N]
 * @source derived in METHOD.md, section d
 * @example climbThrustN(120, 2 / 10.5, 7) // 389.19
 */
export function climbThrustN(allUpMassKg: number, sinAngle: number, glideRatio: number): number {
  return allUpMassKg * G0 * (sinAngle + Math.sqrt(1 - sinAngle * sinAngle) / glideRatio)
}

/**
 * Climb angle that a thrust carries. Inverse of {@link climbThrustN}, in closed form.
 *
 *     γ = asin((T/W)·cos δ) − δ,  δ = atan(1/G)
 *
 * @param thrustToWeight thrust over weight T/W [1], 0 to √(1 + 1/G²)
 * @param glideRatio system glide ratio G [1], above 0
 * @returns climb angle [rad], negative where the thrust does not hold height; NaN for more thrust
 *   than any steady climb at this trim can use
 * @source derived in METHOD.md, section d
 * @example climbAngleRad(0.3, 7) // 0.1596
 */
export function climbAngleRad(thrustToWeight: number, glideRatio: number): number {
  const glideAngle = Math.atan(1 / glideRatio)
  return Math.asin(thrustToWeight * Math.cos(glideAngle)) - glideAngle
}

/**
 * Fraction of a relative gain in climb rate that is a relative gain in thrust.
 *
 *     f = Vc / (Vc + V/G)   (small angles)
 *
 * Part of the thrust only carries the weight through the air: 15 % better climb is not 15 % more
 * thrust.
 *
 * @param climbRateMps climb rate Vc [m/s], above 0
 * @param airspeedMps airspeed V [m/s], above 0
 * @param glideRatio system glide ratio G [1], above 0
 * @returns fraction [1], 0 to 1
 * @source derived in METHOD.md, section d
 * @example thrustShareOfClimb(2, 10.5, 7) // 0.571
 */
export function thrustShareOfClimb(
  climbRateMps: number,
  airspeedMps: number,
  glideRatio: number,
): number {
  return climbRateMps / (climbRateMps + airspeedMps / glideRatio)
}
