import { OutOfRangeError } from '../../errors.ts'
import { airspeedCircle } from './airspeed-circle.ts'
import { directionDeg, groundVelocity, type Leg, type Velocity } from './ground-vector.ts'
import {
  headingSpreadDeg,
  LEAST_HEADING_SPREAD_DEG,
  LEAST_LEG_DETERMINANT,
  legDeterminant,
} from './leg-geometry.ts'

/** True airspeed and wind behind the ground velocities of several legs. */
export interface AirspeedAndWind {
  readonly trueAirspeedMps: number
  readonly windMps: number
  /** Where the wind comes from, clockwise from north [°], 0 to below 360. */
  readonly windFromDeg: number
  /** Root mean square of |g_i − w| − V over n − 3 [m/s]; null for three legs, which always fit. */
  readonly rmsMps: number | null
  /** Standard uncertainty of the airspeed over that of the ground velocity of one leg [1]. */
  readonly dilution: number
}

/**
 * True airspeed and wind from the ground velocities of legs flown at one airspeed in one wind.
 *
 *     |g_i − w| = V;   three legs: closed form; more: circle of least squares
 *
 * @param legs tracks [°] and ground speeds [m/s], three or more
 * @returns airspeed [m/s], wind [m/s] and where it comes from [°], residual [m/s], dilution [1]
 * @throws {OutOfRangeError} if the ground velocities are nearly on one line (determinant below
 *   0.1·|g|²max), no three headings lie more than 60° apart, or a number is not finite
 * @source METHOD.md, section g
 */
export function airspeedAndWind(legs: readonly Leg[]): AirspeedAndWind {
  const ground = legs.map(groundVelocity)
  requireAbove('determinant of the legs', legDeterminant(ground), LEAST_LEG_DETERMINANT)
  const circle = airspeedCircle(ground)
  const { trueAirspeedMps, wind } = ground.length === 3 ? ofThreeLegs(ground) : circle
  const headings = ground.map(({ x, y }) => directionDeg({ x: x - wind.x, y: y - wind.y }))
  requireAbove('spread of the headings', headingSpreadDeg(headings), LEAST_HEADING_SPREAD_DEG)
  return {
    trueAirspeedMps,
    windMps: Math.hypot(wind.x, wind.y),
    windFromDeg: directionDeg({ x: -wind.x, y: -wind.y }),
    rmsMps: circle.rmsMps,
    dilution: circle.dilution,
  }
}

/**
 * True airspeed and wind from three ground velocities, in closed form.
 *
 *     2(x2 − x1)·w_x + 2(y2 − y1)·w_y = |g2|² − |g1|²,  likewise 3 and 1;   V = |g1 − w|
 *
 * @param ground three ground velocities [m/s]
 * @returns airspeed and wind [m/s]; infinite or NaN for velocities on one line
 * @source D. Gray, Using GPS to accurately establish true airspeed (1998), as reproduced in public code
 */
export function ofThreeLegs(ground: readonly Velocity[]): {
  readonly trueAirspeedMps: number
  readonly wind: Velocity
} {
  const [a, b, c] = ground as [Velocity, Velocity, Velocity]
  const square = ({ x, y }: Velocity) => x * x + y * y
  const ab = (square(b) - square(a)) / 2
  const ac = (square(c) - square(a)) / 2
  const determinant = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y)
  const wind = {
    x: (ab * (c.y - a.y) - ac * (b.y - a.y)) / determinant,
    y: (ac * (b.x - a.x) - ab * (c.x - a.x)) / determinant,
  }
  return { trueAirspeedMps: Math.hypot(a.x - wind.x, a.y - wind.y), wind }
}

/**
 * True airspeed and wind speed from three ground speeds alone, flown on headings exactly 120° apart.
 *
 *     m = mean(v²),  a_i = v_i²/m − 1,  μ = Σa²/6,  b = ½ + √(¼ − μ),  V = √(m·b),  w = √(m·μ/b)
 *
 * Speeds alone can't tell V from w when they are exchanged: the wind is taken to be the smaller.
 *
 * @param speedsMps three ground speeds v [m/s], above 0
 * @returns airspeed and wind speed [m/s]
 * @throws {OutOfRangeError} if no such flight exists for these speeds
 * @source formula as carried on a builders' mailing list and in public code (seen); derived anew from
 *   |v_i|² = V² + w² + 2·V·w·cos(heading − wind), summed over three headings
 */
export function airspeedOf120DegreeSpeeds(speedsMps: readonly [number, number, number]): {
  readonly trueAirspeedMps: number
  readonly windMps: number
} {
  const squares = speedsMps.map((v) => v * v)
  const mean = squares.reduce((sum, v2) => sum + v2, 0) / 3
  const mu = squares.reduce((sum, v2) => sum + (v2 / mean - 1) ** 2, 0) / 6
  if (!(mu <= 0.25)) throw new OutOfRangeError('spread of the ground speeds', mu, 0, 0.25)
  const b = 0.5 + Math.sqrt(0.25 - mu)
  return { trueAirspeedMps: Math.sqrt(mean * b), windMps: Math.sqrt((mean * mu) / b) }
}

function requireAbove(quantity: string, value: number, least: number): void {
  if (!(value > least && value < Number.POSITIVE_INFINITY)) {
    throw new OutOfRangeError(quantity, value, least, Number.POSITIVE_INFINITY)
  }
}
