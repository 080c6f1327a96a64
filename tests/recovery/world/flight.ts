import { G0 } from '../../../src/core/atmosphere/constants.ts'
import type { TrueAir } from './air.ts'
import type { Propulsion } from './plant.ts'
import { rootOf } from './root.ts'
import { type Flyer, forcesOn } from './wing.ts'

/** A steady flight found by balance of forces. */
export interface SteadyFlight {
  readonly airspeedMps: number
  readonly thrustN: number
  /** Climb rate through the air [m/s]. */
  readonly climbRateMps: number
}

/**
 * Steady climb at full throttle: along and across the path
 *
 *     T(V)·cos ε − D = W·sin γ,   L + T(V)·sin ε = W·cos γ
 *
 * solved for the airspeed at which both hold.
 */
export function climbAtFullThrottle(
  flyer: Flyer,
  propulsion: Propulsion,
  { air, thrustFactor }: { readonly air: TrueAir; readonly thrustFactor: number },
): SteadyFlight {
  const weight = flyer.allUpMassKg * G0
  const balance = (airspeedMps: number) => {
    const thrustN = thrustFactor * propulsion.thrustN(airspeedMps, air)
    const { liftN, dragN } = forcesOn(flyer, airspeedMps, { thrustN, air })
    const along = thrustN * Math.cos(flyer.thrustAngleRad) - dragN
    const across = liftN + thrustN * Math.sin(flyer.thrustAngleRad)
    return { thrustN, along, across }
  }
  const airspeedMps = rootOf(
    (V) => {
      const { along, across } = balance(V)
      return Math.hypot(along, across) - weight
    },
    5,
    22,
  )
  const { thrustN, along } = balance(airspeedMps)
  return { airspeedMps, thrustN, climbRateMps: (airspeedMps * along) / weight }
}

/** Steady flight with a given climb rate through the air, thrust as needed. */
export function flightAtClimbRate(flyer: Flyer, climbRateMps: number, air: TrueAir): SteadyFlight {
  const weight = flyer.allUpMassKg * G0
  const cos = Math.cos(flyer.thrustAngleRad)
  const sin = Math.sin(flyer.thrustAngleRad)
  const thrustAt = (airspeedMps: number) => {
    let thrustN = weight / flyer.wing.glideRatio
    for (let pass = 0; pass < 12; pass++) {
      const { dragN } = forcesOn(flyer, airspeedMps, { thrustN, air })
      thrustN = Math.max(0, (dragN + (weight * climbRateMps) / airspeedMps) / cos)
    }
    return thrustN
  }
  const airspeedMps = rootOf(
    (V) => {
      const thrustN = thrustAt(V)
      const { liftN } = forcesOn(flyer, V, { thrustN, air })
      return liftN + thrustN * sin - weight * Math.sqrt(1 - (climbRateMps / V) ** 2)
    },
    5,
    22,
  )
  return { airspeedMps, thrustN: thrustAt(airspeedMps), climbRateMps }
}
