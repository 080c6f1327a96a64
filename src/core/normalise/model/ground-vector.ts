/** One leg of level flight at constant heading, as a satellite receiver shows it. */
export interface Leg {
  /** Direction of the motion over the ground, clockwise from north [°]. */
  readonly trackDeg: number
  /** Speed over the ground [m/s]. */
  readonly groundSpeedMps: number
}

/** A horizontal velocity: x towards east, y towards north [m/s]. */
export interface Velocity {
  readonly x: number
  readonly y: number
}

/**
 * Ground velocity of a leg.
 *
 *     x = g·sin χ,  y = g·cos χ
 *
 * @param leg track χ [°] and ground speed g [m/s]
 * @returns velocity over the ground [m/s]
 * @source geometry
 */
export function groundVelocity({ trackDeg, groundSpeedMps }: Leg): Velocity {
  const track = (trackDeg * Math.PI) / 180
  return { x: groundSpeedMps * Math.sin(track), y: groundSpeedMps * Math.cos(track) }
}

/**
 * Direction of a velocity, clockwise from north.
 *
 *     χ = atan2(x, y)
 *
 * @param velocity a horizontal velocity [m/s]
 * @returns direction [°], 0 to below 360; 0 for no motion
 * @source geometry
 * @example directionDeg({ x: 1, y: 1 }) // 45
 */
export function directionDeg({ x, y }: Velocity): number {
  const degrees = (Math.atan2(x, y) * 180) / Math.PI
  return degrees < 0 ? (degrees + 360) % 360 : degrees
}

/**
 * Smaller angle between two directions.
 *
 * @param aDeg a direction [°], any
 * @param bDeg another [°], any
 * @returns angle [°], 0 to 180
 * @source geometry
 * @example angleBetweenDeg(350, 20) // 30
 */
export function angleBetweenDeg(aDeg: number, bDeg: number): number {
  const turn = Math.abs(aDeg - bDeg) % 360
  return turn > 180 ? 360 - turn : turn
}
