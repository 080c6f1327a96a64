import { normaliseClimb, type PreparedClimb, prepareClimb } from './climb.ts'
import { normaliseFuelBurn, type PreparedBurn, prepareFuelBurn } from './fuel-burn.ts'
import { knownAir } from './inputs/air.ts'
import type { KnownSession } from './inputs/known.ts'
import { knownWing } from './inputs/wing.ts'
import type {
  ClimbRun,
  Equipment,
  FlightSession,
  FlownEntry,
  FuelBurnRun,
  Run,
  RunInput,
  RunOutcome,
  Warning,
} from './types.ts'

/**
 * Fills the gaps of a session for one all-up mass.
 *
 * @param session the session as described
 * @param allUpMassKg all-up mass as flown [kg]
 * @returns air and wing as uncertain inputs, with what had to be assumed
 * @throws {OutOfRangeError} if no pressure is given and the elevation has no standard pressure
 * @source normalisation specification 1, sections a, b, d.1 and j
 */
export function knownSession(session: FlightSession, allUpMassKg: number): KnownSession {
  return {
    air: knownAir(session),
    wing: knownWing(session.wing, allUpMassKg),
    airMotion: session.conditions.airMotion,
  }
}

/** A run worked out, by its kind. */
export type PreparedRun =
  | { readonly kind: 'climb'; readonly run: ClimbRun; readonly climb: PreparedClimb }
  | { readonly kind: 'fuelBurn'; readonly run: FuelBurnRun; readonly burn: PreparedBurn }

/**
 * Works out what happened in a run, short of its uncertainty.
 *
 * @param known the session with its gaps filled
 * @param submitted entry, run and equipment as submitted
 * @returns the run, worked out
 * @throws {OutOfRangeError} if the readings lie outside the physics
 * @source normalisation specification 1
 */
export function prepareRun(
  known: KnownSession,
  submitted: { readonly entry: FlownEntry; readonly run: Run; readonly equipment: Equipment },
): PreparedRun {
  const { entry, run, equipment } = submitted
  return run.kind === 'climb'
    ? { kind: 'climb', run, climb: prepareClimb(known, { entry, run, equipment }) }
    : { kind: 'fuelBurn', run, burn: prepareFuelBurn(known, { entry, run, equipment }) }
}

/**
 * Brings one run to the reference state.
 *
 * @param input session, entry, run and equipment as submitted; where the run stands
 * @returns result with budget, evidence for the fit, and what had to be assumed
 * @throws {OutOfRangeError} if the readings lie outside the physics; `findFaults` finds such
 *   readings beforehand
 * @source normalisation specification 1
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
 * @source normalisation specification 1
 */
export function normalisePrepared(prepared: PreparedRun, context: RunContext): RunOutcome {
  const { known } = context
  const result =
    prepared.kind === 'climb' ? normaliseClimb(prepared.climb) : normaliseFuelBurn(prepared.burn)
  return {
    ...result,
    warnings: [
      ...known.air.warnings,
      ...known.wing.warnings,
      ...runWarnings(prepared.run, context),
    ],
  }
}

/** What a run needs to know beside itself. */
export interface RunContext {
  readonly known: KnownSession
  readonly equipment: Equipment
  readonly at: { readonly entryIndex: number; readonly runIndex: number }
}

/** What had to be assumed for this run in particular. */
function runWarnings(run: Run, { equipment, at }: RunContext): Warning[] {
  const pointer = `/entries/${at.entryIndex}/runs/${at.runIndex}`
  const warnings: Warning[] = []
  if (run.kind === 'climb' && run.heightSource === 'unknown') {
    warnings.push({
      pointer: `${pointer}/heightSource`,
      code: 'heightSourceUnknown',
      detail: 'How the height was read is not known: half of the barometric correction is applied.',
    })
  }
  if (run.kind === 'climb' && equipment.drive === 'electric') {
    warnings.push({
      pointer,
      code: 'electricPowerAssumed',
      detail:
        'How electric power follows the air is not known: halfway between limited in power and limited in speed is taken. Compare electric runs only at equal charge of the battery.',
    })
  }
  if (run.kind === 'fuelBurn' && run.fuelTemperatureC === undefined) {
    warnings.push({
      pointer: `${pointer}/fuelTemperatureC`,
      code: 'fuelTemperatureAssumed',
      detail: 'No fuel temperature given: that of the air is assumed.',
    })
  }
  return warnings
}
