import { densityRatio } from '../atmosphere/density.ts'
import { OutOfRangeError } from '../errors.ts'
import { type Model, propagate, type UncertainInput } from '../uncertainty/propagate.ts'
import {
  AIR_POSITIONS,
  airOfClimb,
  type ClimbContext,
  type FlownClimb,
  flyClimb,
  unflown,
} from './climb-flight.ts'
import { CLIMB_INPUTS, climbInputs, X } from './climb-inputs.ts'
import type { KnownSession } from './inputs/known.ts'
import { linkWing } from './inputs/linked.ts'
import { byPowerRule, modelFactor } from './inputs/run.ts'
import { inOrder, standsAt, valuesOf } from './inputs/vector.ts'
import { powerRatioUncertainty } from './model/full-throttle-power.ts'
import {
  climbPowerW,
  type SteadyClimb,
  steadyClimb,
  steadyClimbRateMps,
} from './model/steady-climb.ts'
import { answeringNaN, budgetOf, evidenceOf, LOG_EVIDENCE, OUTPUTS, VALUE } from './outcome.ts'
import { referenceFlight } from './reference.ts'
import type { ClimbRun, Equipment, Evidence, FlownEntry, Normalized } from './types.ts'

/** One climb with everything filled in and worked out. */
export interface PreparedClimb {
  readonly inputs: readonly UncertainInput[]
  readonly context: ClimbContext
  readonly flown: FlownClimb
  /** The climb that the same induced power carries at the reference state. */
  readonly atReference: SteadyClimb
}

/**
 * Gathers the inputs of a climb and works out what happened in it.
 *
 * @param known air and wing of the session, gaps filled
 * @param submitted entry, run and equipment as submitted
 * @returns the climb as flown and at the reference state, ready for {@link normaliseClimb}
 * @throws {OutOfRangeError} if the readings lie outside the physics, such as a climb too steep for
 *   its airspeed, or a power the reference wing has no steady climb for
 * @source METHOD.md, sections c, d and j
 */
export function prepareClimb(
  known: KnownSession,
  submitted: { readonly entry: FlownEntry; readonly run: ClimbRun; readonly equipment: Equipment },
): PreparedClimb {
  const { inputs: named, links } = linkWing(
    climbInputs(known, submitted),
    { names: CLIMB_INPUTS },
    known.wing,
  )
  const { drive } = submitted.equipment
  const context = { pressureIsQnh: known.air.pressureIsQnh, drive, wing: links }
  const inputs = inOrder(CLIMB_INPUTS, named)
  const x = valuesOf(inputs)
  const air = airOfClimb(x, context)
  const flown = flyClimb(x, context, air, unflown(air))
  const { powerRatio } = flown
  const sigma = densityRatio(flown.air.densityKgPerM3)
  inputs[X.powerRatioFactor] = modelFactor(
    named.powerRatioFactor.source,
    powerRatioUncertainty(drive, powerRatio, sigma) / powerRatio,
    byPowerRule(1 - powerRatio),
  )
  return { inputs, context, flown, atReference: climbAtReference(flown) }
}

/**
 * Brings a climb to the reference state, with its uncertainty budget.
 *
 *     Δh/t → Vc → T → P_i/φ = P_ref → T_ref, Vc_ref;   evidence: ln P_ref
 *
 * @param climb what {@link prepareClimb} gave
 * @returns climb rate [m/s], thrust [N] and induced power [W] at the reference state; evidence
 * @source METHOD.md, sections d and j
 */
export function normaliseClimb(climb: PreparedClimb): {
  readonly normalized: Normalized
  readonly evidence: Evidence
} {
  const { inputs, atReference } = climb
  const propagation = propagate(inputs, OUTPUTS, climbModel(climb))
  return {
    normalized: {
      metric: 'climbRate',
      value: atReference.climbRateMps,
      unit: 'm/s',
      ...budgetOf(inputs, propagation),
      inducedPowerW: climb.flown.inducedPowerW,
      thrustN: atReference.thrustN,
      climbRateMps: atReference.climbRateMps,
    },
    evidence: evidenceOf('inducedPower', inputs, propagation),
  }
}

/**
 * The model of a climb: climb rate at the reference state [m/s] and ln of the induced power.
 *
 * Another propeller diameter than the catalogue's changes the power, but the same catalogue diameter
 * turns the power back into a climb: what such an error does to the evidence is what it does there.
 *
 *     ln P = ln P_i(D'),  and for D' ≠ D:  ln P(Vc_ref(D'), D)
 *
 * @source METHOD.md, sections d and j
 */
export function climbModel({ inputs, context, flown: nominal, atReference }: PreparedClimb): Model {
  const { climbAngleRad } = atReference
  const flight = referenceFlight(nominal.discAreaM2)
  const flown = { ...nominal }
  return answeringNaN((x, y) => {
    const air = standsAt(inputs, x, AIR_POSITIONS) ? nominal.air : airOfClimb(x, context)
    const { inducedPowerW, discAreaM2 } = flyClimb(x, context, air, flown)
    const sameDisc = discAreaM2 === nominal.discAreaM2
    const there = sameDisc ? flight : referenceFlight(discAreaM2)
    y[VALUE] = steadyClimbRateMps(inducedPowerW, there, climbAngleRad)
    y[LOG_EVIDENCE] = Math.log(sameDisc ? inducedPowerW : climbPowerW(y[VALUE]!, flight))
    // No steady climb below 45° takes this power: then neither output has an answer.
    if (Number.isNaN(y[VALUE])) y.fill(Number.NaN)
  })
}

function climbAtReference({ inducedPowerW, discAreaM2 }: FlownClimb): SteadyClimb {
  const climb = steadyClimb(inducedPowerW, referenceFlight(discAreaM2))
  if (!climb.withinModel) throw tooStrong(inducedPowerW, climb.powerW)
  return climb
}

/** More power than the reference wing can turn into a steady climb below 45°. */
function tooStrong(powerW: number, mostW: number): OutOfRangeError {
  return new OutOfRangeError('inducedPowerW', powerW, 0, mostW)
}
