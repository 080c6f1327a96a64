import { RHO0 } from '../../atmosphere/constants.ts'
import { REFERENCE } from '../reference.ts'

/**
 * A speed of a wing at fixed trim, brought to the reference mass and density: forward or downward.
 *
 *     V_ref = V·√( (m_ref/m)·(ρ/ρ0) ),  m_ref = 120 kg
 *
 * @param speedMps speed V at the all-up mass and density as flown [m/s]
 * @param allUpMassKg all-up mass m [kg], above 0
 * @param densityKgPerM3 air density ρ [kg/m³], above 0
 * @returns the same wing's speed at the reference state [m/s]
 * @source derived: lift equals weight at constant lift coefficient (METHOD.md,
 *   sections d.8 and g)
 * @example sameWingAtReferenceMps(10.5, 120, 1.225) // 10.5
 */
export function sameWingAtReferenceMps(
  speedMps: number,
  allUpMassKg: number,
  densityKgPerM3: number,
): number {
  return speedMps * Math.sqrt((REFERENCE.allUpMassKg / allUpMassKg) * (densityKgPerM3 / RHO0))
}

/**
 * Glide ratio of the whole system from a steady glide with the engine off.
 *
 *     G = √( (V/Vs)² − 1 )
 *
 * The drag of a stopped or windmilling propeller is in it, so it is a little low.
 *
 * @param airspeedMps airspeed along the path V [m/s]
 * @param sinkRateMps sink rate through the air Vs [m/s], above 0 and below V
 * @returns glide ratio [1]; NaN where no glide has such speeds
 * @source geometry of the glide path; METHOD.md, section d
 * @example glideRatioOf(10.5, 1.5) // 6.928
 */
export function glideRatioOf(airspeedMps: number, sinkRateMps: number): number {
  return Math.sqrt((airspeedMps / sinkRateMps) ** 2 - 1)
}
