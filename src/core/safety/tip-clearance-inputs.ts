import type { UncertainInput } from '../uncertainty/propagate.ts'

/** A propeller on its mounts, in the units people measure in. */
export interface TipClearanceQuestion {
  readonly thrustN: number
  /** Height of the thrust line above the level that the mounts' heights are counted from [mm]. */
  readonly thrustLineAboveMountsMm: number
  readonly mounts: readonly { readonly stiffnessNPerMm: number; readonly heightMm: number }[]
  readonly propellerDiameterCm: number
  /** How far a blade bends forward under thrust [mm]; absent: taken as none. */
  readonly bladeFlexMm?: number | undefined
  /** Moment of inertia of the propeller about its axis [kg m²]. */
  readonly propellerInertiaKgM2?: number | undefined
  readonly propellerRpm?: number | undefined
  /** Rate of turning in a steep turn or a swing [°/s]. */
  readonly yawRateDegPerS?: number | undefined
  /** Clearance measured at rest [mm]. */
  readonly staticClearanceMm?: number | undefined
}

/** Standard uncertainties (k = 1) of what goes in. Editorial, to be tuned on data; no source. */
export const TIP_CLEARANCE_U = {
  thrustRatio: 0.05,
  /** All mounts alike: rubber softens when hot and ages, and its catalogue figure is one of many. */
  stiffnessRatio: 0.2,
  /** One mount against the others. */
  singleMountRatio: 0.1,
  heightMm: 2,
  diameterMm: 5,
  bladeFlexRatio: 0.3,
  gyroscopicRatio: 0.2,
  clearanceMm: 2,
} as const

/** Where the inputs stand in the vector of the model; the mounts follow, each with stiffness and height. */
export const X = {
  thrustN: 0,
  thrustLineMm: 1,
  stiffnessFactor: 2,
  diameterMm: 3,
  bladeFlexMm: 4,
  gyroscopicFactor: 5,
  staticClearanceMm: 6,
  mounts: 7,
} as const

const MM_PER_CM = 10

/**
 * All that a tip clearance is worked out from, each with its standard uncertainty.
 *
 * @param question as asked; lengths [mm], diameter [cm], stiffness [N/mm], thrust [N]
 * @returns inputs in the order of {@link X}
 * @source METHOD.md, section i; uncertainties editorial
 */
export function tipClearanceInputs(question: TipClearanceQuestion): UncertainInput[] {
  const u = TIP_CLEARANCE_U
  const flexMm = question.bladeFlexMm ?? 0
  const turns = question.propellerInertiaKgM2 !== undefined
  const clearanceU = question.staticClearanceMm === undefined ? 0 : u.clearanceMm
  return [
    input('thrust', question.thrustN, u.thrustRatio * question.thrustN),
    input('height of the thrust line', question.thrustLineAboveMountsMm, u.heightMm),
    input('stiffness of the rubber', 1, u.stiffnessRatio, { min: 0.1 }),
    input('propeller diameter', MM_PER_CM * question.propellerDiameterCm, u.diameterMm),
    input('bending of the blades', flexMm, u.bladeFlexRatio * flexMm, { min: 0 }),
    input('gyroscopic moment', 1, turns ? u.gyroscopicRatio : 0, { min: 0 }),
    input('measured clearance', question.staticClearanceMm ?? 0, clearanceU),
    ...question.mounts.flatMap(({ stiffnessNPerMm, heightMm }) => [
      input('stiffness of single mounts', stiffnessNPerMm, u.singleMountRatio * stiffnessNPerMm),
      input('height of the mounts', heightMm, u.heightMm),
    ]),
  ]
}

function input(
  source: string,
  value: number,
  standardUncertainty: number,
  bounds: { readonly min?: number } = {},
): UncertainInput {
  return { source, value, standardUncertainty, sharedWithinSession: false, ...bounds }
}
