import { G0 } from '../../atmosphere/constants.ts'
import { requireInRange } from '../../atmosphere/range.ts'

/** Steepest climb the model answers for: beyond it, power need not rise with the angle any more. */
const STEEPEST_RAD = Math.PI / 4
const MAX_ITERATIONS = 60
const POWER_RANGE_W = { min: 0, max: 1e6 } as const

/** What a wing, a mass and an air ask of the thrust. */
export interface ClimbingFlight {
  readonly allUpMassKg: number
  readonly glideRatio: number
  /** Airspeed in level flight at this mass and density [m/s]. */
  readonly levelAirspeedMps: number
  readonly densityKgPerM3: number
  readonly discAreaM2: number
}

/** The steady climb an induced power carries. */
export interface SteadyClimb {
  readonly climbAngleRad: number
  readonly climbRateMps: number
  readonly airspeedMps: number
  readonly thrustN: number
  /** Induced power of this climb [W]. */
  readonly powerW: number
  /** dγ/d ln P [rad]. */
  readonly angleSlopeRad: number
  /** False where the power would carry the climb past 45°; the climb given is then that at 45°. */
  readonly withinModel: boolean
}

/**
 * Steady climb of a wing at fixed trim on a given induced power.
 *
 *     T·(V + v) = P,  T = W·(sin γ + cos γ/G),  V = V_L·√cos γ,  v = −V/2 + √(V²/4 + T/(2ρA))
 *
 * Solved for γ between the glide (P = 0) and 45° by Newton's method inside a shrinking bracket; on
 * that range T·(V + v) rises with γ for every glide ratio of 4 or more.
 *
 * @param powerW induced power P [W], 0 to 1e6
 * @param flight all-up mass [kg], glide ratio [1], level airspeed [m/s], density [kg/m³], disc [m²]
 * @returns angle, climb rate (negative: sink), airspeed, thrust
 * @throws {OutOfRangeError} if the power is NaN or lies outside its range
 * @source derived in normalisation specification 1, sections d.1 and d.4
 */
export function steadyClimb(powerW: number, flight: ClimbingFlight): SteadyClimb {
  requireInRange('powerW', powerW, POWER_RANGE_W)
  let low = -Math.atan(1 / flight.glideRatio)
  let high = STEEPEST_RAD
  if (powerAtAngle(high, flight).powerW <= powerW) return describe(high, flight, false)

  let angle = 0.15
  for (let iteration = 0; iteration < MAX_ITERATIONS; iteration++) {
    const point = powerAtAngle(angle, flight)
    const error = point.powerW - powerW
    if (error > 0) high = angle
    else low = angle
    const newton = angle - error / point.slopeW
    const next = newton > low && newton < high ? newton : (low + high) / 2
    const step = Math.abs(next - angle)
    angle = next
    if (step < 1e-13) break
  }
  return describe(angle, flight, true)
}

/** Induced power at a climb angle, with its derivative by the angle. */
function powerAtAngle(angle: number, flight: ClimbingFlight) {
  const sin = Math.sin(angle)
  const cos = Math.cos(angle)
  const weight = flight.allUpMassKg * G0
  const thrust = Math.max(0, weight * (sin + cos / flight.glideRatio))
  const thrustSlope = weight * (cos - sin / flight.glideRatio)
  const speed = flight.levelAirspeedMps * Math.sqrt(cos)
  const speedSlope = (-0.5 * speed * sin) / cos
  const loading = 1 / (2 * flight.densityKgPerM3 * flight.discAreaM2)
  const root = Math.sqrt((speed * speed) / 4 + thrust * loading)
  const rootSlope = ((speed * speedSlope) / 2 + thrustSlope * loading) / (2 * root)
  const disc = speed / 2 + root
  return {
    thrust,
    speed,
    powerW: thrust * disc,
    slopeW: thrustSlope * disc + thrust * (speedSlope / 2 + rootSlope),
  }
}

function describe(angle: number, flight: ClimbingFlight, withinModel: boolean): SteadyClimb {
  const { thrust, speed, powerW, slopeW } = powerAtAngle(angle, flight)
  return {
    climbAngleRad: angle,
    climbRateMps: speed * Math.sin(angle),
    airspeedMps: speed,
    thrustN: thrust,
    powerW,
    angleSlopeRad: powerW / slopeW,
    withinModel,
  }
}
