import { LAPSE_RATE } from '../core/atmosphere/constants.ts'
import { vapourPressurePa, virtualTemperatureK } from '../core/atmosphere/humidity.ts'
import { stationPressurePa } from '../core/atmosphere/pressure.ts'
import { standardTemperatureAtPressureK } from '../core/atmosphere/temperature.ts'
import { climbAt, fuelFlowAt } from '../core/normalise/predict.ts'
import type { AirMotion, Drive, FlightState } from '../core/normalise/types.ts'
import type { Pcg32 } from '../core/random/pcg32.ts'
import { KELVIN_OFFSET, kelvinFromCelsius, PA_PER_HPA } from '../core/units.ts'
import { normal, round } from './chance.ts'
import type { World, WorldField, WorldPilot } from './world.ts'

/** What is true of one session and nobody reads off an instrument. */
export interface TrueSession {
  readonly pilot: WorldPilot
  readonly field: WorldField
  readonly temperatureC: number
  readonly qnhHPa: number
  readonly relativeHumidityPct: number
  readonly airMotion: AirMotion
  readonly airMps: number
  readonly logEffect: number
  readonly wing: FlightState['wing']
}

/** One setup on one evening. */
export interface Flown {
  readonly session: TrueSession
  readonly setup: string
  readonly allUpMassKg: number
  readonly cell: number
}

/** A full-throttle climb, as the pilot writes it down. */
export function climbRun(world: World, flown: Flown, random: Pcg32) {
  const { session, setup, allUpMassKg, cell } = flown
  const { scatter } = world.truth
  const startHeightAboveSiteM = 50 + 10 * random.int(16)
  const trueGainM = 100 + 50 * random.int(3)
  const air = airAbove(session, startHeightAboveSiteM + trueGainM / 2)
  const power = world.truth.setups[setup]!.inducedPowerW * Math.exp(cell)
  const { climbRateMps } = climbAt(
    { inducedPowerW: power, ...equipmentOf(world, setup) },
    { allUpMassKg, wing: session.wing, ...air.state },
  )
  const liftMps = session.airMps + normal(random, scatter.runAirMps[session.airMotion])
  const durationS =
    trueGainM / Math.max(0.25, climbRateMps + liftMps) + normal(random, scatter.stopwatchS)
  const heightSource = random.uniform() < 0.8 ? 'barometric' : 'gnss'
  const heightGainM =
    heightSource === 'barometric' ? trueGainM / air.barometricFactor : trueGainM + normal(random, 2)
  return {
    kind: 'climb',
    heightGainM: round(heightGainM, 0),
    durationS: round(durationS, 1),
    heightSource,
    startHeightAboveSiteM,
    rpm:
      50 *
      Math.round(
        Number(world.catalogue.components[world.catalogue.setups[setup]![0]]!.ratedRpm) * 0.0194,
      ),
  }
}

/** A measured half litre burned in level flight, as the pilot writes it down. */
export function burnRun(world: World, flown: Flown, random: Pcg32) {
  const { session, setup, allUpMassKg, cell } = flown
  const { scatter } = world.truth
  const volumeMl = 500
  const heightAboveSiteM = 150 + 10 * random.int(10)
  const { state } = airAbove(session, heightAboveSiteM)
  const trueFlow = fuelFlowAt(
    {
      fuelFlowLPerH: world.truth.setups[setup]!.fuelFlowLPerH * Math.exp(cell),
      ...equipmentOf(world, setup),
    },
    { allUpMassKg, wing: session.wing, ...state },
  )
  const liftMps = 0.5 * session.airMps + normal(random, 0.25 * scatter.runAirMps[session.airMotion])
  const helped = trueFlow * (1 - (session.wing.glideRatio / session.wing.trimSpeedMps) * liftMps)
  const burnedL = (volumeMl / 1000) * Math.exp(normal(random, scatter.fuelVolume))
  return {
    kind: 'fuelBurn',
    volumeMl,
    durationS: round((3600 * burnedL) / helped + normal(random, scatter.starvationS), 0),
    heightAboveSiteM,
    heightChangeM: 0,
    fuelTemperatureC: round(session.temperatureC, 0),
  }
}

/** The air at a height above the field, and how much more height there is than an altimeter shows. */
export function airAbove(session: TrueSession, aboveSiteM: number) {
  const elevationM = session.field.elevationM + aboveSiteM
  const pressurePa = stationPressurePa(session.qnhHPa * PA_PER_HPA, elevationM)
  const temperatureK = kelvinFromCelsius(session.temperatureC) - LAPSE_RATE * aboveSiteM
  const vapourPa = vapourPressurePa(session.relativeHumidityPct / 100, temperatureK)
  return {
    barometricFactor:
      virtualTemperatureK(temperatureK, vapourPa, pressurePa) /
      standardTemperatureAtPressureK(pressurePa),
    state: {
      elevationM,
      temperatureC: temperatureK - KELVIN_OFFSET,
      relativeHumidityPct: session.relativeHumidityPct,
      stationPressureHPa: pressurePa / PA_PER_HPA,
    },
  }
}

/** What a prediction needs to know of a setup. */
export function equipmentOf(
  world: World,
  setup: string,
): { drive: Drive; propellerDiameterCm: number } {
  const [powerplant, propeller] = world.catalogue.setups[setup]!
  return {
    drive: world.catalogue.components[powerplant]!.drive as Drive,
    propellerDiameterCm: Number(world.catalogue.components[propeller]!.diameterCm),
  }
}
