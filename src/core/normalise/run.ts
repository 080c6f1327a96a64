import { normaliseClimb } from './climb.ts'
import { normaliseEnergyUse } from './energy-use.ts'
import { normaliseFuelBurn } from './fuel-burn.ts'
import { knownAir } from './inputs/air.ts'
import type { KnownSession } from './inputs/known.ts'
import { knownWing } from './inputs/wing.ts'
import { normaliseLevelSpeed } from './level-speed.ts'
import { type PreparedRun, prepareRun } from './prepare.ts'
import { assumptionsOf, type RunContext } from './run-warnings.ts'
import { normaliseSink } from './sink.ts'
import { normaliseSoundLevel } from './sound-level.ts'
import { normaliseStaticPull } from './static-pull.ts'
import { normaliseTipClearance } from './tip-clearance.ts'
import type { FlightSession, RunInput, RunOutcome } from './types.ts'

/**
 * Fills the gaps of a session for one all-up mass.
 *
 * @param session the session as described
 * @param allUpMassKg all-up mass as flown [kg]
 * @returns air and wing as uncertain inputs, with what had to be assumed
 * @throws {OutOfRangeError} if no pressure is given and the elevation has no standard pressure
 * @source METHOD.md, sections a, b, d and j
 */
export function knownSession(session: FlightSession, allUpMassKg: number): KnownSession {
  return {
    air: knownAir(session),
    wing: knownWing(session.wing, allUpMassKg),
    airMotion: session.conditions.airMotion,
    windMps: session.conditions.windMps,
  }
}

/**
 * Brings one run to the reference state.
 *
 * @param input session, entry, run and equipment as submitted; where the run stands
 * @returns result with budget, evidence for the fit, and what had to be assumed
 * @throws {OutOfRangeError} if the readings lie outside the physics; `findFaults` finds such
 *   readings beforehand
 * @source METHOD.md
 */
export function normaliseRun(input: RunInput): RunOutcome {
  const known = knownSession(input.session, input.entry.allUpMassKg)
  return normalisePrepared(prepareRun(known, input), {
    known,
    equipment: input.equipment,
    at: input.at ?? { entryIndex: 0, runIndex: 0 },
  })
}

/**
 * Brings a run that is worked out to the reference state.
 *
 * @param prepared what {@link prepareRun} gave
 * @param context the session with its gaps filled, the equipment, and where the run stands
 * @returns result with budget, evidence for the fit, and what had to be assumed
 * @source METHOD.md
 */
export function normalisePrepared(prepared: PreparedRun, context: RunContext): RunOutcome {
  const { derived, run } = prepared
  return {
    ...resultOf(prepared),
    ...(derived === undefined ? {} : { derived }),
    warnings: assumptionsOf(run, context),
  }
}

function resultOf(prepared: PreparedRun): Pick<RunOutcome, 'normalized' | 'evidence'> {
  switch (prepared.kind) {
    case 'climb':
      return normaliseClimb(prepared.climb)
    case 'fuelBurn':
      return normaliseFuelBurn(prepared.burn)
    case 'energyUse':
      return normaliseEnergyUse(prepared.energy)
    case 'staticPull':
      return normaliseStaticPull(prepared.pull)
    case 'soundLevel':
      return normaliseSoundLevel(prepared.sound)
    case 'sink':
      return normaliseSink(prepared.sink)
    case 'levelSpeed':
      return normaliseLevelSpeed(prepared.speed)
    case 'tipClearance':
      return normaliseTipClearance(prepared.run)
  }
}
