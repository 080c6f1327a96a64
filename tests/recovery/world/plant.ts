import { pistonPowerRatio } from '../../../src/core/normalise/model/full-throttle-power.ts'
import { discAreaM2, inducedPowerW } from '../../../src/core/normalise/model/induced-power.ts'
import { REFERENCE_AIR, type TrueAir } from './air.ts'
import { type Engine, fuelFlowLPerH, seaLevelTorqueNm, torqueIn, torqueNm } from './engine.ts'
import { type Propeller, rpsForThrust, thrustCoefficient, torqueCoefficient } from './propeller.ts'
import { rootOf } from './root.ts'
import type { Switches } from './sources.ts'

const TWO_PI = 2 * Math.PI

/** An engine with gearbox and propeller. */
export interface Plant {
  readonly engine: Engine
  readonly propeller: Propeller
  /** Engine speed over propeller speed [1]. */
  readonly reduction: number
  /** Power at the propeller over power at the crank [1]. */
  readonly gearEfficiency: number
}

/** What the plant does where thrust, speed and air are given. */
export interface Propulsion {
  /** Thrust at full throttle [N]. */
  thrustN(airspeedMps: number, air: TrueAir): number
  /** Flow at part throttle that gives a thrust, volume at 15 °C [L/h]. */
  fuelFlowLPerH(thrustN: number, airspeedMps: number, air: TrueAir): number
}

/** Propeller speed where the torques balance at full throttle [rev/s]. */
export function fullThrottleRps(
  { engine, propeller, reduction, gearEfficiency }: Plant,
  state: { readonly airspeedMps: number; readonly air: TrueAir },
  torqueAt: (rps: number) => number = torqueIn(engine, state.air),
): number {
  const D = propeller.diameterM
  const peak = engine.peakTorqueRps / reduction
  const scale = state.air.densityKgPerM3 * D ** 5
  const excess = (rps: number) => {
    const asked = torqueCoefficient(propeller, state.airspeedMps / (rps * D)) * scale * rps * rps
    return torqueAt(rps * reduction) * reduction * gearEfficiency - asked
  }
  return rootOf(excess, 0.5 * peak, 1.6 * peak)
}

/** Thrust at a propeller speed [N]. */
function thrustAtRps(propeller: Propeller, rps: number, airspeedMps: number, air: TrueAir): number {
  const D = propeller.diameterM
  return (
    thrustCoefficient(propeller, airspeedMps / (rps * D)) * air.densityKgPerM3 * rps ** 2 * D ** 4
  )
}

/** The world's own physics: torque balance and Willans line. */
export function truePropulsion(plant: Plant): Propulsion {
  const { engine, propeller, reduction, gearEfficiency } = plant
  return {
    thrustN(airspeedMps, air) {
      return thrustAtRps(propeller, fullThrottleRps(plant, { airspeedMps, air }), airspeedMps, air)
    },
    fuelFlowLPerH(thrustN, airspeedMps, air) {
      const { densityKgPerM3 } = air
      const rps = rpsForThrust(propeller, { thrustN, airspeedMps, densityKgPerM3 })
      return fuelFlowLPerH(engine, {
        brakeW: shaftW(plant, rps, airspeedMps, air) / gearEfficiency,
        rps: rps * reduction,
        air,
      })
    },
  }
}

function shaftW({ propeller }: Plant, rps: number, airspeedMps: number, air: TrueAir): number {
  const D = propeller.diameterM
  const cq = torqueCoefficient(propeller, airspeedMps / (rps * D))
  return TWO_PI * rps * cq * air.densityKgPerM3 * rps ** 2 * D ** 5
}

/** Where the plant stands in the reference climb and the reference level flight. */
export interface ReferencePoint {
  readonly climb: { readonly thrustN: number; readonly airspeedMps: number }
  readonly level: { readonly thrustN: number; readonly airspeedMps: number }
}

/**
 * The plant with some of the world's physics replaced by the service's, so that truth stays where it
 * is: equal at the reference point, as the normalisation assumes away from it.
 */
export function propulsionWith(plant: Plant, on: Switches, at: ReferencePoint): Propulsion {
  const own = truePropulsion(plant)
  if (on.engine && on.propeller && on.fuel) return own
  const assumed = (air: TrueAir) =>
    pistonPowerRatio(air.pressurePa - air.vapourPa, air.temperatureK)
  const powerW = (thrustN: number, airspeedMps: number, { densityKgPerM3 }: TrueAir) => {
    const areaM2 = discAreaM2(plant.propeller.diameterM)
    return inducedPowerW(thrustN, airspeedMps, { densityKgPerM3, areaM2 })
  }
  const { thrustN: levelN, airspeedMps: levelMps } = at.level
  const flow = own.fuelFlowLPerH(levelN, levelMps, REFERENCE_AIR)
  const levelW = powerW(levelN, levelMps, REFERENCE_AIR)
  return {
    fuelFlowLPerH: on.fuel ? own.fuelFlowLPerH : (T, V, air) => (flow * powerW(T, V, air)) / levelW,
    thrustN: on.propeller ? withAssumedLapse(plant, assumed, own, on) : constantPower(),
  }

  function constantPower(): Propulsion['thrustN'] {
    const { airspeedMps, thrustN } = at.climb
    const climbW = powerW(thrustN, airspeedMps, REFERENCE_AIR)
    const rps = fullThrottleRps(plant, { airspeedMps, air: REFERENCE_AIR }) * plant.reduction
    const lapse = (air: TrueAir) =>
      on.engine
        ? torqueNm(plant.engine, rps, air) / seaLevelTorqueNm(plant.engine, rps)
        : assumed(air)
    return (V, air) => {
      const power = climbW * lapse(air)
      return rootOf((T) => powerW(T, V, air) - power, 0, 3000)
    }
  }
}

function withAssumedLapse(
  plant: Plant,
  assumed: (air: TrueAir) => number,
  own: Propulsion,
  on: Switches,
): Propulsion['thrustN'] {
  if (on.engine) return own.thrustN
  return (airspeedMps, air) => {
    const ratio = assumed(air)
    const torqueAt = (rps: number) => ratio * seaLevelTorqueNm(plant.engine, rps)
    const rps = fullThrottleRps(plant, { airspeedMps, air }, torqueAt)
    return thrustAtRps(plant.propeller, rps, airspeedMps, air)
  }
}
