import { angleBetweenDeg, type Velocity } from './ground-vector.ts'

/** Least determinant of three ground velocities over the square of the greatest ground speed [1]. */
export const LEAST_LEG_DETERMINANT = 0.1
/** Headings of three of the legs lie further apart than this, each from each [°]. */
export const LEAST_HEADING_SPREAD_DEG = 60

/**
 * How far the ground velocities of the legs are from lying on one line: the best three of them.
 *
 *     max |(x2 − x1)(y3 − y1) − (x3 − x1)(y2 − y1)| / |g|²max
 *
 * @param ground ground velocities [m/s], three or more
 * @returns determinant [1], 0 on a line; about 2.6 for headings 120° apart in still air; NaN where no
 *   leg moves
 * @source METHOD.md, section g
 */
export function legDeterminant(ground: readonly Velocity[]): number {
  let greatest = 0
  for (const { x, y } of ground) greatest = Math.max(greatest, x * x + y * y)
  const best = bestOfTriples(ground, (a, b, c) =>
    Math.abs((b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y)),
  )
  return best / greatest
}

/**
 * How far three of the headings lie apart: the smallest of the three angles between them, of the
 * three legs that are best in this.
 *
 * @param headingsDeg directions through the air [°], three or more
 * @returns angle [°], 0 to 120
 * @source METHOD.md, section g
 * @example headingSpreadDeg([0, 90, 180, 270]) // 90
 */
export function headingSpreadDeg(headingsDeg: readonly number[]): number {
  return bestOfTriples(headingsDeg, (a, b, c) =>
    Math.min(angleBetweenDeg(a, b), angleBetweenDeg(b, c), angleBetweenDeg(c, a)),
  )
}

/** Greatest merit that any three of the items have; 0 for fewer than three. */
function bestOfTriples<T>(items: readonly T[], merit: (a: T, b: T, c: T) => number): number {
  let best = 0
  for (let i = 0; i < items.length; i++) {
    for (let j = i + 1; j < items.length; j++) {
      for (let k = j + 1; k < items.length; k++) {
        best = Math.max(best, merit(items[i]!, items[j]!, items[k]!))
      }
    }
  }
  return best
}
