import { G0, RHO0 } from '../../../src/core/atmosphere/constants.ts'
import type { TrueAir } from './air.ts'

/** A wing as it truly flies, with its pilot and a running frame of the ordinary kind. */
export interface TrueWing {
  readonly flatAreaM2: number
  /** Lift coefficient of the trim in level flight, on flat area [1]. */
  readonly liftCoefficient: number
  /** Glide ratio at that trim, hanging parts included [1]. */
  readonly glideRatio: number
  /** Share of the drag at trim that grows with the square of the lift coefficient [1]. */
  readonly inducedShare: number
  /** d ln CL / d(T/W): the trim angle of attack shifts with thrust [1]. */
  readonly liftShift: number
  /** How the pilot's seat and hang points tilt the thrust line upward from the path [rad]. */
  readonly thrustAngleRad: number
}

/** Lift coefficient that flies level at an airspeed, ISA sea level [1]. */
export function liftCoefficientAt(
  airspeedMps: number,
  { allUpMassKg, flatAreaM2 }: { readonly allUpMassKg: number; readonly flatAreaM2: number },
): number {
  return (allUpMassKg * G0) / (0.5 * RHO0 * airspeedMps ** 2 * flatAreaM2)
}

/** The reference wing of the truth: 24 m², CL/CD = 7.0 and 10.5 m/s level at 120 kg, sea level. */
export const REFERENCE_WING: TrueWing = {
  flatAreaM2: 24,
  liftCoefficient: liftCoefficientAt(10.5, { allUpMassKg: 120, flatAreaM2: 24 }),
  glideRatio: 7,
  inducedShare: 0.42,
  liftShift: 0,
  thrustAngleRad: 0,
}

export const REFERENCE_MASS_KG = 120

/** What moves through the air: wing, mass, and what the frame adds to the drag area. */
export interface Flyer {
  readonly wing: TrueWing
  readonly allUpMassKg: number
  /** Drag area of the frame above that of the ordinary one [m²]. */
  readonly addedDragAreaM2: number
  /** Angle of the thrust line to the path, frame and pilot together [rad]. */
  readonly thrustAngleRad: number
}

/**
 * Lift and drag [N] at an airspeed and thrust, trim held.
 *
 *     CL = CL_t·(1 + s·(T/W − 1/G)),  CD = (CL_t/G)·[(1 − i) + i·(CL/CL_t)²]
 */
export function forcesOn(
  { wing, allUpMassKg, addedDragAreaM2 }: Flyer,
  airspeedMps: number,
  { thrustN, air }: { readonly thrustN: number; readonly air: TrueAir },
): { readonly liftN: number; readonly dragN: number } {
  const dynamicPa = 0.5 * air.densityKgPerM3 * airspeedMps ** 2
  const excess = thrustN / (allUpMassKg * G0) - 1 / wing.glideRatio
  const ratio = 1 + wing.liftShift * excess
  const cl = wing.liftCoefficient * ratio
  const atTrim = wing.liftCoefficient / wing.glideRatio
  const cd = atTrim * (1 - wing.inducedShare + wing.inducedShare * ratio ** 2)
  return {
    liftN: dynamicPa * wing.flatAreaM2 * cl,
    dragN: dynamicPa * (wing.flatAreaM2 * cd + addedDragAreaM2),
  }
}
