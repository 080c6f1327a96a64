import { requireInRange } from '../atmosphere/range.ts'
import { OutOfRangeError } from '../errors.ts'

/** One of the rubber mounts that hold the engine on its frame. */
export interface Mount {
  /** Stiffness along the propeller's axis k [N/m]. */
  readonly stiffnessNPerM: number
  /** Height z above a level that is the same for all mounts and the thrust line [m]. */
  readonly heightM: number
}

/** Engine and propeller on their mounts, and what pulls at them. */
export interface MountedPropeller {
  readonly thrustN: number
  /** Height h of the thrust line above the level of the mounts' heights [m]. */
  readonly thrustLineM: number
  readonly mounts: readonly Mount[]
  readonly tipRadiusM: number
  /** Size of the gyroscopic moment while turning, whichever way [N m]. */
  readonly gyroscopicMomentNm: number
}

/** How far the tips move towards the cage; negative: away from it. */
export interface TipMovement {
  /** Of the upper tip, turning the way that is worse for it [m]. */
  readonly topM: number
  /** Of the lower tip, turning the way that is worse for it [m]. */
  readonly bottomM: number
  /** The part of both that comes from turning [m]. */
  readonly gyroscopicM: number
  /** Tilt of the thrust line by thrust alone, the upper tip going forward [rad]. */
  readonly tiltRad: number
}

const THRUST_N = { min: 0, max: 5000 }
const STIFFNESS_N_PER_M = { min: 100, max: 1e8 }
const HEIGHT_M = { min: -2, max: 2 }
const RADIUS_M = { min: 0.1, max: 2 }
const MOMENT_NM = { min: 0, max: 2000 }

/**
 * Fore-and-aft movement of the propeller's tips on their mounts, rigid parts, small angles.
 *
 *     z_c = Σ k_i z_i / Σ k_i,  Kθ = Σ k_i (z_i − z_c)²,  θ = (T (h − z_c) ± M_g) / Kθ
 *     Δx(z) = T / Σ k_i + θ (z − z_c),  at the tips z = h ± R
 *
 * Heights are taken from the centre of stiffness, so their zero may lie anywhere. Turning left and
 * right give M_g either sign: each tip gets the one that moves it forward.
 *
 * @param mounted thrust T [N], 0 to 5000; thrust line h and mounts' heights z [m], −2 to 2; stiffness
 *   k [N/m], 100 to 1e8; radius R [m], 0.1 to 2; gyroscopic moment M_g [N m], 0 to 2000
 * @returns movements [m] and tilt [rad]
 * @throws {OutOfRangeError} if a value is NaN or outside its range, or all mounts have one height,
 *   which leaves the tilt without resistance
 * @source derived in METHOD.md, section i
 */
export function tipMovement(mounted: MountedPropeller): TipMovement {
  const thrustN = requireInRange('thrustN', mounted.thrustN, THRUST_N)
  const h = requireInRange('thrustLineM', mounted.thrustLineM, HEIGHT_M)
  const radiusM = requireInRange('tipRadiusM', mounted.tipRadiusM, RADIUS_M)
  const M_g = requireInRange('gyroscopicMomentNm', mounted.gyroscopicMomentNm, MOMENT_NM)
  const { stiffnessNPerM, centreM, tiltStiffnessNm } = mountStiffness(mounted.mounts)
  const arm = h - centreM
  const tiltRad = (thrustN * arm) / tiltStiffnessNm
  const turningRad = M_g / tiltStiffnessNm
  const shiftM = thrustN / stiffnessNPerM
  const topArm = arm + radiusM
  const bottomArm = arm - radiusM
  return {
    topM: shiftM + tiltRad * topArm + turningRad * Math.abs(topArm),
    bottomM: shiftM + tiltRad * bottomArm + turningRad * Math.abs(bottomArm),
    gyroscopicM: turningRad * Math.max(Math.abs(topArm), Math.abs(bottomArm)),
    tiltRad,
  }
}

/** Stiffness along the axis, height of its centre, and stiffness against tilting about that centre. */
function mountStiffness(mounts: readonly Mount[]) {
  let k = 0
  let kz = 0
  for (const { stiffnessNPerM, heightM } of mounts) {
    k += requireInRange('stiffnessNPerM', stiffnessNPerM, STIFFNESS_N_PER_M)
    kz += stiffnessNPerM * requireInRange('heightM', heightM, HEIGHT_M)
  }
  const centreM = kz / k
  let tiltStiffnessNm = 0
  for (const { stiffnessNPerM, heightM } of mounts) {
    tiltStiffnessNm += stiffnessNPerM * (heightM - centreM) ** 2
  }
  if (!(tiltStiffnessNm > 1e-9 * k)) {
    throw new OutOfRangeError('tilt stiffness', tiltStiffnessNm, 1e-9 * k, Number.POSITIVE_INFINITY)
  }
  return { stiffnessNPerM: k, centreM, tiltStiffnessNm }
}

/**
 * Gyroscopic moment of a propeller that is turned about an axis across its own.
 *
 *     M_g = I_p ω Ω,  ω = 2π n / 60
 *
 * It acts about the axis across both: yawing tilts the propeller up or down.
 *
 * @param inertiaKgM2 moment of inertia of the propeller about its axis I_p [kg m²], 0 to 10
 * @param propellerRpm speed of the propeller n [1/min], 0 to 10 000
 * @param turnRateRadPerS rate of turning Ω [rad/s], 0 to 10
 * @returns size of the moment [N m]
 * @throws {OutOfRangeError} if a value is NaN or outside its range
 * @source rigid-body dynamics: rate of change of angular momentum (from memory)
 * @example gyroscopicMomentNm(0.05, 2800, 1.2) // 17.59
 */
export function gyroscopicMomentNm(
  inertiaKgM2: number,
  propellerRpm: number,
  turnRateRadPerS: number,
): number {
  const inertia = requireInRange('inertiaKgM2', inertiaKgM2, { min: 0, max: 10 })
  const rpm = requireInRange('propellerRpm', propellerRpm, { min: 0, max: 10_000 })
  const rate = requireInRange('turnRateRadPerS', turnRateRadPerS, { min: 0, max: 10 })
  return inertia * ((2 * Math.PI * rpm) / 60) * rate
}

/** Allowances on a clearance: engineering judgement, there is no standard. */
export const CLEARANCE_ALLOWANCE = {
  /** For what the movement may be larger: soft or worn mounts, rough running [1]. */
  movementFactor: 1.5,
  /** What must remain in any case [mm]. */
  remainingMm: 10,
} as const

/**
 * Clearance a propeller needs at rest, so that something remains under load.
 *
 *     c ≥ 1.5 Δx + f + 10 mm
 *
 * @param movementMm largest movement of a tip towards the cage Δx [mm], −100 to 500; a movement away
 *   counts as none
 * @param bladeFlexMm how far a blade bends forward under thrust f [mm], 0 to 500
 * @returns clearance at rest [mm]
 * @throws {OutOfRangeError} if a value is NaN or outside its range
 * @source engineering judgement of METHOD.md, section i; no standard exists
 * @example requiredClearanceMm(22.26, 5) // 48.39
 */
export function requiredClearanceMm(movementMm: number, bladeFlexMm: number): number {
  const movement = requireInRange('movementMm', movementMm, { min: -500, max: 500 })
  const flex = requireInRange('bladeFlexMm', bladeFlexMm, { min: 0, max: 500 })
  const { movementFactor, remainingMm } = CLEARANCE_ALLOWANCE
  return movementFactor * Math.max(movement, 0) + flex + remainingMm
}
