import type { CommonShare, UncertainInput } from '../../uncertainty/propagate.ts'
import type { Equipment, FlownEntry, Stated } from '../types.ts'
import { DEFAULT_U, MASS_U_KG } from './defaults.ts'
import { statedOr } from './stated.ts'

/**
 * All-up mass as flown [kg]; a mass not said to be weighed is taken as estimated.
 *
 * @source METHOD.md, section j
 */
export function massInput(entry: FlownEntry): UncertainInput {
  const fallback = MASS_U_KG[entry.massSource ?? 'estimated']
  return {
    source: 'all-up mass',
    value: entry.allUpMassKg,
    standardUncertainty: statedOr(entry.uncertainty, 'allUpMassKg', fallback),
    sharedWithinSession: true,
    common: FOLLOWS_PILOT,
  }
}

/**
 * Propeller diameter [m], common to all runs of the set-up.
 *
 * @source METHOD.md, section j
 */
export function diameterInput({ propellerDiameterCm }: Equipment): UncertainInput {
  return {
    source: 'propeller diameter',
    value: propellerDiameterCm / 100,
    standardUncertainty: DEFAULT_U.propellerDiameterM,
    sharedWithinSession: true,
    common: [{ reach: 'setup', fraction: 1 }],
  }
}

/**
 * A field that counts as exact unless the pilot states an uncertainty.
 *
 * @source METHOD.md, section j
 */
export function exactUnlessStated(
  source: string,
  value: number,
  stated: { readonly uncertainty?: Stated; readonly field: string },
): UncertainInput {
  return {
    source,
    value,
    standardUncertainty: statedOr(stated.uncertainty, stated.field, 0),
    sharedWithinSession: false,
  }
}

/** An error that a pilot carries from session to session: own wing, own scales. */
export const FOLLOWS_PILOT: readonly CommonShare[] = [{ reach: 'pilot', fraction: 1 }]

/** An error of the method itself: the same for everybody. */
export const SAME_FOR_ALL: readonly CommonShare[] = [{ reach: 'everyone', fraction: 1 }]

/**
 * An error of the model of a setup that grows with a correction, with its sign.
 *
 * @param correction the correction the error is in proportion to; only its sign counts
 * @returns the whole of it, each setup's own
 * @source derived: model errors in proportion to a correction turn round with it
 */
export function bySetup(correction: number): readonly CommonShare[] {
  return [{ reach: 'setup', fraction: signOf(correction) }]
}

/**
 * An error of the full-throttle power that grows with a correction, with its sign: in part the same
 * for all (the rule is wrong), in part each engine's own (it does not follow the rule).
 *
 * @param correction the correction the error is in proportion to; only its sign counts
 * @returns the two parts, their squares adding up to 1
 * @source derived: model errors in proportion to a correction turn round with it
 */
export function byPowerRule(correction: number): readonly CommonShare[] {
  const sign = signOf(correction)
  return [
    { reach: 'everyone', fraction: sign * Math.sqrt(POWER_RULE_SHARE) },
    { reach: 'powerplant', fraction: sign * Math.sqrt(1 - POWER_RULE_SHARE) },
  ]
}

/**
 * Part of the variance of the full-throttle power ratio that its rule is to blame for; judgement:
 * engines of these kinds differ less from one another than the published rules do.
 */
const POWER_RULE_SHARE = 0.75

const signOf = (correction: number) => (correction < 0 ? -1 : 1)

/**
 * A factor of 1 that stands for what a model leaves out, the same in every run of a session.
 *
 * @source METHOD.md, sections d and e
 */
export function modelFactor(
  source: string,
  standardUncertainty: number,
  common: readonly CommonShare[] = [],
): UncertainInput {
  return { source, value: 1, standardUncertainty, sharedWithinSession: true, common }
}
