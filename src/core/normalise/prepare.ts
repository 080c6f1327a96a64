import { kelvinFromCelsius } from '../units.ts'
import { type PreparedClimb, prepareClimb } from './climb.ts'
import { deriveFigures, type PropellerState } from './derived.ts'
import { type PreparedEnergy, prepareEnergyUse } from './energy-use.ts'
import { type PreparedBurn, prepareFuelBurn } from './fuel-burn.ts'
import type { KnownSession } from './inputs/known.ts'
import type { FlownLevel } from './level-flight.ts'
import { type PreparedLevelSpeed, prepareLevelSpeed } from './level-speed.ts'
import { type PreparedSink, prepareSink } from './sink.ts'
import { type PreparedSound, prepareSoundLevel } from './sound-level.ts'
import { type FlownPull, type PreparedPull, prepareStaticPull } from './static-pull.ts'
import type {
  ClimbRun,
  Derived,
  EnergyUseRun,
  Equipment,
  FlownEntry,
  FuelBurnRun,
  LevelSpeedRun,
  Run,
  SinkRun,
  SoundLevelRun,
  StaticPullRun,
  TipClearanceRun,
} from './types.ts'

/** A run worked out, by its kind, with what follows from its engine speed. */
export type PreparedRun = WorkedOut & { readonly derived: Derived | undefined }

type WorkedOut =
  | { readonly kind: 'climb'; readonly run: ClimbRun; readonly climb: PreparedClimb }
  | { readonly kind: 'fuelBurn'; readonly run: FuelBurnRun; readonly burn: PreparedBurn }
  | { readonly kind: 'energyUse'; readonly run: EnergyUseRun; readonly energy: PreparedEnergy }
  | { readonly kind: 'staticPull'; readonly run: StaticPullRun; readonly pull: PreparedPull }
  | { readonly kind: 'soundLevel'; readonly run: SoundLevelRun; readonly sound: PreparedSound }
  | { readonly kind: 'sink'; readonly run: SinkRun; readonly sink: PreparedSink }
  | { readonly kind: 'levelSpeed'; readonly run: LevelSpeedRun; readonly speed: PreparedLevelSpeed }
  | { readonly kind: 'tipClearance'; readonly run: TipClearanceRun }

/**
 * Works out what happened in a run, short of its uncertainty.
 *
 * @param known the session with its gaps filled
 * @param submitted entry, run and equipment as submitted
 * @returns the run, worked out
 * @throws {OutOfRangeError} if the readings lie outside the physics
 * @source METHOD.md
 */
export function prepareRun(
  known: KnownSession,
  submitted: { readonly entry: FlownEntry; readonly run: Run; readonly equipment: Equipment },
): PreparedRun {
  const worked = workOut(known, submitted)
  if (worked.kind === 'sink' || worked.kind === 'levelSpeed' || worked.kind === 'tipClearance') {
    return { ...worked, derived: undefined }
  }
  const { rpm } = worked.run
  const derived = deriveFigures(rpm, submitted.equipment, propellerState(worked, known))
  return { ...worked, derived }
}

function workOut(
  known: KnownSession,
  submitted: { readonly entry: FlownEntry; readonly run: Run; readonly equipment: Equipment },
): WorkedOut {
  const { entry, run, equipment } = submitted
  switch (run.kind) {
    case 'climb':
      return { kind: run.kind, run, climb: prepareClimb(known, { entry, run, equipment }) }
    case 'fuelBurn':
      return { kind: run.kind, run, burn: prepareFuelBurn(known, { entry, run, equipment }) }
    case 'energyUse':
      return { kind: run.kind, run, energy: prepareEnergyUse(known, { entry, run, equipment }) }
    case 'staticPull':
      return { kind: run.kind, run, pull: prepareStaticPull(known, { run, equipment }) }
    case 'soundLevel':
      return { kind: run.kind, run, sound: prepareSoundLevel(run) }
    case 'sink':
      return { kind: run.kind, run, sink: prepareSink(known, { entry, run }) }
    case 'levelSpeed':
      return { kind: run.kind, run, speed: prepareLevelSpeed(known, { entry, run }) }
    case 'tipClearance':
      return { kind: run.kind, run }
  }
}

/** Runs with the engine on, of which something is known. */
type Powered = Exclude<WorkedOut, { readonly kind: 'sink' | 'levelSpeed' | 'tipClearance' }>

/** How the propeller worked; at a sound level nothing is known but the air. */
function propellerState(worked: Powered, { air }: KnownSession): PropellerState {
  switch (worked.kind) {
    case 'climb':
      return inFlight(worked.climb.flown)
    case 'fuelBurn':
      return inFlight(worked.burn.flown)
    case 'energyUse':
      return inFlight(worked.energy.flown)
    case 'staticPull':
      return atStandstill(worked.pull.flown)
    case 'soundLevel':
      return { airspeedMps: 0, temperatureK: kelvinFromCelsius(air.temperatureC.value) }
  }
}

function inFlight({
  air,
  airspeedMps,
  thrustN,
}: Pick<FlownLevel, 'air' | 'airspeedMps' | 'thrustN'>): PropellerState {
  const { temperatureK, densityKgPerM3 } = air
  return { airspeedMps, temperatureK, loaded: { thrustN, densityKgPerM3 } }
}

function atStandstill({ air, calmThrustN, powerRatio }: FlownPull): PropellerState {
  return {
    airspeedMps: 0,
    temperatureK: air.temperatureK,
    loaded: { thrustN: calmThrustN, densityKgPerM3: air.densityKgPerM3 },
    staticPowerRatio: powerRatio,
  }
}
