import type { CommonShare, UncertainInput } from '../../uncertainty/propagate.ts'
import { REFERENCE, REFERENCE_WING_LOADING_KG_PER_M2 } from '../reference.ts'
import type { FlownWing, Warning } from '../types.ts'
import {
  CATALOGUE_GLIDE_FACTOR,
  CATALOGUE_GLIDE_FACTOR_U,
  DEFAULT_U,
  GLIDE_U_RATIO,
} from './defaults.ts'
import type { SharedErrors } from './linked.ts'
import { FOLLOWS_PILOT } from './run.ts'
import { statedOr } from './stated.ts'

/** A wing with every gap filled, and what had to be assumed for that. */
export interface KnownWing {
  readonly glideRatio: UncertainInput
  /** Level airspeed at ISA sea-level density [m/s], at `trimMassKg`. */
  readonly trimSpeedMps: UncertainInput
  readonly trimMassKg: UncertainInput
  /** What the errors of both have in common with the runs, where runs of the session gave them. */
  readonly glideShared: SharedErrors
  readonly trimShared: SharedErrors
  readonly warnings: readonly Warning[]
}

/**
 * Fills the gaps of a wing as it was described.
 *
 * Glide ratio: a measured or estimated one is taken as given, a catalogue one times 0.85, a missing
 * one is 7. Trim speed: a missing one is that of the reference wing at 5.0 kg/m²; a missing mass
 * beside it is the flown mass.
 *
 * @param wing the wing as described
 * @param allUpMassKg all-up mass as flown [kg]
 * @returns glide ratio [1], trim speed [m/s] and its mass [kg] as uncertain inputs, with warnings
 * @source METHOD.md, section d; defaults are editorial
 */
export function knownWing(wing: FlownWing, allUpMassKg: number): KnownWing {
  const warnings: Warning[] = []
  const glideRatio = glideInput(wing, warnings)
  if (wing.trimSpeedMps === undefined)
    return { glideRatio, ...assumedTrim(wing, warnings), ...NOTHING_SHARED, warnings }
  if (wing.trimAtAllUpMassKg === undefined) {
    warnings.push({
      pointer: '/wing/trimAtAllUpMassKg',
      code: 'trimMassAssumed',
      detail: 'No mass given for the trim speed: it is taken to hold at the all-up mass as flown.',
    })
  }
  const { trimSpeedMps, uncertainty } = wing
  const defaultU = DEFAULT_U.trimSpeedRatio * trimSpeedMps
  return {
    glideRatio,
    trimSpeedMps: {
      ...TRIM_SPEED,
      value: trimSpeedMps,
      standardUncertainty: statedOr(uncertainty, 'trimSpeedMps', defaultU),
    },
    trimMassKg: {
      source: 'mass at the trim speed',
      value: wing.trimAtAllUpMassKg ?? allUpMassKg,
      standardUncertainty: statedOr(uncertainty, 'trimAtAllUpMassKg', 0),
      sharedWithinSession: true,
      common: FOLLOWS_PILOT,
    },
    ...NOTHING_SHARED,
    warnings,
  }
}

const NOTHING_SHARED = { glideShared: {}, trimShared: {} } as const

const TRIM_SPEED = {
  source: 'trim speed',
  sharedWithinSession: true,
  common: FOLLOWS_PILOT,
} as const

/** The trim speed of the reference wing, at its loading on this wing's area. */
function assumedTrim(wing: FlownWing, warnings: Warning[]) {
  const { trimSpeedMps } = REFERENCE.wing
  const loading = REFERENCE_WING_LOADING_KG_PER_M2
  warnings.push({
    pointer: '/wing/trimSpeedMps',
    code: 'trimSpeedAssumed',
    detail: `No trim speed given: ${trimSpeedMps} m/s at ${loading} kg/m² is assumed, with a wide uncertainty.`,
  })
  const areaU = statedOr(wing.uncertainty, 'flatAreaM2', DEFAULT_U.wingAreaRatio * wing.flatAreaM2)
  return {
    trimSpeedMps: {
      ...TRIM_SPEED,
      value: trimSpeedMps,
      standardUncertainty: DEFAULT_U.assumedTrimSpeedRatio * trimSpeedMps,
    },
    trimMassKg: {
      source: 'wing area',
      value: loading * wing.flatAreaM2,
      standardUncertainty: loading * areaU,
      sharedWithinSession: true,
      common: FOLLOWS_PILOT,
    },
  }
}

function glideInput(wing: FlownWing, warnings: Warning[]): UncertainInput {
  const label = {
    source: 'glide ratio',
    sharedWithinSession: true,
    common: FOLLOWS_PILOT,
  } as const
  if (wing.glideRatio === undefined) {
    warnings.push({
      pointer: '/wing/glideRatio',
      code: 'glideAssumed',
      detail: `No glide ratio given: ${REFERENCE.wing.glideRatio} is assumed, with a wide uncertainty. A sink run with the engine off would measure it.`,
    })
    const value = REFERENCE.wing.glideRatio
    return { ...label, value, standardUncertainty: GLIDE_U_RATIO.assumed * value }
  }
  const stated = wing.uncertainty?.glideRatio
  if (wing.glideSource === 'catalogue') {
    warnings.push({
      pointer: '/wing/glideRatio',
      code: 'glideCatalogue',
      detail: `A catalogue glide ratio is that of the bare wing: ${CATALOGUE_GLIDE_FACTOR} of it is used, for pilot and cage.`,
    })
    const value = CATALOGUE_GLIDE_FACTOR * wing.glideRatio
    const standardUncertainty =
      stated === undefined
        ? GLIDE_U_RATIO.catalogue * value
        : Math.hypot(CATALOGUE_GLIDE_FACTOR * stated, CATALOGUE_GLIDE_FACTOR_U * wing.glideRatio)
    const allowance = (CATALOGUE_GLIDE_FACTOR_U * wing.glideRatio) / standardUncertainty
    return { ...label, value, standardUncertainty, common: allowanceAndOwn(allowance) }
  }
  if (wing.glideSource === undefined) {
    warnings.push({
      pointer: '/wing/glideSource',
      code: 'glideSourceAssumed',
      detail: 'Where the glide ratio comes from is not given: it is treated as estimated.',
    })
  }
  const ratio = GLIDE_U_RATIO[wing.glideSource ?? 'estimated']
  return {
    ...label,
    value: wing.glideRatio,
    standardUncertainty: stated ?? ratio * wing.glideRatio,
  }
}

/** The allowance for cage and pilot is one error for everybody; what is left is that of this wing. */
function allowanceAndOwn(allowance: number): readonly CommonShare[] {
  const everyone = Math.min(1, allowance)
  return [
    { reach: 'everyone', fraction: everyone },
    { reach: 'pilot', fraction: Math.sqrt(1 - everyone ** 2) },
  ]
}
