import { CAUTIONS } from '../../../contract/cautions.ts'
import type { ClearanceVerdict, TipClearanceAnswer } from '../../../core/safety/tip-clearance.ts'
import { TIP_CLEARANCE_U } from '../../../core/safety/tip-clearance-inputs.ts'
import { CLEARANCE_ALLOWANCE } from '../../../core/safety/tip-movement.ts'
import type { TipClearanceQuestion } from './schema.ts'

export const NOISE_CRITERION_NAME =
  'NIOSH recommended exposure limit (publication 98-126, 1998): 85 dB(A) for 8 h, 3 dB exchange rate'

export const NOISE_ASSUMPTIONS = [
  'The level is that at the unprotected ear, and the rest of the day is quiet.',
  'The attenuation of a hearing protector is not subtracted: what it keeps off depends on its fit.',
  'A level read 3 dB too low doubles the time; a telephone easily reads that far off.',
]

export const NOISE_CAUTIONS = [
  'This is a criterion for workplaces, at which some people still lose hearing; less is better.',
  'Wear hearing protection at every start of the engine, also beside it.',
  CAUTIONS.noise,
  CAUTIONS.deference,
]

/** More tilt than the small-angle model is for [°]. */
const LARGE_TILT_DEG = 5

/** What went into a tip clearance without having been asked. */
export function clearanceAssumptions(question: TipClearanceQuestion): string[] {
  const { movementFactor, remainingMm } = CLEARANCE_ALLOWANCE
  const u = TIP_CLEARANCE_U
  const percent = (ratio: number) => `${Math.round(100 * ratio)} %`
  return [
    'Hoop, engine and bearings are rigid and the angles small; the rubber alone gives.',
    `Standard uncertainties: stiffness of the rubber ${percent(u.stiffnessRatio)}, one mount against the others ${percent(u.singleMountRatio)}, thrust ${percent(u.thrustRatio)}, heights ${u.heightMm} mm. They are judgement, to be tuned on data.`,
    `The allowances, ${movementFactor} times the movement and ${remainingMm} mm, are engineering judgement: there is no standard.`,
    ...(question.bladeFlexMm === undefined
      ? ['No bending of the blades was given: none is counted.']
      : []),
    ...(question.yawRateDegPerS === undefined
      ? ['No turning was given: the gyroscopic moment is left out.']
      : []),
  ]
}

/** The cautions of a tip clearance; what was found comes first. */
export function clearanceCautions({
  comparison,
  tiltDeg,
  handPullN,
}: TipClearanceAnswer): string[] {
  return [
    ...(comparison?.verdict === 'tooSmall'
      ? ['Do not run this propeller under power before the clearance is larger.']
      : []),
    ...(Math.abs(tiltDeg) > LARGE_TILT_DEG
      ? [
          `A tilt of ${Math.abs(tiltDeg).toFixed(0)}° is more than this model is for: the mounts are too soft, or a figure is wrong.`,
        ]
      : []),
    `Try it: pull the tip towards the cage with ${handPullN.toFixed(0)} N on a hand scale and measure the gap that remains.`,
    CAUTIONS.handsAway,
    'Rubber softens when hot and ages: measure again warm, after hard landings and every season.',
    'Cracks, play and loose bolts are not in this arithmetic.',
    CAUTIONS.deference,
  ]
}

/** How a measured clearance stands to the required one, in one sentence that clears nothing. */
export function clearanceSentence(
  verdict: ClearanceVerdict,
  { measuredMm, requiredMm }: { readonly measuredMm: number; readonly requiredMm: number },
): string {
  const figures = `${measuredMm.toFixed(0)} mm measured at rest, ${requiredMm.toFixed(0)} mm computed as needed`
  switch (verdict) {
    case 'tooSmall':
      return `Too little: ${figures}.`
    case 'notResolved':
      return `Within the uncertainty, so it may be too little: ${figures}.`
    case 'larger':
      return `More than computed: ${figures}. That is arithmetic on the figures given, and no clearance to fly: measure under load.`
  }
}
