import { G0 } from '../../atmosphere/constants.ts'
import { requireInRange } from '../../atmosphere/range.ts'
import { sinClimbAngle } from './trim-speed.ts'

/** Steepest climb the model answers for: beyond it, power need not rise with the angle any more. */
const STEEPEST_RAD = Math.PI / 4
/** A climb of everyday, where nothing better is known to start from. */
const USUAL_RAD = 0.15
const MAX_ITERATIONS = 60
/** A step of Newton's method this small leaves an error of its square, far less than rounding [rad]. */
const LAST_STEP_RAD = 1e-10
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
 * @param startRad angle to start from [rad]: that of a climb nearby, where one is known
 * @returns angle, climb rate (negative: sink), airspeed, thrust
 * @throws {OutOfRangeError} if the power is NaN or lies outside its range
 * @source derived in METHOD.md, section d
 */
export function steadyClimb(
  powerW: number,
  flight: ClimbingFlight,
  startRad = USUAL_RAD,
): SteadyClimb {
  requireInRange('powerW', powerW, POWER_RANGE_W)
  const point = blankPoint()
  const withinModel = solve(point, { powerW, flight, startRad })
  return {
    climbAngleRad: point.angleRad,
    climbRateMps: point.speedMps * Math.sin(point.angleRad),
    airspeedMps: point.speedMps,
    thrustN: point.thrustN,
    powerW: point.powerW,
    angleSlopeRad: point.powerW / point.slopeW,
    withinModel,
  }
}

/**
 * Climb rate of {@link steadyClimb} alone, for models that are run over and over.
 *
 * @param powerW induced power P [W], 0 to 1e6
 * @param flight all-up mass [kg], glide ratio [1], level airspeed [m/s], density [kg/m³], disc [m²]
 * @param startRad angle to start from [rad]: that of a climb nearby
 * @returns climb rate [m/s]; NaN where the power would carry the climb past 45°
 * @throws {OutOfRangeError} if the power is NaN or lies outside its range
 * @source derived in METHOD.md, section d
 */
export function steadyClimbRateMps(
  powerW: number,
  flight: ClimbingFlight,
  startRad: number,
): number {
  requireInRange('powerW', powerW, POWER_RANGE_W)
  const point = blankPoint()
  if (!solve(point, { powerW, flight, startRad })) return Number.NaN
  return point.speedMps * Math.sin(point.angleRad)
}

/**
 * Induced power that a steady climb takes: the inverse of {@link steadyClimbRateMps}.
 *
 * @param climbRateMps climb rate Vc [m/s]; negative: sink
 * @param flight all-up mass [kg], glide ratio [1], level airspeed [m/s], density [kg/m³], disc [m²]
 * @returns induced power [W]; NaN where no such climb exists
 * @source derived in METHOD.md, section d
 */
export function climbPowerW(climbRateMps: number, flight: ClimbingFlight): number {
  const point = blankPoint()
  moveTo(point, Math.asin(sinClimbAngle(climbRateMps / flight.levelAirspeedMps)), flight)
  return point.powerW
}

/** Moves the point to the angle that takes the power; false, at 45°, where none does. */
function solve(
  point: Point,
  given: { readonly powerW: number; readonly flight: ClimbingFlight; readonly startRad: number },
): boolean {
  const { powerW, flight, startRad } = given
  let low = -Math.atan(1 / flight.glideRatio)
  let high = STEEPEST_RAD
  moveTo(point, high, flight)
  if (!(point.powerW > powerW)) return false
  let angle = startRad
  for (let iteration = 0; iteration < MAX_ITERATIONS; iteration++) {
    moveTo(point, angle, flight)
    const error = point.powerW - powerW
    if (error > 0) high = angle
    else low = angle
    const newton = angle - error / point.slopeW
    if (Math.abs(newton - angle) < LAST_STEP_RAD) {
      angle = newton
      break
    }
    angle = newton > low && newton < high ? newton : (low + high) / 2
  }
  moveTo(point, angle, flight)
  return true
}

/** What a climb angle asks for: thrust, airspeed, induced power and its derivative by the angle. */
interface Point {
  angleRad: number
  thrustN: number
  speedMps: number
  powerW: number
  slopeW: number
}

function blankPoint(): Point {
  return {
    angleRad: Number.NaN,
    thrustN: Number.NaN,
    speedMps: Number.NaN,
    powerW: Number.NaN,
    slopeW: Number.NaN,
  }
}

/** Works out a climb angle, in place: a solution looks at half a dozen of them. */
function moveTo(point: Point, angle: number, flight: ClimbingFlight): void {
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
  point.angleRad = angle
  point.thrustN = thrust
  point.speedMps = speed
  point.powerW = thrust * disc
  point.slopeW = thrustSlope * disc + thrust * (speedSlope / 2 + rootSlope)
}
