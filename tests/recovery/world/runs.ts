import type { ClimbRun, FuelBurnRun } from '../../../src/core/normalise/types.ts'
import { airAtHeight, shownGainM } from './air.ts'
import { type Chance, rounded } from './chance.ts'
import type { Day } from './day.ts'
import { climbAtFullThrottle, flightAtClimbRate } from './flight.ts'
import type { Habits } from './habits.ts'
import type { WorldPilot } from './pilots.ts'
import type { WorldSetup } from './setups.ts'
import type { Switches } from './sources.ts'
import type { Flyer } from './wing.ts'

/** One setup with one pilot on one day. */
export interface Flown {
  readonly pilot: WorldPilot
  readonly day: Day
  readonly setup: WorldSetup
  readonly flyer: Flyer
  /** Thrust and flow over those of the type [1]: the specimen and the day. */
  readonly thrustFactor: number
  readonly flowFactor: number
}

/** Below this a pilot breaks the climb off and hands in nothing [m/s]. */
const LEAST_CLIMB_MPS = 0.25
/**
 * Mean vertical air over a burn of ten minutes against that over a climb [1]: judgement. It is the mean
 * of more air the longer it lasts, so it falls with the root of the time.
 */
const BURN_AIR_SHARE = { ofClimb: 0.4, atS: 600 } as const
/** What the engines here burn in level flight [L/h], to tell about how long a burn lasts. */
const ABOUT_L_PER_H = 2.7
/** Expansion of gasoline [1/K]. Common practice: about 0.12 % per kelvin, fuels differ. */
const EXPANSION_PER_K = 0.00121

/**
 * A climb from one height to another, timed by hand; null where it was broken off.
 *
 * The time is the integral of dh/(Vc + w) over the height, by Simpson's rule.
 */
export function flyClimb(chance: Chance, flown: Flown, on: Switches): ClimbRun | null {
  const { pilot, day, flyer, setup } = flown
  const startHeightAboveSiteM = 10 * chance.integer(3, 15)
  const trueGainM = 50 * chance.integer(2, 5)
  const airMps = day.sessionAirMps + chance.normal(1) * day.climbAirSdMps
  const noiseM = pilot.hasBarometer ? chance.normal(0.35) : chance.normal(2)
  const watchS = chance.normal(0.1)
  const rates = [0, trueGainM / 2, trueGainM].map((aboveM) => {
    const air = airAtHeight(day.column, startHeightAboveSiteM + aboveM)
    const thrust = { air, thrustFactor: flown.thrustFactor }
    return climbAtFullThrottle(flyer, setup.propulsion, thrust).climbRateMps + airMps
  })
  if (Math.min(...rates) < LEAST_CLIMB_MPS) return null
  const [first, middle, last] = rates.map((rate) => 1 / rate) as [number, number, number]
  const trueS = (trueGainM * (first + 4 * middle + last)) / 6
  const endM = startHeightAboveSiteM + trueGainM
  const shownM = pilot.hasBarometer
    ? shownGainM(day.column, startHeightAboveSiteM, endM) * (1 + pilot.heightScale)
    : trueGainM
  return {
    kind: 'climb',
    heightGainM: on.height ? rounded(shownM + noiseM, 1) : shownM,
    durationS: on.watch ? rounded(trueS + watchS, pilot.watchStepS) : trueS,
    heightSource: pilot.hasBarometer ? 'barometric' : 'gnss',
    startHeightAboveSiteM,
  }
}

/** A measured volume burned in flight about level, to starvation. */
export function flyBurn(
  chance: Chance,
  flown: Flown,
  { on, burnSteps }: { readonly on: Switches } & Pick<Habits, 'burnSteps'>,
): FuelBurnRun {
  const { pilot, day, setup, flyer } = flown
  const volumeMl = 50 * chance.integer(...burnSteps)
  const heightAboveSiteM = 10 * chance.integer(10, 30)
  const heightChangeM = chance.normal(4)
  const aboutS = (3.6 * volumeMl) / ABOUT_L_PER_H
  const airShare = BURN_AIR_SHARE.ofClimb * Math.sqrt(BURN_AIR_SHARE.atS / aboutS)
  const airMps = day.sessionAirMps + chance.normal(1) * airShare * day.climbAirSdMps
  // Turns and a busy throttle only ever cost fuel.
  const handling = 1 + Math.abs(chance.normal(0.025))
  const readVolume = 1 + pilot.cylinderScale + chance.normal(0.007)
  const fuelTemperatureC = day.column.fieldTemperatureK - 273.15 + chance.normal(4)
  const starvationS = chance.normal(2)
  const readHeightM = chance.normal(2)
  const trueMl = volumeMl / (on.volume ? readVolume : 1)
  const litres15 = (trueMl / 1000) * Math.exp(-EXPANSION_PER_K * (fuelTemperatureC - 15))
  const air = airAtHeight(day.column, heightAboveSiteM)
  const flowAt = (climbRateMps: number) => {
    const { thrustN, airspeedMps } = flightAtClimbRate(flyer, climbRateMps, air)
    const flow = setup.propulsion.fuelFlowLPerH(thrustN, airspeedMps, air)
    return flow * flown.flowFactor * (on.handling ? handling : 1)
  }
  const firstS = (3600 * litres15) / flowAt(-airMps)
  const trueS = (3600 * litres15) / flowAt(heightChangeM / firstS - airMps)
  return {
    kind: 'fuelBurn',
    volumeMl,
    durationS: on.watch ? rounded(trueS + starvationS, 1) : trueS,
    heightAboveSiteM,
    heightChangeM: on.height ? rounded(heightChangeM + readHeightM, 1) : heightChangeM,
    fuelTemperatureC: on.volume
      ? rounded(day.column.fieldTemperatureK - 273.15, 1)
      : fuelTemperatureC,
  }
}
