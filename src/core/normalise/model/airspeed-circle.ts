import type { Velocity } from './ground-vector.ts'

/** Circle through or between the ends of ground velocities: centre the wind, radius the airspeed. */
export interface AirspeedCircle {
  readonly wind: Velocity
  readonly trueAirspeedMps: number
  /** √(Σr²/(n − 3)), r_i = |g_i − w| − V [m/s]; null for three points, which leave nothing over. */
  readonly rmsMps: number | null
  /** √[(JᵀJ)⁻¹]_VV: standard uncertainty of V over that of one ground velocity [1]. */
  readonly dilution: number
}

const MAX_ITERATIONS = 100
const MAX_HALVINGS = 30
/** Relative change of the wind that ends the search. */
const CONVERGED = 1e-13

/**
 * Airspeed and wind as the circle nearest to the ends of the ground velocities.
 *
 *     minimise Σ r_i²,  r_i = |g_i − w| − V;   cov = s²·(JᵀJ)⁻¹,  s² = Σr²/(n − 3)
 *
 * Started at the algebraic circle (Kåsa), refined by Gauss-Newton with V eliminated; a step that
 * makes the sum larger is halved.
 *
 * @param ground ground velocities g_i [m/s], three or more, not on one line
 * @returns wind and airspeed [m/s], residual [m/s], dilution [1]; NaN where there is no circle
 * @source I. Kåsa, IEEE Trans. Instrum. Meas. 25 (1976) 8 (start, from memory); least squares as in
 *   METHOD.md, section g
 */
export function airspeedCircle(ground: readonly Velocity[]): AirspeedCircle {
  let wind = algebraicCentre(ground)
  let state = residualsAt(ground, wind)
  for (let iteration = 0; iteration < MAX_ITERATIONS; iteration++) {
    let { stepX, stepY } = state
    let next = state
    for (let halving = 0; halving <= MAX_HALVINGS; halving++) {
      next = residualsAt(ground, { x: wind.x + stepX, y: wind.y + stepY })
      if (next.squares <= state.squares) break
      stepX /= 2
      stepY /= 2
    }
    if (!(next.squares <= state.squares)) break
    wind = { x: wind.x + stepX, y: wind.y + stepY }
    state = next
    if (Math.hypot(stepX, stepY) <= CONVERGED * state.radius) break
  }
  const spare = ground.length - 3
  return {
    wind,
    trueAirspeedMps: state.radius,
    rmsMps: spare === 0 ? null : Math.sqrt(state.squares / spare),
    dilution: state.dilution,
  }
}

/** Centre of the circle that minimises Σ(|g − w|² − V²)²; exact for three points. */
function algebraicCentre(ground: readonly Velocity[]): Velocity {
  const meanX = ground.reduce((sum, { x }) => sum + x, 0) / ground.length
  const meanY = ground.reduce((sum, { y }) => sum + y, 0) / ground.length
  let uu = 0
  let uv = 0
  let vv = 0
  let uz = 0
  let vz = 0
  for (const { x, y } of ground) {
    const u = x - meanX
    const v = y - meanY
    const half = (u * u + v * v) / 2
    uu += u * u
    uv += u * v
    vv += v * v
    uz += u * half
    vz += v * half
  }
  const determinant = uu * vv - uv * uv
  return {
    x: meanX + (uz * vv - vz * uv) / determinant,
    y: meanY + (vz * uu - uz * uv) / determinant,
  }
}

/** Residuals about a centre, V being their mean distance; the Gauss-Newton step; the dilution. */
function residualsAt(ground: readonly Velocity[], wind: Velocity) {
  const n = ground.length
  const distances = ground.map(({ x, y }) => Math.hypot(x - wind.x, y - wind.y))
  const radius = distances.reduce((sum, d) => sum + d, 0) / n
  let squares = 0
  let cx = 0
  let cy = 0
  let cxx = 0
  let cxy = 0
  let cyy = 0
  let rx = 0
  let ry = 0
  ground.forEach(({ x, y }, i) => {
    const d = distances[i]!
    const r = d - radius
    const ux = (x - wind.x) / d
    const uy = (y - wind.y) / d
    squares += r * r
    cx += ux
    cy += uy
    cxx += ux * ux
    cxy += ux * uy
    cyy += uy * uy
    rx += r * ux
    ry += r * uy
  })
  // JᵀJ with V eliminated: what the headings tell of the wind beyond the airspeed.
  const axx = cxx - (cx * cx) / n
  const axy = cxy - (cx * cy) / n
  const ayy = cyy - (cy * cy) / n
  const determinant = axx * ayy - axy * axy
  const whole = cxx * cyy - cxy * cxy
  const explained = (cx * cx * cyy - 2 * cx * cy * cxy + cy * cy * cxx) / whole
  return {
    radius,
    squares,
    stepX: (rx * ayy - ry * axy) / determinant,
    stepY: (ry * axx - rx * axy) / determinant,
    dilution: 1 / Math.sqrt(n - explained),
  }
}
